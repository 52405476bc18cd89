#include "hubs.h"

#include <stdlib.h>

enum { SOURCES_MIN = 2, WORDS_MIN = 8 };

/* Sets are counted only as far as it matters. */
struct meeting {
	int sources[SOURCES_MIN]; /* states from which silent ways lead here */
	int source_count;
	int words[WORDS_MIN]; /* that go on from here, other than through a hub */
	int word_count;
	int ways_in;
	bool waiting, visited;
	int edge; /* the next one to follow */
};

struct choice {
	const struct expansion *expansion;
	struct meeting *meetings;
	int *stack;
	int stack_count;
};

void
hubs_mark_states(const struct expansion *expansion, bool *is_state)
{
	for (int i = 0; i < expansion->node_count; i++)
		is_state[i] = i == expansion->start || i == expansion->end;
	for (int i = 0; i < expansion->edge_count; i++)
		if (expansion->edges[i].word >= 0)
			is_state[expansion->edges[i].to] = true;
}

/* Adds to a set, if there is room; whether it became larger. */
static bool
add(int *set, int *count, int most, int member)
{
	for (int i = 0; i < *count; i++)
		if (set[i] == member)
			return false;
	if (*count == most)
		return false;
	set[(*count)++] = member;
	return true;
}

static void
push(struct choice *choice, int node)
{
	if (choice->meetings[node].waiting)
		return;
	choice->meetings[node].waiting = true;
	choice->stack[choice->stack_count++] = node;
}

/* Carries each state along the silent edges, to where it meets another. */
static void
find_sources(struct choice *choice, const bool *is_state)
{
	const struct expansion *expansion = choice->expansion;
	struct meeting *meetings = choice->meetings;

	for (int i = 0; i < expansion->node_count; i++) {
		if (!is_state[i])
			continue;
		meetings[i].ways_in++;
		add(meetings[i].sources, &meetings[i].source_count, SOURCES_MIN, i);
		push(choice, i);
	}
	while (choice->stack_count > 0) {
		int from = choice->stack[--choice->stack_count];
		meetings[from].waiting = false;
		for (int i = expansion->nodes[from].first_silent; i >= 0;
		     i = expansion->edges[i].next) {
			const struct edge *edge = &expansion->edges[i];
			struct meeting *to = &meetings[edge->to];
			bool more = false;
			for (int k = 0; k < meetings[from].source_count; k++)
				more |= add(to->sources, &to->source_count, SOURCES_MIN,
					    meetings[from].sources[k]);
			if (more)
				push(choice, edge->to);
		}
	}
}

/* All that goes on from the node has been looked at. */
static void
decide(struct choice *choice, int node, bool *is_hub)
{
	const struct expansion *expansion = choice->expansion;
	struct meeting *meeting = &choice->meetings[node];

	for (int i = expansion->nodes[node].first_word; i >= 0; i = expansion->edges[i].next)
		add(meeting->words, &meeting->word_count, WORDS_MIN, expansion->edges[i].word);
	for (int i = expansion->nodes[node].first_silent; i >= 0; i = expansion->edges[i].next) {
		int next = expansion->edges[i].to;
		const struct meeting *to = &choice->meetings[next];
		for (int k = 0; !is_hub[next] && k < to->word_count; k++)
			add(meeting->words, &meeting->word_count, WORDS_MIN, to->words[k]);
	}
	is_hub[node] = meeting->ways_in >= 2 && meeting->source_count == SOURCES_MIN &&
		       meeting->word_count == WORDS_MIN;
}

/* Follows the silent edges in depth and decides from the far end on. */
static void
decide_from(struct choice *choice, int start, bool *is_hub)
{
	const struct expansion *expansion = choice->expansion;
	struct meeting *meetings = choice->meetings;

	if (meetings[start].visited)
		return;
	meetings[start].visited = true;
	choice->stack[choice->stack_count++] = start;
	while (choice->stack_count > 0) {
		int node = choice->stack[choice->stack_count - 1];
		int *edge = &meetings[node].edge;
		while (*edge >= 0 && meetings[expansion->edges[*edge].to].visited)
			*edge = expansion->edges[*edge].next;
		if (*edge < 0) {
			decide(choice, node, is_hub);
			choice->stack_count--;
			continue;
		}
		int to = expansion->edges[*edge].to;
		meetings[to].visited = true;
		choice->stack[choice->stack_count++] = to;
	}
}

bool
hubs_choose(const struct expansion *expansion, const bool *is_state, bool *is_hub)
{
	size_t count = (size_t)expansion->node_count;
	struct choice choice = {
		.expansion = expansion,
		.meetings = calloc(count, sizeof *choice.meetings),
		.stack = calloc(count, sizeof *choice.stack),
	};
	bool good = choice.meetings != NULL && choice.stack != NULL;

	if (good) {
		for (int i = 0; i < expansion->node_count; i++)
			choice.meetings[i].edge = expansion->nodes[i].first_silent;
		for (int i = 0; i < expansion->edge_count; i++)
			if (expansion->edges[i].word < 0)
				choice.meetings[expansion->edges[i].to].ways_in++;
		find_sources(&choice, is_state);
		for (int i = 0; i < expansion->node_count; i++)
			decide_from(&choice, i, is_hub);
	}
	free(choice.meetings);
	free(choice.stack);
	return good;
}
