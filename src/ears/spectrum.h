/* The ears' two views of sound, by sphinxbase's front end with the model's own parameters: the
 * cepstra that the recogniser compares, and the band energies that the endpointer watches. */
#ifndef LAPEL_EARS_SPECTRUM_H
#define LAPEL_EARS_SPECTRUM_H

#include "problem.h"

#include <stdint.h>

enum {
	FRAME_SAMPLES = 160,  /* a frame every 10 ms */
	WINDOW_SAMPLES = 410, /* and 25.6 ms long */
	CEPSTRA = 13,
	BANDS = 25,
	FRAMES_A_SECOND = 100
};

struct spectrum; /* opaque */

/* `parameters` is the text of the model's feat.params. */
struct spectrum *spectrum_open(const char *parameters, struct problem *problem);
void spectrum_close(struct spectrum *spectrum);

/* The cepstra of a whole piece of sound, without mean removal: *frames rows of CEPSTRA values in
 * one block that the caller frees; NULL when there is less than a window or memory ran out. */
float *spectrum_cepstra(struct spectrum *spectrum, const int16_t *samples, int64_t count,
			int *frames);

/* The natural logarithms of the band energies of a whole piece of sound: rows of BANDS values, else
 * as spectrum_cepstra. */
float *spectrum_log_bands(struct spectrum *spectrum, const int16_t *samples, int64_t count,
			  int *frames);

/* The stream of band energies starts afresh. */
void spectrum_restart(struct spectrum *spectrum);

/* The next FRAME_SAMPLES of the stream: true when a frame of band energies (in decibels, of an
 * arbitrary but fixed zero) is complete. */
bool spectrum_bands(struct spectrum *spectrum, const int16_t samples[FRAME_SAMPLES],
		    float bands[BANDS]);

#endif
