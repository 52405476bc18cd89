/* Where speech begins and ends, judged from band energies alone. Pure: it is fed frames of 10 ms
 * and knows no other clock.
 *
 * The room's level is followed band by band: a level that hardly moved for STEADY_FRAMES is the
 * room, whatever it was before (somebody switched a fan on); it falls quickly, rises slowly while
 * nobody speaks, and is at least what was left of it in the quietest moment of the last second and
 * a half. A frame is voiced when it stands out of the room by enough, averaged over the bands.
 * Speech begins with 3 voiced frames of 5; a pause is told after PAUSE_FRAMES unvoiced ones, so
 * that the recogniser can look at what there is while the hang-over still runs; speech ends when
 * the unvoiced frames fill the hang-over, which may be changed with every pause. */
#ifndef LAPEL_EARS_ENDPOINTER_H
#define LAPEL_EARS_ENDPOINTER_H

#include "spectrum.h"

#include <stdbool.h>
#include <stdint.h>

enum {
	PAUSE_FRAMES = 8,
	ONSET_FRAMES = 5,
	ONSET_VOICED = 3,
	STEADY_FRAMES = 40,
	ROOM_MEMORY = 150
};

enum endpoint {
	ENDPOINT_NONE,
	ENDPOINT_BEGAN, /* speech: since frame `first_voiced` */
	ENDPOINT_PAUSE, /* PAUSE_FRAMES since `last_voiced` */
	ENDPOINT_ENDED	/* the hang-over is full: speech lasted to frame `last_voiced` */
};

struct endpointer {
	int64_t frame; /* how many were fed */
	bool speaking;
	int64_t first_voiced, last_voiced;
	int hang_over_frames;
	unsigned recent;			  /* the last frames' voiced bits, newest lowest */
	float room_db[BANDS];			  /* the room's level */
	float smooth_db[BANDS];			  /* averaged over about a tenth of a second */
	float smooth_past_db[ROOM_MEMORY][BANDS]; /* the same, of the frames before */
	float past_db[STEADY_FRAMES][BANDS];
	float past_level_db[STEADY_FRAMES]; /* the mean of the bands */
};

/* Nothing is known of the room: it is taken to be a quiet one. */
void endpointer_init(struct endpointer *endpointer);

enum endpoint endpointer_frame(struct endpointer *endpointer, const float bands[BANDS]);

/* How long silence must last from the last voiced frame on to end the speech under way. Holds until
 * the next voiced frame, which sets it back to the longest. */
void endpointer_hang_over(struct endpointer *endpointer, int frames);

#endif
