/* endpoints: the endpointer on whole pieces of sound, for fit_endpointer.py, which builds it
 * together with a copy of src/ears/endpointer.c whose thresholds are variables. No part of the
 * program. */
#include "endpointer.h"
#include "spectrum.h"

#include <stdlib.h>

int endpoints_bands(const char *parameters, const int16_t *samples, int64_t count, float *bands);
int endpoints_run(const float *bands, int frames, int hang_over_frames, int *found, int most);

/* The band energies of samples, BANDS to a frame; gives how many frames. `bands` has room for a
 * frame to each FRAME_SAMPLES. */
int
endpoints_bands(const char *parameters, const int16_t *samples, int64_t count, float *bands)
{
	struct problem problem;
	struct spectrum *spectrum = spectrum_open(parameters, &problem);
	int frames = 0;
	if (spectrum == NULL)
		return -1;
	for (int64_t at = 0; at + FRAME_SAMPLES <= count; at += FRAME_SAMPLES)
		if (spectrum_bands(spectrum, samples + at, bands + (int64_t)frames * BANDS))
			frames++;
	spectrum_close(spectrum);
	return frames;
}

/* Each stretch of speech as three frames in `found`: first voiced, last voiced, when it was let go
 * (-1: it lasted to the end). Every pause is given the same hang-over. */
int
endpoints_run(const float *bands, int frames, int hang_over_frames, int *found, int most)
{
	struct endpointer *endpointer = malloc(sizeof *endpointer);
	int count = 0;
	if (endpointer == NULL)
		return -1;
	endpointer_init(endpointer);
	for (int frame = 0; frame < frames && count < most; frame++) {
		enum endpoint told = endpointer_frame(endpointer, bands + (int64_t)frame * BANDS);
		int *stretch = found + (int64_t)count * 3;
		if (told == ENDPOINT_PAUSE)
			endpointer_hang_over(endpointer, hang_over_frames);
		if (told == ENDPOINT_ENDED || (endpointer->speaking && frame == frames - 1)) {
			stretch[0] = (int)endpointer->first_voiced;
			stretch[1] = (int)endpointer->last_voiced;
			stretch[2] = told == ENDPOINT_ENDED ? frame : -1;
			count++;
		}
	}
	free(endpointer);
	return count;
}
