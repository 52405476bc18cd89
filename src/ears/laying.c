#include "laying.h"

#include <float.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { STATES_MAX = 2048 };

struct laying {
	const struct network *network;
	const struct sounding *sounding;
};

struct laying *
laying_create(const struct network *network, const struct sounding *sounding)
{
	struct laying *laying = malloc(sizeof *laying);
	if (laying != NULL)
		*laying = (struct laying){network, sounding};
	return laying;
}

void
laying_destroy(struct laying *laying)
{
	free(laying);
}

/* A text as a graph of states. Each stays, or is entered from the one before; the first part of a
 * word from any end of the word before, or from the silence after it; that silence from those ends.
 */
struct state {
	int output;
	int word; /* -1: silence */
	int from; /* the state before, in the same way; -1: from the ends before */
	int ends; /* entered from the ends with this number; -1: not */
	int parts;
};

struct graph {
	int count;
	struct state states[STATES_MAX];
	int ends_count[LAID_WORDS_MAX + 1];
	int ends[LAID_WORDS_MAX + 1][WAYS_MAX + 1]; /* of word n - 1; 0: the beginning */
	int words;
};

static bool
add_state(struct graph *graph, struct state state)
{
	if (graph->count == STATES_MAX)
		return false;
	graph->states[graph->count++] = state;
	return true;
}

static bool
add_word(const struct laying *laying, struct graph *graph, const struct sounded *sounded)
{
	int word = graph->words++, ends = 0;
	for (int w = 0; w < sounded->way_count; w++) {
		const struct way *way = &sounded->ways[w];
		for (int i = 0; i < way->count; i++) {
			struct state state = {way->outputs[i], word, i > 0 ? graph->count - 1 : -1,
					      i > 0 ? -1 : word, way->count};
			if (!add_state(graph, state))
				return false;
		}
		graph->ends[word + 1][ends++] = graph->count - 1;
	}
	graph->ends_count[word + 1] = ends;
	if (!add_state(graph,
		       (struct state){sounding_silence(laying->sounding), -1, -1, word + 1, 0}))
		return false;
	graph->ends[word + 1][ends] = graph->count - 1;
	graph->ends_count[word + 1]++;
	return true;
}

static bool
build(const struct laying *laying, const char *text, struct graph *graph)
{
	graph->count = graph->words = 0;
	add_state(graph, (struct state){sounding_silence(laying->sounding), -1, -1, -1, 0});
	graph->ends[0][0] = 0;
	graph->ends_count[0] = 1;
	while (*text != '\0') {
		size_t length = strcspn(text, " ");
		const struct sounded *sounded = sounding_of(laying->sounding, text, length);
		if (sounded == NULL || graph->words == LAID_WORDS_MAX ||
		    !add_word(laying, graph, sounded))
			return false;
		text += length;
		text += strspn(text, " ");
	}
	return graph->words > 0;
}

/* Where a state is best entered from; itself stays out of it. */
static int
best_before(const struct graph *graph, const struct state *state, const float *past, int self)
{
	if (state->from >= 0)
		return state->from;
	int best = self;
	if (state->ends < 0)
		return best;
	for (int i = 0; i < graph->ends_count[state->ends]; i++) {
		int end = graph->ends[state->ends][i];
		if (end != self && (best == self || past[end] > past[best]))
			best = end;
	}
	return best;
}

static void
read_back(const struct graph *graph, const int16_t *came_from, int frames, int last,
	  const float *scores, int outputs, struct laid *laid, float *frame_scores)
{
	int state = last;
	for (int i = 0; i < graph->words; i++)
		laid->words[i] = (struct laid_word){frames, -1, 0, 0};
	for (int frame = frames - 1; frame >= 0; frame--) {
		int word = graph->states[state].word;
		float score = scores[(size_t)frame * (size_t)outputs +
				     (size_t)graph->states[state].output];
		if (frame_scores != NULL)
			frame_scores[frame] = score;
		if (word >= 0) {
			struct laid_word *laid_word = &laid->words[word];
			laid_word->first_frame = frame;
			if (laid_word->last_frame < 0)
				laid_word->last_frame = frame;
			laid_word->parts = graph->states[state].parts;
			laid_word->score += score;
		}
		state = came_from[(size_t)frame * (size_t)graph->count + (size_t)state];
	}
}

