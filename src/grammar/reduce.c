/* Makes an automaton smaller without changing what it says. */
#include "arcs.h"

#include "growth.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { PASSES_MAX = 50 };

struct reducing {
	struct arcs *arcs;
	bool *alive; /* leads to the end */
	int *order;  /* states, each after those that it leads to (but for loops) */
	int order_count;
	int *stands_for; /* the state that each is joined with, or itself */
	int *slots;	 /* a hash table of states, -1 where it is free */
	int slot_count;
	int *numbers; /* work: an int for each state */
	int *next_arc;
};

static int
compare_arcs(const void *left, const void *right)
{
	const struct arc *one = left, *other = right;
	if (one->word != other->word)
		return one->word < other->word ? -1 : 1;
	if (one->to != other->to)
		return one->to < other->to ? -1 : 1;
	return (one->weight < other->weight) - (one->weight > other->weight);
}

/* Sorts the arcs of a state; of those with one word to one state the best is left. */
static void
tidy_state(struct arcs *arcs, struct state *state)
{
	struct arc *first = &arcs->arcs[state->first];
	int kept = 0;

	if (state->count < 2)
		return;
	qsort(first, (size_t)state->count, sizeof *first, compare_arcs);
	for (int i = 0; i < state->count; i++)
		if (kept == 0 || first[i].word != first[kept - 1].word ||
		    first[i].to != first[kept - 1].to)
			first[kept++] = first[i];
	state->count = kept;
}

/* Marks what leads to the end, going back from it, and drops arcs to the rest. */
static bool
drop_dead_ends(struct reducing *reducing)
{
	struct arcs *arcs = reducing->arcs;
	int *into =
		calloc((size_t)arcs->arc_count + 1, sizeof *into); /* the next arc to the same */
	int *stack = reducing->order, count = 0;

	if (into == NULL)
		return false;
	for (int i = 0; i < arcs->state_count; i++)
		reducing->numbers[i] = -1;
	for (int i = 0; i < arcs->arc_count; i++) {
		into[i] = reducing->numbers[arcs->arcs[i].to];
		reducing->numbers[arcs->arcs[i].to] = i;
	}
	reducing->alive[arcs->end] = true;
	stack[count++] = arcs->end;
	while (count > 0) {
		int to = stack[--count];
		for (int i = reducing->numbers[to]; i >= 0; i = into[i]) {
			int from = arcs->arcs[i].from;
			if (!reducing->alive[from])
				stack[count++] = from;
			reducing->alive[from] = true;
		}
	}
	free(into);
	for (int i = 0; i < arcs->state_count; i++) {
		struct state *state = &arcs->states[i];
		int kept = 0;
		for (int k = 0; k < state->count; k++)
			if (reducing->alive[arcs->arcs[state->first + k].to])
				arcs->arcs[state->first + kept++] = arcs->arcs[state->first + k];
		state->count = kept;
	}
	return true;
}

/* Fills `order` with what can be reached, in depth. */
static void
find_order(struct reducing *reducing)
{
	struct arcs *arcs = reducing->arcs;
	int *stack = reducing->numbers, count = 0;

	for (int i = 0; i < arcs->state_count; i++)
		reducing->next_arc[i] = -1;
	reducing->order_count = 0;
	reducing->next_arc[arcs->start] = 0;
	stack[count++] = arcs->start;
	while (count > 0) {
		int from = stack[count - 1];
		const struct state *state = &arcs->states[from];
		int *next = &reducing->next_arc[from];
		while (*next < state->count &&
		       reducing->next_arc[arcs->arcs[state->first + *next].to] >= 0)
			++*next;
		if (*next == state->count) {
			reducing->order[reducing->order_count++] = from;
			count--;
			continue;
		}
		int to = arcs->arcs[state->first + *next].to;
		reducing->next_arc[to] = 0;
		stack[count++] = to;
	}
}

/* Weights that differ by less than a part in ten thousand are one. */
static int
weight_key(float weight)
{
	return (int)lroundf(logf(weight) * 1e4f);
}

