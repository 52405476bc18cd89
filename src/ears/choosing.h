/* Choosing among the sentences that the search found, where there is doubt with the recogniser's
 * help: each is weighed by another kind of model, and both scores are added. */
#ifndef LAPEL_EARS_CHOOSING_H
#define LAPEL_EARS_CHOOSING_H

#include "recogniser.h"
#include "search.h"

struct choice {
	char text[FOUND_TEXT_MAX];
	double score; /* nats: the network's, and the recogniser's share where it was asked */
};

/* Whether another sentence is so close behind the best that the recogniser should be asked. */
bool choosing_doubts(const struct found *found);

/* The sentences found, best first, into `choices`; how many. `weighed`: what the recogniser makes
 * of each, or NULL. */
int choosing_order(const struct found *found, const struct weighed *weighed,
		   struct choice choices[FOUND_MAX]);

#endif
