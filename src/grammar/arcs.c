/* Takes the silent edges out of an expansion. */
#include "arcs.h"

#include "growth.h"
#include "hubs.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

/* How many steps along silent edges are reasonable; the shipped grammar takes a few thousand. */
enum { STEPS_MAX = 20 * 1000 * 1000 };

/* A node on a way, and whether the way has gone through a hub: what follows a hub is the hub's. */
enum passed { PASSED_NONE, PASSED_HUB, PASSED_KINDS };

struct finding {
	const struct expansion *expansion;
	const char *file;
	struct problem *problem;
	struct arcs *arcs;
	int arcs_max;
	bool *is_state, *is_hub;
	int *state_of, *hub_of; /* the numbers that nodes have as states and as hubs */
	float *best;		/* of each node and `passed`: the weight of the best way there */
	int *reached;		/* those that have a way, in order of being reached */
	int reached_count;
	int *queue;
	bool *queued;
	int queue_first, queue_count;
	int steps;
};

static bool
no_memory(const struct finding *finding)
{
	return problem_say(finding->problem, "%s: there is no memory left for it", finding->file);
}

static bool
explodes(const struct finding *finding)
{
	return problem_say(finding->problem,
			   "%s: this grammar explodes: too many words may follow each other, it "
			   "would need more than %d arcs",
			   finding->file, finding->arcs_max);
}

static bool
add_arc(struct finding *finding, int from, int to, int word, float weight)
{
	struct arcs *arcs = finding->arcs;
	if (arcs->arc_count >= finding->arcs_max)
		return explodes(finding);
	if (!growth_reserve(&arcs->arcs, &arcs->arc_room, arcs->arc_count + 1, sizeof *arcs->arcs))
		return no_memory(finding);
	arcs->arcs[arcs->arc_count++] =
		(struct arc){from, to, word, weight > FLT_MIN ? weight : FLT_MIN};
	return true;
}

static void
reach(struct finding *finding, int node, enum passed passed, float weight)
{
	int place = PASSED_KINDS * node + (int)passed;
	int room = PASSED_KINDS * finding->expansion->node_count;

	if (weight <= finding->best[place])
		return;
	if (finding->best[place] <= 0)
		finding->reached[finding->reached_count++] = place;
	finding->best[place] = weight;
	if (finding->queued[place])
		return;
	finding->queued[place] = true;
	finding->queue[(finding->queue_first + finding->queue_count++) % room] = place;
}

/* All nodes that silent ways from `from` lead to, with the best weights. From a hub the ways end
 * where another hub begins. */
static bool
follow(struct finding *finding, int from, bool of_hub)
{
	const struct expansion *expansion = finding->expansion;
	const bool *is_hub = finding->is_hub;
	int room = PASSED_KINDS * expansion->node_count;

	reach(finding, from, is_hub[from] && !of_hub ? PASSED_HUB : PASSED_NONE, 1);
	while (finding->queue_count > 0) {
		int place = finding->queue[finding->queue_first];
		int node = place / PASSED_KINDS;
		bool passed = place % PASSED_KINDS == PASSED_HUB;
		finding->queue_first = (finding->queue_first + 1) % room;
		finding->queue_count--;
		finding->queued[place] = false;
		for (int i = expansion->nodes[node].first_silent; i >= 0;
		     i = expansion->edges[i].next) {
			const struct edge *edge = &expansion->edges[i];
			if (++finding->steps > STEPS_MAX)
				return explodes(finding);
			if (of_hub && is_hub[edge->to])
				continue;
			float weight = finding->best[place] * edge->weight;
			reach(finding, edge->to,
			      passed || is_hub[edge->to] ? PASSED_HUB : PASSED_NONE,
			      weight > FLT_MIN ? weight : FLT_MIN);
		}
	}
	return true;
}

static bool
add_words(struct finding *finding, int state, int node, float weight)
{
	const struct expansion *expansion = finding->expansion;
	for (int i = expansion->nodes[node].first_word; i >= 0; i = expansion->edges[i].next) {
		const struct edge *edge = &expansion->edges[i];
		if (!add_arc(finding, state, finding->state_of[edge->to], edge->word,
			     weight * edge->weight))
			return false;
	}
	return true;
}

