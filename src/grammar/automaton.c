#include "automaton.h"

#include "arcs.h"
#include "jsgf_tree.h"

#include <stdlib.h>
#include <string.h>

enum { STATES_MAX = 20000, ARCS_TO_A_STATE = 20 };

struct automaton {
	struct arcs graph;
	struct names *words;
	bool *opening; /* of each word: it begins a new call */
};

/* Numbers anew the words that are left, and keeps which of them open a call. */
static bool
keep_words(struct automaton *automaton, const struct jsgf *jsgf, const struct expansion *expansion)
{
	struct arcs *graph = &automaton->graph;
	int count = names_count(jsgf->words);
	int *number_of = malloc(((size_t)count + 1) * sizeof *number_of);
	bool *opening = calloc((size_t)count + 1, sizeof *opening);

	automaton->words = names_create();
	automaton->opening = calloc((size_t)count + 1, sizeof *automaton->opening);
	bool good = number_of != NULL && opening != NULL && automaton->words != NULL &&
		    automaton->opening != NULL && expansion_opening_words(expansion, opening);
	for (int i = 0; good && i < count; i++)
		number_of[i] = -1;
	for (int i = 0; good && i < graph->arc_count; i++)
		if (graph->arcs[i].word >= 0)
			number_of[graph->arcs[i].word] = 0;
	for (int i = 0; good && i < count; i++) {
		const char *word = names_text(jsgf->words, i);
		if (number_of[i] < 0)
			continue;
		number_of[i] = names_add(automaton->words, word, strlen(word));
		good = number_of[i] >= 0;
		if (good)
			automaton->opening[number_of[i]] = opening[i];
	}
	for (int i = 0; good && i < graph->arc_count; i++)
		if (graph->arcs[i].word >= 0)
			graph->arcs[i].word = number_of[graph->arcs[i].word];
	free(number_of);
	free(opening);
	return good;
}

struct automaton *
automaton_compile(const struct jsgf *jsgf, int states_max, struct problem *problem)
{
	struct automaton *automaton = calloc(1, sizeof *automaton);
	struct expansion expansion = {0};
	bool good = automaton != NULL;

	if (states_max == 0)
		states_max = STATES_MAX;
	if (!good)
		problem_say(problem, "%s: there is no memory left for it", jsgf->file);
	good = good && expansion_build(&expansion, jsgf, states_max, problem) &&
	       arcs_find(&automaton->graph, &expansion, jsgf->file, ARCS_TO_A_STATE * states_max,
			 problem) &&
	       arcs_reduce(&automaton->graph, jsgf->file, problem);
	if (good && !keep_words(automaton, jsgf, &expansion))
		good = problem_say(problem, "%s: there is no memory left for it", jsgf->file);
	expansion_finish(&expansion);
	if (good)
		return automaton;
	automaton_destroy(automaton);
	return NULL;
}

void
automaton_destroy(struct automaton *automaton)
{
	if (automaton == NULL)
		return;
	arcs_finish(&automaton->graph);
	names_destroy(automaton->words);
	free(automaton->opening);
	free(automaton);
}

int
automaton_state_count(const struct automaton *automaton)
{
	return automaton->graph.state_count;
}

int
automaton_arc_count(const struct automaton *automaton)
{
	return automaton->graph.arc_count;
}

const struct arc *
automaton_arcs(const struct automaton *automaton)
{
	return automaton->graph.arcs;
}

bool
automaton_final(const struct automaton *automaton, int state)
{
	return state == automaton->graph.end;
}

int
automaton_word_count(const struct automaton *automaton)
{
	return names_count(automaton->words);
}

const char *
automaton_word(const struct automaton *automaton, int index)
{
	return names_text(automaton->words, index);
}

/* Goes from the states in `here` by each arc of theirs, silent ones first, which are never two in a
 * row. By `word` (>= 0) to the states in `there`; with -1 only to where silent arcs lead. */
static bool
step(const struct automaton *automaton, const bool *here, int word, bool *there)
{
	const struct arcs *graph = &automaton->graph;
	bool any = false;

	for (int i = 0; i < graph->arc_count; i++) {
		const struct arc *arc = &graph->arcs[i];
		if (here[arc->from] && arc->word == word)
			any = there[arc->to] = true;
	}
	return any;
}

/* Adds where silent arcs lead. */
static void
close_over(const struct automaton *automaton, bool *here)
{
	step(automaton, here, -1, here);
}

static struct standing
standing_in(const struct automaton *automaton, const bool *here)
{
	const struct arcs *graph = &automaton->graph;
	struct standing standing = {.possible = true, .complete = here[graph->end]};

	for (int i = 0; i < graph->arc_count; i++) {
		const struct arc *arc = &graph->arcs[i];
		if (!here[arc->from] || arc->word < 0)
			continue;
		standing.longer = true;
		if (!automaton->opening[arc->word])
			standing.lengthens = true;
	}
	return standing;
}

struct standing
automaton_standing(const struct automaton *automaton, const char *text)
{
	size_t count = (size_t)automaton->graph.state_count;
	bool *here = calloc(count, sizeof *here), *there = calloc(count, sizeof *there);
	struct standing standing = {0};
	bool possible = here != NULL && there != NULL;

	if (possible) {
		here[0] = true;
		close_over(automaton, here);
	}
	while (possible && *text != '\0') {
		size_t length = strcspn(text, " ");
		int word = names_find(automaton->words, text, length);
		memset(there, 0, count * sizeof *there);
		possible = word >= 0 && step(automaton, here, word, there);
		close_over(automaton, there);
		bool *before = here;
		here = there;
		there = before;
		text += length;
		text += *text == ' ';
	}
	if (possible)
		standing = standing_in(automaton, here);
	free(here);
	free(there);
	return standing;
}
