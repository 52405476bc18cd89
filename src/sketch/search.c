#include "search.h"

#include <stdlib.h>

enum { CHOICES_MAX = 64, STEPS_MAX = 6000 };

/* Between two labels: side by side, their words must not read as one line. */
#define BETWEEN 3.0
#define BETWEEN_WORDS 9.0
/* What a label without a place costs: more than any place. */
#define LEFT_OUT 10000.0

struct search {
	struct choice *choices;
	int count, steps;
	int order[CHOICES_MAX];		    /* the labels with the fewest places first */
	double least_from[CHOICES_MAX + 1]; /* what the labels from here on cost at least */
	int tried[CHOICES_MAX];		    /* the candidate in hand of each in `order` */
	int best[CHOICES_MAX];
	double best_cost;
};

bool
candidates_clash(const struct candidate *one, const struct candidate *other)
{
	struct box room = box_grown(one->box, BETWEEN);
	room.x -= BETWEEN_WORDS - BETWEEN;
	room.width += 2 * (BETWEEN_WORDS - BETWEEN);
	if (box_meets_box(room, other->box))
		return true;
	if (one->has_leader && box_meets_segment(box_grown(other->box, 1), one->leader))
		return true;
	if (other->has_leader && box_meets_segment(box_grown(one->box, 1), other->leader))
		return true;
	return one->has_leader && other->has_leader && segments_cross(one->leader, other->leader);
}

static const struct choice *
choice_at(const struct search *search, int depth)
{
	return &search->choices[search->order[depth]];
}

static bool
fits(const struct search *search, int depth, const struct candidate *candidate)
{
	for (int before = 0; before < depth; before++) {
		int tried = search->tried[before];
		if (tried >= 0 &&
		    candidates_clash(candidate, &choice_at(search, before)->candidates[tried]))
			return false;
	}
	return true;
}

/* Depth first, cheapest first, leaving off where it cannot become cheaper than the best so far. */
static void
descend(struct search *search, int depth, double cost)
{
	if (depth == search->count) {
		search->best_cost = cost;
		for (int i = 0; i < search->count; i++)
			search->best[i] = search->tried[i];
		return;
	}
	const struct choice *choice = choice_at(search, depth);
	for (int i = 0; i < choice->count; i++) {
		const struct candidate *candidate = &choice->candidates[i];
		if (cost + candidate->cost + search->least_from[depth + 1] >= search->best_cost)
			break;
		if (!fits(search, depth, candidate))
			continue;
		if (search->steps++ > STEPS_MAX)
			return;
		search->tried[depth] = i;
		descend(search, depth + 1, cost + candidate->cost);
	}
	search->tried[depth] = -1;
	if (cost + LEFT_OUT + search->least_from[depth + 1] < search->best_cost)
		descend(search, depth + 1, cost + LEFT_OUT);
}

static double
least_cost(const struct choice *choice)
{
	return choice->count == 0 ? LEFT_OUT : choice->candidates[0].cost;
}

static void
order_fill(struct search *search)
{
	for (int i = 0; i < search->count; i++) {
		int at = i;
		while (at > 0 &&
		       search->choices[search->order[at - 1]].count > search->choices[i].count) {
			search->order[at] = search->order[at - 1];
			at--;
		}
		search->order[at] = i;
	}
	search->least_from[search->count] = 0;
	for (int i = search->count - 1; i >= 0; i--)
		search->least_from[i] =
			search->least_from[i + 1] + least_cost(choice_at(search, i));
}

void
search_choose(struct choice *choices, int count)
{
	struct search search = {.choices = choices,
				.count = count < CHOICES_MAX ? count : CHOICES_MAX,
				.best_cost = 2 * LEFT_OUT * (count + 1)};
	order_fill(&search);
	descend(&search, 0, 0);
	for (int i = 0; i < count; i++)
		choices[i].chosen = -1;
	for (int i = 0; i < search.count; i++)
		choices[search.order[i]].chosen = search.best[i];
}
