#include "loudness.h"

#include <math.h>

enum { FRAME = 160, STEPS = 100 };

#define LOUD_DB 25.0
#define OVER_QUIET_DB 6.0

static int
frame_db(const int16_t *samples)
{
	double sum = 0;
	for (int i = 0; i < FRAME; i++)
		sum += (double)samples[i] * samples[i];
	int db = (int)lround(10 * log10(sum / FRAME + 1));
	return db < STEPS ? db : STEPS - 1;
}

static int
percentile(const int histogram[STEPS], int total, int percent)
{
	int seen = 0;
	for (int db = 0; db < STEPS; db++) {
		seen += histogram[db];
		if (seen * 100 >= total * percent)
			return db;
	}
	return STEPS - 1;
}

struct loudness
loudness_of(const int16_t *samples, int64_t count)
{
	int histogram[STEPS] = {0}, frames = (int)(count / FRAME);
	struct loudness loudness = {.last = frames - 1};
	if (frames == 0)
		return (struct loudness){.last = 0};
	for (int i = 0; i < frames; i++)
		histogram[frame_db(samples + (int64_t)i * FRAME)]++;
	int quiet = percentile(histogram, frames, 10), loud = percentile(histogram, frames, 95);
	double over = fmax(loud - LOUD_DB, quiet + OVER_QUIET_DB);
	loudness.loud_db = loud;
	loudness.over_room_db = loud - quiet;
	while (loudness.first < frames - 1 &&
	       frame_db(samples + (int64_t)loudness.first * FRAME) < over)
		loudness.first++;
	while (loudness.last > loudness.first &&
	       frame_db(samples + (int64_t)loudness.last * FRAME) < over)
		loudness.last--;
	return loudness;
}
