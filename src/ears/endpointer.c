#include "endpointer.h"

#include <string.h>

/* Decibels of a quiet room in each band, on the scale of spectrum_bands; speech at arm's length
 * from a headset stands 30 dB and more above it. */
#define QUIET_DB 38.0f

/* Set by hand on dictations in a quiet and a noisy room. tests/bench/fit_endpointer.py looks for
 * better ones on people's recordings; what it found saved 0.02 s of 1.44 s a call on speakers and
 * noises that had not fitted, with more calls cut in two, and was not taken. */
#define VOICED_ON_DB 5.0f  /* mean excess over the room that begins speech */
#define VOICED_OFF_DB 3.6f /* and that keeps it going */
#define EXCESS_MAX_DB 20.0f

#define STEADY_DB 1.5f /* a level that moves less than this, by standard deviation, is the room */
#define SMOOTHING 0.15f
#define QUIETEST_TO_MEAN_DB 2.5f /* how far the quietest moment of a room lies under its mean */
#define ROOM_FALL 0.2f
#define ROOM_RISE 0.02f
enum { LONGEST_HANG_OVER = 100 };

void
endpointer_init(struct endpointer *endpointer)
{
	memset(endpointer, 0, sizeof *endpointer);
	for (int band = 0; band < BANDS; band++)
		endpointer->room_db[band] = QUIET_DB;
	endpointer->hang_over_frames = LONGEST_HANG_OVER;
}

static float
excess_db(const struct endpointer *endpointer, const float bands[BANDS])
{
	float sum = 0;
	for (int band = 0; band < BANDS; band++) {
		float over = bands[band] - endpointer->room_db[band];
		sum += over < 0 ? 0 : over > EXCESS_MAX_DB ? EXCESS_MAX_DB : over;
	}
	return sum / BANDS;
}

static void
remember(struct endpointer *endpointer, const float bands[BANDS])
{
	int64_t frame = endpointer->frame;
	float *level = &endpointer->past_level_db[frame % STEADY_FRAMES];
	*level = 0;
	for (int band = 0; band < BANDS; band++) {
		float *smooth = &endpointer->smooth_db[band];
		*smooth = frame == 0 ? bands[band] : *smooth + SMOOTHING * (bands[band] - *smooth);
		endpointer->smooth_past_db[frame % ROOM_MEMORY][band] = *smooth;
		endpointer->past_db[frame % STEADY_FRAMES][band] = bands[band];
		*level += bands[band] / BANDS;
	}
}

static bool
is_steady(const struct endpointer *endpointer)
{
	float sum = 0, squares = 0;
	if (endpointer->frame < STEADY_FRAMES)
		return false;
	for (int i = 0; i < STEADY_FRAMES; i++)
		sum += endpointer->past_level_db[i];
	for (int i = 0; i < STEADY_FRAMES; i++) {
		float off = endpointer->past_level_db[i] - sum / STEADY_FRAMES;
		squares += off * off;
	}
	return squares / STEADY_FRAMES < STEADY_DB * STEADY_DB;
}

static float
quietest_db(const struct endpointer *endpointer, int band)
{
	float lowest = endpointer->smooth_db[band];
	for (int i = 0; i < ROOM_MEMORY; i++)
		if (endpointer->smooth_past_db[i][band] < lowest)
			lowest = endpointer->smooth_past_db[i][band];
	return lowest + QUIETEST_TO_MEAN_DB;
}

static void
follow_room(struct endpointer *endpointer, const float bands[BANDS], bool voiced)
{
	bool steady = is_steady(endpointer);
	for (int band = 0; band < BANDS; band++) {
		float *room = &endpointer->room_db[band];
		if (steady) {
			*room = 0;
			for (int i = 0; i < STEADY_FRAMES; i++)
				*room += endpointer->past_db[i][band] / STEADY_FRAMES;
		} else if (bands[band] < *room) {
			*room += ROOM_FALL * (bands[band] - *room);
		} else if (!voiced && !endpointer->speaking) {
			*room += ROOM_RISE * (bands[band] - *room);
		}
		float quietest =
			endpointer->frame < ROOM_MEMORY ? *room : quietest_db(endpointer, band);
		if (*room < quietest)
			*room = quietest;
	}
}

static int
voiced_among(unsigned recent)
{
	int count = 0;
	for (int i = 0; i < ONSET_FRAMES; i++)
		count += recent >> i & 1;
	return count;
}

enum endpoint
endpointer_frame(struct endpointer *endpointer, const float bands[BANDS])
{
	float over = excess_db(endpointer, bands);
	bool voiced = over > (endpointer->speaking ? VOICED_OFF_DB : VOICED_ON_DB);
	int64_t now = endpointer->frame;
	enum endpoint told = ENDPOINT_NONE;
	remember(endpointer, bands);
	follow_room(endpointer, bands, voiced);
	endpointer->recent = endpointer->recent << 1 | voiced;
	endpointer->frame++;
	if (!endpointer->speaking) {
		if (voiced_among(endpointer->recent) < ONSET_VOICED)
			return ENDPOINT_NONE;
		endpointer->speaking = true;
		endpointer->first_voiced = now;
		for (int i = 0; i < ONSET_FRAMES; i++)
			if (endpointer->recent >> i & 1)
				endpointer->first_voiced = now - i;
		endpointer->last_voiced = now;
		endpointer->hang_over_frames = LONGEST_HANG_OVER;
		return ENDPOINT_BEGAN;
	}
	/* A single voiced frame in a pause is a click; two of the last three are speech. */
	if (voiced && (endpointer->recent & 6) != 0) {
		endpointer->last_voiced = now;
		endpointer->hang_over_frames = LONGEST_HANG_OVER;
	}
	int64_t unvoiced = now - endpointer->last_voiced;
	if (unvoiced == PAUSE_FRAMES)
		told = ENDPOINT_PAUSE;
	else if (unvoiced > PAUSE_FRAMES && unvoiced >= endpointer->hang_over_frames)
		told = ENDPOINT_ENDED;
	if (told == ENDPOINT_ENDED) {
		endpointer->speaking = false;
		endpointer->recent = 0;
	}
	return told;
}

void
endpointer_hang_over(struct endpointer *endpointer, int frames)
{
	endpointer->hang_over_frames = frames;
}
