#include "level.h"

#include <math.h>
#include <stdlib.h>

enum { FRAME_SAMPLES = SOUND_RATE_HZ / 50 };
static const double full_scale = 32767.0;
static const double pause_ratio = 1e-3; /* in power: 30 dB */

double
level_sample(double dbfs)
{
	return full_scale * pow(10.0, dbfs / 20.0);
}

int
level_peak(const struct sound *sound)
{
	int peak = 0;
	for (int64_t i = 0; i < sound->count; i++)
		if (abs(sound->samples[i]) > peak)
			peak = abs(sound->samples[i]);
	return peak;
}

/* The mean square of the frame that starts at `from`; the last one may be short. */
static double
frame_power(const struct sound *sound, int64_t from, int64_t *length)
{
	*length = sound->count - from < FRAME_SAMPLES ? sound->count - from : FRAME_SAMPLES;
	double sum = 0;
	for (int64_t i = from; i < from + *length; i++)
		sum += (double)sound->samples[i] * sound->samples[i];
	return sum / (double)*length;
}

double
level_active_dbfs(const struct sound *sound)
{
	double loudest = 0, sum = 0;
	int64_t length, active = 0;
	for (int64_t from = 0; from < sound->count; from += FRAME_SAMPLES)
		loudest = fmax(loudest, frame_power(sound, from, &length));
	if (loudest == 0)
		return -INFINITY;
	for (int64_t from = 0; from < sound->count; from += FRAME_SAMPLES) {
		double power = frame_power(sound, from, &length);
		if (power < loudest * pause_ratio)
			continue;
		sum += power * (double)length;
		active += length;
	}
	return 10.0 * log10(sum / (double)active / (full_scale * full_scale));
}

/* `gain` must not take the peak out of 16 bits. Rounded towards 0, so that a ceiling holds. */
static void
scale(struct sound *sound, double gain)
{
	for (int64_t i = 0; i < sound->count; i++)
		sound->samples[i] = (int16_t)(sound->samples[i] * gain);
}

void
level_set(struct sound *sound, double active_dbfs, double peak_dbfs)
{
	int peak = level_peak(sound);
	if (peak == 0)
		return;
	double wanted = pow(10.0, (active_dbfs - level_active_dbfs(sound)) / 20.0);
	scale(sound, fmin(wanted, level_sample(peak_dbfs) / peak));
}

void
level_limit(struct sound *sound, double peak_dbfs)
{
	int peak = level_peak(sound);
	if (peak > level_sample(peak_dbfs))
		scale(sound, level_sample(peak_dbfs) / peak);
}