/* The arcs of the state, or hub, that a node becomes. */
static bool
add_state_arcs(struct finding *finding, int from, bool of_hub)
{
	int end = finding->expansion->end;
	int state = of_hub ? finding->hub_of[from] : finding->state_of[from];
	struct state *made = &finding->arcs->states[state];
	bool good = follow(finding, from, of_hub);

	made->first = finding->arcs->arc_count;
	for (int i = 0; i < finding->reached_count; i++) {
		int place = finding->reached[i], node = place / PASSED_KINDS;
		float weight = finding->best[place];
		finding->best[place] = 0;
		finding->queued[place] = false;
		if (good && place % PASSED_KINDS == PASSED_NONE)
			good = add_words(finding, state, node, weight);
		if (good && !of_hub && finding->is_hub[node])
			good = add_arc(finding, state, finding->hub_of[node], -1, weight);
		if (good && !of_hub && node == end && from != end)
			good = add_arc(finding, state, finding->state_of[end], -1, weight);
	}
	finding->reached_count = 0;
	finding->queue_count = 0;
	made->count = finding->arcs->arc_count - made->first;
	return good;
}

static bool
number_states(struct finding *finding)
{
	const struct expansion *expansion = finding->expansion;
	struct arcs *arcs = finding->arcs;
	int count = 0;

	for (int i = 0; i < expansion->node_count; i++) {
		finding->state_of[i] = finding->is_state[i] ? count++ : -1;
		finding->hub_of[i] = finding->is_hub[i] ? count++ : -1;
	}
	if (!growth_reserve(&arcs->states, &arcs->state_room, count, sizeof *arcs->states))
		return no_memory(finding);
	memset(arcs->states, 0, (size_t)count * sizeof *arcs->states);
	arcs->state_count = count;
	arcs->start = finding->state_of[expansion->start];
	arcs->end = finding->state_of[expansion->end];
	for (int i = 0; i < expansion->node_count; i++) {
		if (finding->is_hub[i])
			arcs->states[finding->hub_of[i]].hub = true;
	}
	return true;
}

bool
arcs_find(struct arcs *arcs, const struct expansion *expansion, const char *file, int arcs_max,
	  struct problem *problem)
{
	size_t nodes = (size_t)expansion->node_count;
	struct finding finding = {
		.expansion = expansion,
		.file = file,
		.problem = problem,
		.arcs = arcs,
		.arcs_max = arcs_max,
		.is_state = calloc(nodes, sizeof *finding.is_state),
		.is_hub = calloc(nodes, sizeof *finding.is_hub),
		.state_of = calloc(nodes, sizeof *finding.state_of),
		.hub_of = calloc(nodes, sizeof *finding.hub_of),
		.best = calloc(PASSED_KINDS * nodes, sizeof *finding.best),
		.reached = calloc(PASSED_KINDS * nodes, sizeof *finding.reached),
		.queue = calloc(PASSED_KINDS * nodes, sizeof *finding.queue),
		.queued = calloc(PASSED_KINDS * nodes, sizeof *finding.queued),
	};
	bool good = finding.is_state != NULL && finding.is_hub != NULL &&
		    finding.state_of != NULL && finding.hub_of != NULL && finding.best != NULL &&
		    finding.reached != NULL && finding.queue != NULL && finding.queued != NULL;

	if (good) {
		hubs_mark_states(expansion, finding.is_state);
		good = hubs_choose(expansion, finding.is_state, finding.is_hub);
	}
	good = good ? number_states(&finding) : no_memory(&finding);
	for (int i = 0; good && i < expansion->node_count; i++) {
		if (finding.is_state[i])
			good = add_state_arcs(&finding, i, false);
		if (good && finding.is_hub[i])
			good = add_state_arcs(&finding, i, true);
	}
	free(finding.is_state);
	free(finding.is_hub);
	free(finding.state_of);
	free(finding.hub_of);
	free(finding.best);
	free(finding.reached);
	free(finding.queue);
	free(finding.queued);
	return good;
}

void
arcs_finish(struct arcs *arcs)
{
	free(arcs->states);
	free(arcs->arcs);
	memset(arcs, 0, sizeof *arcs);
}
