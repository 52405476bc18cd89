#include "choosing.h"

#include <stdlib.h>
#include <string.h>

/* A step of the recogniser's scores is 1024 ln 1.0001 nats. How much they count beside the
 * network's is fitted by tests/bench/fit_search.py. */
#define NATS_A_STEP 0.102395
#define RECOGNISER_SHARE 0.4

static int
by_total(const void *one, const void *other)
{
	double a = ((const struct choice *)one)->total, b = ((const struct choice *)other)->total;
	return a > b ? -1 : a < b;
}

int
choosing_order(const struct found *found, const struct weighed *weighed,
	       struct choice choices[FOUND_MAX])
{
	for (int i = 0; i < found->count; i++) {
		struct choice *choice = &choices[i];
		strcpy(choice->text, found->texts[i].text);
		choice->own = weighed != NULL ? NATS_A_STEP * weighed->scores[i] : 0;
		choice->total = found->texts[i].score + RECOGNISER_SHARE * choice->own;
	}
	qsort(choices, (size_t)found->count, sizeof *choices, by_total);
	return found->count;
}
