#include "lattice.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const struct search_weights search_usual = {
	.language_share = 7, .word_cost = 8, .beam = 150, .word_beam = 100, .margin = 120};

static const float never = -1e30f;

/* How good the best way to a part is, to where its word began, and when that was. */
struct token {
	float score, before;
	int first_frame;
};

struct search {
	const struct automaton *automaton;
	struct search_weights weights;
	int outputs, silence;
	struct strand *strands; /* sorted by `from` */
	int strand_count;
	int *leaving; /* first strand of each state; one more than states */
	struct silent *silents;
	int silent_count;
	int *parts; /* outputs of all strands */
	int part_count;
	/* While searching: */
	struct token *tokens; /* of each part */
	int *active;	      /* numbers of strands */
	int active_count;
	bool *is_active;
	float *strand_best;
	float *ended, *silent, *open; /* of each state: a word just ended, silence since, either */
};

static int
count_parts(struct search *search, const struct sounding *sounding, bool fill)
{
	const struct arc *arcs = automaton_arcs(search->automaton);
	int strands = 0, parts = 0, silents = 0;
	for (int i = 0; i < automaton_arc_count(search->automaton); i++) {
		float weight = search->weights.language_share * logf(fmaxf(arcs[i].weight, 1e-6f));
		if (arcs[i].word < 0) {
			if (fill)
				search->silents[silents] =
					(struct silent){arcs[i].from, arcs[i].to, weight};
			silents++;
			continue;
		}
		const char *word = automaton_word(search->automaton, arcs[i].word);
		const struct sounded *sounded = sounding_of(sounding, word, strlen(word));
		for (int w = 0; sounded != NULL && w < sounded->way_count; w++) {
			const struct way *way = &sounded->ways[w];
			if (fill) {
				search->strands[strands] = (struct strand){
					arcs[i].from, arcs[i].to,
					arcs[i].word, weight - search->weights.word_cost,
					parts,	      way->count};
				memcpy(search->parts + parts, way->outputs,
				       sizeof *way->outputs * (size_t)way->count);
			}
			strands++;
			parts += way->count;
		}
	}
	search->strand_count = strands;
	search->part_count = parts;
	search->silent_count = silents;
	return strands;
}

static void
find_leaving(struct search *search)
{
	int states = automaton_state_count(search->automaton), strand = 0;
	for (int state = 0; state <= states; state++) {
		while (strand < search->strand_count && search->strands[strand].from < state)
			strand++;
		search->leaving[state] = strand;
	}
}

struct search *
search_create(const struct automaton *automaton, const struct sounding *sounding, int outputs,
	      const struct search_weights *weights)
{
	struct search *search = calloc(1, sizeof *search);
	if (search == NULL)
		return NULL;
	search->automaton = automaton;
	search->outputs = outputs;
	search->weights = *weights;
	search->silence = sounding_silence(sounding);
	count_parts(search, sounding, false);
	size_t states = (size_t)automaton_state_count(automaton) + 1;
	size_t strands = (size_t)search->strand_count + 1, parts = (size_t)search->part_count + 1;
	search->strands = calloc(strands, sizeof *search->strands);
	search->leaving = calloc(states, sizeof *search->leaving);
	search->silents = calloc((size_t)search->silent_count + 1, sizeof *search->silents);
	search->parts = calloc(parts, sizeof *search->parts);
	search->tokens = calloc(parts, sizeof *search->tokens);
	search->active = calloc(strands, sizeof *search->active);
	search->is_active = calloc(strands, sizeof *search->is_active);
	search->strand_best = calloc(strands, sizeof *search->strand_best);
	search->ended = calloc(states, sizeof *search->ended);
	search->silent = calloc(states, sizeof *search->silent);
	search->open = calloc(states, sizeof *search->open);
	if (search->strands == NULL || search->leaving == NULL || search->silents == NULL ||
	    search->parts == NULL || search->tokens == NULL || search->active == NULL ||
	    search->is_active == NULL || search->strand_best == NULL || search->ended == NULL ||
	    search->silent == NULL || search->open == NULL) {
		search_destroy(search);
		return NULL;
	}
	count_parts(search, sounding, true);
	find_leaving(search);
	return search;
}

void
search_destroy(struct search *search)
{
	if (search == NULL)
		return;
	free(search->strands);
	free(search->leaving);
	free(search->silents);
	free(search->parts);
	free(search->tokens);
	free(search->active);
	free(search->is_active);
	free(search->strand_best);
	free(search->ended);
	free(search->silent);
	free(search->open);
	free(search);
}

/* A silent arc is as open as the state it comes from; two may follow each other. */
static void
pass_silents(struct search *search)
{
	for (int twice = 0; twice < 2; twice++)
		for (int i = 0; i < search->silent_count; i++) {
			const struct silent *silent = &search->silents[i];
			search->open[silent->to] =
				fmaxf(search->open[silent->to],
				      search->open[silent->from] + silent->weight);
		}
}

