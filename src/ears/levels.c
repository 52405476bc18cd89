#include "levels.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { END_OF_SCALE = 32700, CLIPPED_RUN = 3, SPEECH_FRAMES_MIN = 50 };

void
levels_init(struct levels *levels)
{
	memset(levels, 0, sizeof *levels);
	levels->last_dbfs = LEVELS_LOWEST;
}

static void
end_frame(struct levels *levels)
{
	double dbfs = 10 * log10(levels->sum / LEVELS_FRAME / (32768.0 * 32768.0) + 1e-10);
	levels->last_dbfs = fmax(LEVELS_LOWEST, fmin(0, dbfs));
	levels->histogram[(int)lround(levels->last_dbfs) - LEVELS_LOWEST]++;
	levels->frames++;
	levels->sum = 0;
	levels->filled = 0;
}

void
levels_add(struct levels *levels, const int16_t *samples, int64_t count)
{
	for (int64_t i = 0; i < count; i++) {
		levels->at_end = abs(samples[i]) >= END_OF_SCALE ? levels->at_end + 1 : 0;
		if (levels->at_end >= CLIPPED_RUN)
			levels->clipped += levels->at_end == CLIPPED_RUN ? CLIPPED_RUN : 1;
		levels->sum += (double)samples[i] * samples[i];
		if (++levels->filled == LEVELS_FRAME)
			end_frame(levels);
	}
}

int
levels_percentile_dbfs(const struct levels *levels, int percent)
{
	int64_t wanted = (levels->frames * percent + 99) / 100, seen = 0;
	for (int i = 0; i <= -LEVELS_LOWEST; i++) {
		seen += levels->histogram[i];
		if (seen >= wanted && seen > 0)
			return LEVELS_LOWEST + i;
	}
	return LEVELS_LOWEST;
}

int
levels_room_dbfs(const struct levels *levels)
{
	return levels_percentile_dbfs(levels, 10);
}

bool
levels_speech_dbfs(const struct levels *levels, double *dbfs)
{
	double power = 0;
	int64_t frames = 0;
	int from = levels_room_dbfs(levels) + LEVELS_OVER_ROOM;
	for (int level = from; level <= 0; level++) {
		int64_t some = levels->histogram[level - LEVELS_LOWEST];
		power += (double)some * pow(10, level / 10.0);
		frames += some;
	}
	if (frames < SPEECH_FRAMES_MIN)
		return false;
	*dbfs = 10 * log10(power / (double)frames);
	return true;
}
