/* How far up a sound reaches: the mean spectrum of its loud frames. A telephone link (narrow-band
 * Bluetooth among them) carries nothing above 4 kHz, where the difference between many words lies.
 * Pure: fed samples at 16 kHz. */
#ifndef LAPEL_EARS_BANDWIDTH_H
#define LAPEL_EARS_BANDWIDTH_H

#include <stdbool.h>
#include <stdint.h>

enum {
	BANDWIDTH_WINDOW = 256, /* samples: bins of 62.5 Hz */
	BANDWIDTH_BINS = BANDWIDTH_WINDOW / 2 + 1,
	BANDWIDTH_FRAMES_MIN = 125 /* loud frames of 16 ms: two seconds of speech */
};

struct bandwidth {
	int16_t window[BANDWIDTH_WINDOW];
	int filled;
	double power[BANDWIDTH_BINS]; /* summed over the loud frames */
	int64_t frames;		      /* loud ones */
	double loudest;		      /* mean square of the loudest frame */
};

void bandwidth_init(struct bandwidth *bandwidth);
void bandwidth_add(struct bandwidth *bandwidth, const int16_t *samples, int64_t count);

/* Enough loud frames were heard for the two below to mean something. */
bool bandwidth_known(const struct bandwidth *bandwidth);

/* The mean power a hertz from 4250 to 7500 Hz over that from 300 to 3400 Hz, in decibels. Speech
 * over a wide-band link has -15 to -40, the hiss of the room included; a narrow-band link has only
 * what its resampler let through and rounding noise. */
double bandwidth_above_4_khz_db(const struct bandwidth *bandwidth);

/* Known, and nothing above 4 kHz. */
bool bandwidth_narrow(const struct bandwidth *bandwidth);

#endif