static void
begin(struct search *search)
{
	int states = automaton_state_count(search->automaton);
	for (int i = 0; i < states; i++)
		search->ended[i] = search->silent[i] = search->open[i] = never;
	search->ended[0] = search->open[0] = 0;
	pass_silents(search);
	memset(search->is_active, 0, sizeof *search->is_active * (size_t)search->strand_count);
	search->active_count = 0;
}

/* Strands that leave a state within the beam run along from this frame on. */
static void
enter(struct search *search, float least)
{
	int states = automaton_state_count(search->automaton);
	for (int state = 0; state < states; state++) {
		if (search->open[state] < least)
			continue;
		for (int i = search->leaving[state]; i < search->leaving[state + 1]; i++) {
			const struct strand *strand = &search->strands[i];
			if (search->is_active[i] || search->open[state] + strand->entering < least)
				continue;
			search->is_active[i] = true;
			search->active[search->active_count++] = i;
			for (int k = 0; k < strand->count; k++)
				search->tokens[strand->first + k].score = never;
		}
	}
}

static float
step(struct search *search, int number, const float *row, int frame)
{
	const struct strand *strand = &search->strands[number];
	struct token *tokens = search->tokens + strand->first;
	const int *parts = search->parts + strand->first;
	float best = never, open = search->open[strand->from];
	for (int k = strand->count - 1; k > 0; k--) {
		if (tokens[k - 1].score > tokens[k].score)
			tokens[k] = tokens[k - 1];
		tokens[k].score += row[parts[k]];
		best = fmaxf(best, tokens[k].score);
	}
	if (open + strand->entering > tokens[0].score)
		tokens[0] = (struct token){open + strand->entering, open, frame};
	tokens[0].score += row[parts[0]];
	return fmaxf(best, tokens[0].score);
}

static bool
end_words(struct search *search, int frame, float best, struct lattice *lattice)
{
	float least = best - search->weights.beam, likely = best - search->weights.word_beam;
	int kept = 0;
	for (int i = 0; i < search->active_count; i++) {
		int number = search->active[i];
		const struct strand *strand = &search->strands[number];
		if (search->strand_best[number] < least) {
			search->is_active[number] = false;
			continue;
		}
		search->active[kept++] = number;
		const struct token *last = &search->tokens[strand->first + strand->count - 1];
		if (last->score < likely)
			continue;
		struct ending ending = {number,	      last->first_frame, frame,
					last->before, last->score,	 -1};
		if (!lattice_add(lattice, ending))
			return false;
		search->ended[strand->to] = fmaxf(search->ended[strand->to], last->score);
	}
	search->active_count = kept;
	return true;
}

static bool
run(struct search *search, const float *scores, int frames, struct lattice *lattice)
{
	int states = automaton_state_count(search->automaton);
	float best = 0;
	begin(search);
	for (int frame = 0; frame < frames; frame++) {
		const float *row = scores + (size_t)frame * (size_t)search->outputs;
		enter(search, best - search->weights.beam);
		float now = never;
		for (int i = 0; i < search->active_count; i++) {
			int number = search->active[i];
			search->strand_best[number] = step(search, number, row, frame);
			now = fmaxf(now, search->strand_best[number]);
		}
		for (int i = 0; i < states; i++) {
			search->silent[i] =
				fmaxf(search->silent[i], search->ended[i]) + row[search->silence];
			search->ended[i] = never;
			now = fmaxf(now, search->silent[i]);
		}
		best = now;
		if (!end_words(search, frame, best, lattice))
			return false;
		for (int i = 0; i < states; i++)
			search->open[i] = fmaxf(search->ended[i], search->silent[i]);
		pass_silents(search);
	}
	return true;
}

bool
search_find(struct search *search, const float *scores, int frames, struct found *found)
{
	struct lattice lattice = {.automaton = search->automaton,
				  .strands = search->strands,
				  .silents = search->silents,
				  .silent_count = search->silent_count,
				  .frames = frames};
	int states = automaton_state_count(search->automaton);
	lattice.latest = malloc(sizeof *lattice.latest * (size_t)states);
	lattice.silence = malloc(sizeof *lattice.silence * ((size_t)frames + 1));
	bool done = lattice.latest != NULL && lattice.silence != NULL;
	found->count = 0;
	for (int i = 0; done && i < states; i++)
		lattice.latest[i] = -1;
	for (int frame = 0; done && frame <= frames; frame++)
		lattice.silence[frame] =
			frame == 0 ? 0
				   : lattice.silence[frame - 1] +
					     scores[(size_t)(frame - 1) * (size_t)search->outputs +
						    (size_t)search->silence];
	done = done && run(search, scores, frames, &lattice);
	lattice.best = never;
	for (int i = 0; done && i < states; i++)
		if (automaton_final(search->automaton, i))
			lattice.best = fmax(lattice.best, search->open[i]);
	done = done &&
	       (lattice.best < never / 2 || lattice_read(&lattice, search->weights.margin, found));
	free(lattice.endings);
	free(lattice.latest);
	free(lattice.silence);
	return done;
}
