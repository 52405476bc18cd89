#include "choosing.h"

#include <stdlib.h>
#include <string.h>

/* A step of the recogniser's scores is 1024 ln 1.0001 nats. How much they count beside the
 * network's is fitted by tests/bench/fit_search.py. */
#define NATS_A_STEP 0.102395
#define RECOGNISER_SHARE 0.4

/* One that is so far behind is no doubt, in nats. Of the examples of tests/bench/fit_judge.py one
 * in seven of what is heard rightly has another sentence within them, and nine in ten of the rest.
 */
#define DOUBT 30.0

static int
by_total(const void *one, const void *other)
{
	double a = ((const struct choice *)one)->score, b = ((const struct choice *)other)->score;
	return a > b ? -1 : a < b;
}

bool
choosing_doubts(const struct found *found)
{
	return found->count > 1 && found->texts[0].score - found->texts[1].score < DOUBT;
}

int
choosing_order(const struct found *found, const struct weighed *weighed,
	       struct choice choices[FOUND_MAX])
{
	for (int i = 0; i < found->count; i++) {
		struct choice *choice = &choices[i];
		strcpy(choice->text, found->texts[i].text);
		choice->score = found->texts[i].score;
		if (weighed != NULL)
			choice->score += RECOGNISER_SHARE * NATS_A_STEP * weighed->scores[i];
	}
	qsort(choices, (size_t)found->count, sizeof *choices, by_total);
	return found->count;
}
