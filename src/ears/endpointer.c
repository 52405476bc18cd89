#include "endpointer.h"

#include "presence.h"

#include <string.h>

/* The chance that begins speech, and that keeps it going. Fitted by tests/bench/fit_endpointer.py.
 */
#define VOICED_ON 0.6f
#define VOICED_OFF 0.3f

enum { LONGEST_HANG_OVER = 100 };

void
endpointer_init(struct endpointer *endpointer)
{
	memset(endpointer, 0, sizeof *endpointer);
	endpointer->hang_over_frames = LONGEST_HANG_OVER;
}

static int
voiced_among(unsigned recent)
{
	int count = 0;
	for (int i = 0; i < ONSET_FRAMES; i++)
		count += recent >> i & 1;
	return count;
}

static enum endpoint
begin(struct endpointer *endpointer, int64_t now)
{
	if (voiced_among(endpointer->recent) < ONSET_VOICED)
		return ENDPOINT_NONE;
	endpointer->speaking = true;
	endpointer->first_voiced = endpointer->last_voiced = now;
	for (int i = 0; i < ONSET_FRAMES; i++)
		if (endpointer->recent >> i & 1)
			endpointer->first_voiced = now > i ? now - i : 0;
	endpointer->hang_over_frames = LONGEST_HANG_OVER;
	return ENDPOINT_BEGAN;
}

enum endpoint
endpointer_frame(struct endpointer *endpointer, float chance)
{
	int64_t now = endpointer->frame - PRESENCE_DELAY; /* the frame that is judged */
	endpointer->voiced = chance > (endpointer->speaking ? VOICED_OFF : VOICED_ON);
	endpointer->recent = endpointer->recent << 1 | endpointer->voiced;
	endpointer->frame++;
	if (!endpointer->speaking)
		return begin(endpointer, now);
	/* A single voiced frame in a pause is a click; two of the last three are speech. */
	if (endpointer->voiced && (endpointer->recent & 6) != 0) {
		endpointer->last_voiced = now;
		endpointer->hang_over_frames = LONGEST_HANG_OVER;
	}
	int64_t unvoiced = now + PRESENCE_DELAY - endpointer->last_voiced;
	if (unvoiced < endpointer->hang_over_frames) {
		bool told = unvoiced == PAUSE_FRAMES || unvoiced == 2 * PAUSE_FRAMES ||
			    unvoiced == 4 * PAUSE_FRAMES;
		return told ? ENDPOINT_PAUSE : ENDPOINT_NONE;
	}
	endpointer->speaking = false;
	endpointer->recent = 0;
	return ENDPOINT_ENDED;
}

void
endpointer_hang_over(struct endpointer *endpointer, int frames)
{
	endpointer->hang_over_frames = frames;
}