static uint32_t
state_hash(const struct arcs *arcs, const struct state *state)
{
	uint32_t value = state->hub;
	for (int i = 0; i < state->count; i++) {
		const struct arc *arc = &arcs->arcs[state->first + i];
		value = (value ^ (uint32_t)arc->word) * 16777619u;
		value = (value ^ (uint32_t)arc->to) * 16777619u;
		value = (value ^ (uint32_t)weight_key(arc->weight)) * 16777619u;
	}
	return value ^ value >> 15;
}

static bool
states_alike(const struct arcs *arcs, const struct state *one, const struct state *other)
{
	if (one->count != other->count || one->hub != other->hub)
		return false;
	for (int i = 0; i < one->count; i++) {
		const struct arc *left = &arcs->arcs[one->first + i];
		const struct arc *right = &arcs->arcs[other->first + i];
		if (left->word != right->word || left->to != right->to ||
		    weight_key(left->weight) != weight_key(right->weight))
			return false;
	}
	return true;
}

/* A state from which nothing goes on but the end, surely, is the end. */
static bool
is_at_end(const struct arcs *arcs, const struct state *state)
{
	const struct arc *arc = &arcs->arcs[state->first];
	return state->count == 1 && arc->word < 0 && arc->to == arcs->end &&
	       weight_key(arc->weight) == 0;
}

/* The state, seen earlier, that this one is joined with; itself when it is the first such. */
static int
find_alike(struct reducing *reducing, int number)
{
	const struct arcs *arcs = reducing->arcs;
	const struct state *state = &arcs->states[number];
	uint32_t mask = (uint32_t)reducing->slot_count - 1;
	uint32_t slot = state_hash(arcs, state) & mask;

	if (number == arcs->end || is_at_end(arcs, state))
		return arcs->end;
	for (; reducing->slots[slot] >= 0; slot = (slot + 1) & mask)
		if (states_alike(arcs, &arcs->states[reducing->slots[slot]], state))
			return reducing->slots[slot];
	return reducing->slots[slot] = number;
}

/* One pass from the end to the start; whether any states were joined. */
static bool
join_alike(struct reducing *reducing)
{
	struct arcs *arcs = reducing->arcs;
	int *stands_for = reducing->stands_for;
	bool joined = false;

	find_order(reducing);
	memset(reducing->slots, -1, (size_t)reducing->slot_count * sizeof *reducing->slots);
	for (int i = 0; i < arcs->state_count; i++)
		stands_for[i] = i;
	for (int i = 0; i < reducing->order_count; i++) {
		int number = reducing->order[i];
		struct state *state = &arcs->states[number];
		for (int k = 0; k < state->count; k++) {
			struct arc *arc = &arcs->arcs[state->first + k];
			arc->to = stands_for[arc->to];
		}
		tidy_state(arcs, state);
		stands_for[number] = find_alike(reducing, number);
		joined = joined || stands_for[number] != number;
	}
	for (int i = 0; i < arcs->state_count; i++) {
		struct state *state = &arcs->states[i];
		for (int k = 0; k < state->count; k++)
			arcs->arcs[state->first + k].to =
				stands_for[arcs->arcs[state->first + k].to];
	}
	arcs->start = stands_for[arcs->start];
	return joined;
}

/* Adds the arcs of a state to `made`, with those of the hubs to which it alone leads. `numbers`
 * counts the silent arcs to each state. */
static bool
copy_arcs(const struct reducing *reducing, int from, float weight, struct arcs *made,
	  struct state *state)
{
	const struct arcs *arcs = reducing->arcs;
	for (int i = 0; i < arcs->states[from].count; i++) {
		struct arc arc = arcs->arcs[arcs->states[from].first + i];
		const struct state *to = &arcs->states[arc.to];
		arc.weight *= weight;
		if (arc.word < 0 && to->hub && reducing->numbers[arc.to] == 1) {
			if (!copy_arcs(reducing, arc.to, arc.weight, made, state))
				return false;
			continue;
		}
		if (!growth_reserve(&made->arcs, &made->arc_room, made->arc_count + 1,
				    sizeof *made->arcs))
			return false;
		made->arcs[made->arc_count++] = arc;
		state->count++;
	}
	return true;
}

