/* How loud a piece of sound is over its own quiet, and where the loud part lies. Pure. */
#ifndef LAPEL_EARS_LOUDNESS_H
#define LAPEL_EARS_LOUDNESS_H

#include <stdint.h>

struct loudness {
	double loud_db;	     /* the loud frames, of an arbitrary but fixed zero */
	double over_room_db; /* the loud frames over the quiet ones */
	int first, last;     /* the first and the last loud frame of 10 ms */
};

/* Loud is what lies within LOUD_DB of the 95th percentile and well over the 10th. A piece without
 * a frame is not loud at all. */
struct loudness loudness_of(const int16_t *samples, int64_t count);

#endif
