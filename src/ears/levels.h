/* How loud a sound is: the room, the speech over it, and what was too loud for the microphone.
 * Pure: fed samples at 16 kHz; levels are in dBFS (0: a full-scale sine would be -3). */
#ifndef LAPEL_EARS_LEVELS_H
#define LAPEL_EARS_LEVELS_H

#include <stdbool.h>
#include <stdint.h>

enum {
	LEVELS_FRAME = 160,   /* samples: 10 ms */
	LEVELS_LOWEST = -100, /* dBFS: digital silence counts as this */
	LEVELS_OVER_ROOM = 12 /* dB: what is so much louder than the room counts as speech */
};

struct levels {
	int64_t frames;
	int64_t histogram[1 - LEVELS_LOWEST]; /* frames by whole dBFS, from LEVELS_LOWEST to 0 */
	double last_dbfs;		      /* of the last whole frame */
	int64_t clipped; /* samples in a row of three or more at either end of the scale */
	int at_end;	 /* how many in a row are there now */
	double sum;	 /* of the frame under way */
	int filled;
};

void levels_init(struct levels *levels);
void levels_add(struct levels *levels, const int16_t *samples, int64_t count);

/* The level that `percent` of the frames do not exceed. LEVELS_LOWEST when there is none. */
int levels_percentile_dbfs(const struct levels *levels, int percent);

/* The room: the tenth percentile. The speech: the mean power of the frames that are so much louder;
 * false when those last less than half a second. */
int levels_room_dbfs(const struct levels *levels);
bool levels_speech_dbfs(const struct levels *levels, double *dbfs);

#endif