/* Copies what can be reached into `made`, numbered in order of reaching it. */
static bool
copy_reached(struct reducing *reducing, struct arcs *made)
{
	const struct arcs *arcs = reducing->arcs;
	int *number_of = reducing->stands_for, *reached = reducing->order, count = 1;

	find_order(reducing);
	memset(reducing->numbers, 0, (size_t)arcs->state_count * sizeof *reducing->numbers);
	for (int i = 0; i < reducing->order_count; i++) {
		const struct state *state = &arcs->states[reducing->order[i]];
		for (int k = 0; k < state->count; k++)
			reducing->numbers[arcs->arcs[state->first + k].to] +=
				arcs->arcs[state->first + k].word < 0;
	}
	if (!growth_reserve(&made->states, &made->state_room, arcs->state_count,
			    sizeof *made->states))
		return false;
	for (int i = 0; i < arcs->state_count; i++)
		number_of[i] = -1;
	reached[0] = arcs->start;
	number_of[arcs->start] = 0;
	for (int i = 0; i < count; i++) {
		struct state *state = &made->states[i];
		*state = arcs->states[reached[i]];
		state->first = made->arc_count;
		state->count = 0;
		if (!copy_arcs(reducing, reached[i], 1, made, state))
			return false;
		for (int k = state->first; k < made->arc_count; k++) {
			struct arc *arc = &made->arcs[k];
			if (number_of[arc->to] < 0) {
				number_of[arc->to] = count;
				reached[count++] = arc->to;
			}
			arc->from = i;
			arc->to = number_of[arc->to];
		}
		tidy_state(made, state);
		made->arc_count = state->first + state->count;
	}
	made->state_count = count;
	made->start = 0;
	made->end = number_of[arcs->end];
	return true;
}

/* False without memory. */
static bool
reduce(struct reducing *reducing, struct arcs *made)
{
	struct arcs *arcs = reducing->arcs;
	if (!drop_dead_ends(reducing))
		return false;
	if (!reducing->alive[arcs->start])
		return true;
	for (int pass = 0; pass < PASSES_MAX && join_alike(reducing); pass++)
		;
	return copy_reached(reducing, made);
}

bool
arcs_reduce(struct arcs *arcs, const char *file, struct problem *problem)
{
	size_t count = (size_t)arcs->state_count;
	int slot_count = 16;
	while ((size_t)slot_count < 2 * count)
		slot_count *= 2;
	struct reducing reducing = {
		.arcs = arcs,
		.alive = calloc(count, sizeof *reducing.alive),
		.order = calloc(count, sizeof *reducing.order),
		.stands_for = calloc(count, sizeof *reducing.stands_for),
		.slots = calloc((size_t)slot_count, sizeof *reducing.slots),
		.slot_count = slot_count,
		.numbers = calloc(count, sizeof *reducing.numbers),
		.next_arc = calloc(count, sizeof *reducing.next_arc),
	};
	struct arcs made = {0};
	bool good = reducing.alive != NULL && reducing.order != NULL &&
		    reducing.stands_for != NULL && reducing.slots != NULL &&
		    reducing.numbers != NULL && reducing.next_arc != NULL &&
		    reduce(&reducing, &made);

	if (!good)
		problem_say(problem, "%s: there is no memory left for it", file);
	else if (!reducing.alive[arcs->start])
		good = problem_say(problem,
				   "%s: nothing can be said by this grammar: its public rule never "
				   "comes to an end",
				   file);
	free(reducing.alive);
	free(reducing.order);
	free(reducing.stands_for);
	free(reducing.slots);
	free(reducing.numbers);
	free(reducing.next_arc);
	if (good) {
		arcs_finish(arcs);
		*arcs = made;
	} else {
		arcs_finish(&made);
	}
	return good;
}
