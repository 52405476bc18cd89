/* A stream of samples from one rate to another, piece by piece. NULL stands for no change. */
#ifndef LAPEL_EARS_RATE_CHANGE_H
#define LAPEL_EARS_RATE_CHANGE_H

#include <stdint.h>

struct rate_change; /* opaque */

struct rate_change *rate_change_create(int from_hz, int to_hz); /* NULL: out of memory */
void rate_change_destroy(struct rate_change *change);		/* NULL is allowed */

/* How many samples may go in so that no more than `most_out` come out. */
int64_t rate_change_most_in(const struct rate_change *change, int64_t most_out);

/* Takes all of `in` and returns how many samples came out. The stream lags by the length of the
 * filter, so that the first pieces may give nothing. At most 4096 go in at once. */
int64_t rate_change_do(struct rate_change *change, const int16_t *in, int64_t count, int16_t *out,
		       int64_t most_out);

#endif
