/* Where speech begins and ends, from the chance of it in each frame. Pure: it is fed frames of 10
 * ms and knows no other clock.
 *
 * Speech begins with 3 voiced frames of 5; a pause is told after PAUSE_FRAMES unvoiced ones, so
 * that the recogniser can look at what there is while the hang-over still runs, and again when it
 * has lasted twice and four times as long; speech ends when the unvoiced frames fill the
 * hang-over, which may be changed with every pause. */
#ifndef LAPEL_EARS_ENDPOINTER_H
#define LAPEL_EARS_ENDPOINTER_H

#include <stdbool.h>
#include <stdint.h>

enum { PAUSE_FRAMES = 7, ONSET_FRAMES = 5, ONSET_VOICED = 3 };

enum endpoint {
	ENDPOINT_NONE,
	ENDPOINT_BEGAN, /* speech: since frame `first_voiced` */
	ENDPOINT_PAUSE, /* PAUSE_FRAMES since `last_voiced`, or two or four times as many */
	ENDPOINT_ENDED	/* the hang-over is full: speech lasted to frame `last_voiced` */
};

struct endpointer {
	int64_t frame; /* how many were fed */
	bool speaking;
	bool voiced; /* the newest frame that was judged */
	int64_t first_voiced, last_voiced;
	int hang_over_frames;
	unsigned recent; /* the last frames' voiced bits, newest lowest */
};

void endpointer_init(struct endpointer *endpointer);

/* One frame on; `chance`, 0 to 1, is that of speech PRESENCE_DELAY frames before it. */
enum endpoint endpointer_frame(struct endpointer *endpointer, float chance);

/* How long silence must last from the last voiced frame on to end the speech under way. Holds until
 * the next voiced frame, which sets it back to the longest. */
void endpointer_hang_over(struct endpointer *endpointer, int frames);

#endif
