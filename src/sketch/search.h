/* Choosing one place for each of several labels, so that together they cost least. Inside
 * sketch/.*/
#ifndef LAPEL_SKETCH_SEARCH_H
#define LAPEL_SKETCH_SEARCH_H

#include "geometry.h"

enum { CANDIDATES_MAX = 400 };

/* A place that one label could have. */
struct candidate {
	struct box box;
	bool has_leader;
	struct segment leader;
	double cost;
};

struct choice {
	int count;
	struct candidate candidates[CANDIDATES_MAX]; /* cheapest first */
	int chosen; /* an index into candidates, or -1: there was no room for it */
};

/* Fills `chosen` so that no two chosen places are in each other's way. Looks at a fixed number of
 * arrangements, the most promising first: the best of them, if not always the best of all. */
void search_choose(struct choice *choices, int count);

/* Whether two places are in each other's way: their boxes too close, a leader through the other's
 * box, or leaders that cross. */
bool candidates_clash(const struct candidate *one, const struct candidate *other);

#endif
