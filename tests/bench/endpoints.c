/* endpoints: the endpointer on whole pieces of sound, for fit_endpointer.py, which builds it
 * together with a copy of src/ears/endpointer.c whose thresholds are variables. No part of the
 * program. */
#include "endpointer.h"
#include "presence.h"
#include "spectrum.h"

#include <stdlib.h>

int endpoints_chances(const char *parameters, const char *network, const int16_t *samples,
		      int64_t count, float *chances);
int endpoints_run(const float *chances, int frames, int hang_over_frames, int *found, int most);

/* The chance of speech in each frame of samples; gives how many frames, or -1. `chances` has room
 * for a frame to each FRAME_SAMPLES. */
int
endpoints_chances(const char *parameters, const char *network, const int16_t *samples,
		  int64_t count, float *chances)
{
	struct problem problem;
	struct spectrum *spectrum = spectrum_open(parameters, &problem);
	struct presence *presence = presence_read(network, &problem);
	float bands[BANDS];
	int frames = 0;
	if (spectrum == NULL || presence == NULL)
		frames = -1;
	for (int64_t at = 0; frames >= 0 && at + FRAME_SAMPLES <= count; at += FRAME_SAMPLES)
		if (spectrum_bands(spectrum, samples + at, bands))
			chances[frames++] = presence_frame(presence, bands);
	presence_destroy(presence);
	if (spectrum != NULL)
		spectrum_close(spectrum);
	return frames;
}

/* Each stretch of speech as three frames in `found`: first voiced, last voiced, when it was let go
 * (-1: it lasted to the end). Every pause is given the same hang-over. */
int
endpoints_run(const float *chances, int frames, int hang_over_frames, int *found, int most)
{
	struct endpointer *endpointer = malloc(sizeof *endpointer);
	int count = 0;
	if (endpointer == NULL)
		return -1;
	endpointer_init(endpointer);
	for (int frame = 0; frame < frames && count < most; frame++) {
		enum endpoint told = endpointer_frame(endpointer, chances[frame]);
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
