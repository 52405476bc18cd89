/* Calls as they come in a working day, and as they never would, for the random walk. */
#ifndef LAPEL_TESTS_RANDOM_CALL_H
#define LAPEL_TESTS_RANDOM_CALL_H

#include "call.h"

struct chance {
	uint64_t state; /* not 0 */
};

uint64_t chance_draw(struct chance *chance);
int chance_below(struct chance *chance, int limit); /* 0 to limit - 1 */
bool chance_in(struct chance *chance, int parts);   /* once in so many */

struct call random_call(struct chance *chance);

#endif