static void
search(const struct graph *graph, const float *scores, int outputs, int frames, int16_t *came_from,
       struct laid *laid, float *frame_scores)
{
	static const float never = -1e30f;
	float first[STATES_MAX], second[STATES_MAX], *past = first, *now = second;
	for (int s = 0; s < graph->count; s++) {
		/* It begins with the silence before the words, or with the first of them. */
		bool begins = s == 0 || (graph->states[s].from < 0 && graph->states[s].ends == 0);
		past[s] = begins ? scores[graph->states[s].output] : never;
		came_from[s] = (int16_t)s;
	}
	for (int frame = 1; frame < frames; frame++) {
		const float *row = scores + (size_t)frame * (size_t)outputs;
		for (int s = 0; s < graph->count; s++) {
			int before = best_before(graph, &graph->states[s], past, s);
			if (past[s] >= past[before])
				before = s;
			now[s] = past[before] + row[graph->states[s].output];
			came_from[(size_t)frame * (size_t)graph->count + (size_t)s] =
				(int16_t)before;
		}
		float *swap = past;
		past = now;
		now = swap;
	}
	int last = graph->ends[graph->words][0];
	for (int i = 1; i < graph->ends_count[graph->words]; i++)
		if (past[graph->ends[graph->words][i]] > past[last])
			last = graph->ends[graph->words][i];
	laid->possible = past[last] > never / 2;
	laid->score = past[last];
	laid->word_count = graph->words;
	if (laid->possible)
		read_back(graph, came_from, frames, last, scores, outputs, laid, frame_scores);
}

void
laying_lay(const struct laying *laying, const float *scores, int frames, const char *text,
	   struct laid *laid, float *frame_scores)
{
	struct graph *graph = malloc(sizeof *graph);
	int16_t *came_from = NULL;
	laid->possible = false;
	laid->score = -1e30f;
	laid->word_count = 0;
	if (graph != NULL && frames > 0 && build(laying, text, graph))
		came_from = malloc(sizeof *came_from * (size_t)graph->count * (size_t)frames);
	if (came_from != NULL)
		search(graph, scores, network_outputs(laying->network), frames, came_from, laid,
		       frame_scores);
	free(came_from);
	free(graph);
}

bool
laying_anything(const struct laying *laying, const float *scores, int frames, float *frame_scores)
{
	/* What entering another phone costs, in nats: without it a loop flutters from phone to
	 * phone and fits noise as well as speech. */
	const float entering = 2;
	const struct network *network = laying->network;
	int outputs = network_outputs(network);
	int16_t *came_from = malloc(sizeof *came_from * (size_t)outputs * (size_t)frames);
	float *past = malloc(sizeof *past * (size_t)outputs);
	float *now = malloc(sizeof *now * (size_t)outputs);
	bool done = came_from != NULL && past != NULL && now != NULL && frames > 0;
	if (done)
		memcpy(past, scores, sizeof *past * (size_t)outputs);
	for (int frame = 1; done && frame < frames; frame++) {
		int best_end = 0;
		float best = -FLT_MAX;
		for (int i = 0; i < network_phone_count(network); i++) {
			int parts, first = network_phone_at(network, i, &parts);
			if (past[first + parts - 1] > best) {
				best = past[first + parts - 1];
				best_end = first + parts - 1;
			}
		}
		for (int i = 0; i < network_phone_count(network); i++) {
			int parts, first = network_phone_at(network, i, &parts);
			for (int k = 0; k < parts; k++) {
				int output = first + k;
				int before = k > 0 ? output - 1 : best_end;
				float entered = k > 0 ? past[output - 1] : best - entering;
				bool stays = past[output] >= entered;
				now[output] =
					(stays ? past[output] : entered) +
					scores[(size_t)frame * (size_t)outputs + (size_t)output];
				came_from[(size_t)frame * (size_t)outputs + (size_t)output] =
					(int16_t)(stays ? output : before);
			}
		}
		float *swap = past;
		past = now;
		now = swap;
	}
	int state = 0;
	for (int i = 1; done && i < outputs; i++)
		if (past[i] > past[state])
			state = i;
	for (int frame = frames - 1; done && frame >= 0; frame--) {
		frame_scores[frame] = scores[(size_t)frame * (size_t)outputs + (size_t)state];
		if (frame > 0)
			state = came_from[(size_t)frame * (size_t)outputs + (size_t)state];
	}
	free(came_from);
	free(past);
	free(now);
	return done;
}
