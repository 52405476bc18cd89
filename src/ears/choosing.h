/* Choosing among the recogniser's readings with the network's help: each reading is laid over the
 * frames once more, and both models' scores are added. */
#ifndef LAPEL_EARS_CHOOSING_H
#define LAPEL_EARS_CHOOSING_H

#include "laying.h"
#include "recogniser.h"

enum { CHOICES_MAX = DECODED_OTHERS_MAX + 1 };

struct choice {
	char text[DECODED_TEXT_MAX];
	double own;   /* by the recogniser alone, nats */
	double total; /* with the network's, nats */
};

/* The readings in *decoded that `grammar` can say, best first, into `choices`; how many. `scores`
 * are network_scores; without (NULL) the recogniser's order stands. */
int choosing_order(const struct decoded *decoded, const struct automaton *grammar,
		   const struct laying *laying, const float *scores, int frames,
		   struct choice choices[CHOICES_MAX]);

#endif
