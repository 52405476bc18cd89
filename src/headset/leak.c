#include "leak.h"

#include <math.h>
#include <speex/speex_echo.h>
#include <stdlib.h>
#include <string.h>

enum {
	CANCELLED_SAMPLES = 4096, /* 256 ms: how late a leak is learned */
	OPEN_FRAMES = 20,	  /* the gate stays open so long after what was loud enough */
	LEARNED_FRAMES = 30,	  /* a read-back so long tells how loud the leak is */
	ROOM_FRAMES = 128, /* how much is known of the room: more than the silence after a call */
	ROOM_SHARE = 10	   /* so many in a hundred of them at least are the room alone */
};

/* Decibels. Frames below -80 dBFS count as silence. */
static const double silence_db = -80, first_gate_db = -12, least_gate_db = -45, over_leak_db = 6,
		    over_room_db = 6, taken_out_db = 6, room_spread_db = 4;

struct leak {
	SpeexEchoState *canceller;
	int64_t silent_frames; /* since something was played */
	double played_db[LEAK_TAIL_FRAMES];
	int at;
	double gate_db; /* against the loudest played */
	/* The microphone while nothing was played: the room, and who spoke in it. */
	int16_t heard[ROOM_FRAMES][LEAK_FRAME];
	double heard_db[ROOM_FRAMES];
	int heard_count, heard_next;
	/* Of these the room alone, as it was when the read-back under way began. */
	double room_db;
	int room[ROOM_FRAMES]; /* places in `heard` */
	int room_count, room_at;
	int open_frames;
	/* Of the read-back under way. */
	int loud_frames; /* in which something was played */
	double most_db;	 /* the most that was left, against the loudest played */
	bool opened;
};

struct leak *
leak_create(void)
{
	struct leak *leak = calloc(1, sizeof *leak);
	if (leak == NULL)
		return NULL;
	leak->canceller = speex_echo_state_init(LEAK_FRAME, CANCELLED_SAMPLES);
	if (leak->canceller == NULL) {
		free(leak);
		return NULL;
	}
	int rate_hz = 16000;
	speex_echo_ctl(leak->canceller, SPEEX_ECHO_SET_SAMPLING_RATE, &rate_hz);
	leak->silent_frames = LEAK_TAIL_FRAMES;
	leak->gate_db = first_gate_db;
	leak->room_db = -60;
	leak->most_db = -INFINITY;
	for (int i = 0; i < LEAK_TAIL_FRAMES; i++)
		leak->played_db[i] = -INFINITY;
	return leak;
}

void
leak_destroy(struct leak *leak)
{
	if (leak == NULL)
		return;
	speex_echo_state_destroy(leak->canceller);
	free(leak);
}

void
leak_restart(struct leak *leak)
{
	speex_echo_state_reset(leak->canceller);
	leak->gate_db = first_gate_db;
}

static double
level_db(const int16_t samples[LEAK_FRAME])
{
	double sum = 0;
	for (int i = 0; i < LEAK_FRAME; i++)
		sum += (double)samples[i] * samples[i];
	return 10 * log10(sum / LEAK_FRAME + 1e-3) - 20 * log10(32768);
}

static double
loudest_db(const struct leak *leak)
{
	double most = -INFINITY;
	for (int i = 0; i < LEAK_TAIL_FRAMES; i++)
		most = fmax(most, leak->played_db[i]);
	return most;
}

static void
remember(struct leak *leak, const int16_t heard[LEAK_FRAME], double heard_db)
{
	memcpy(leak->heard[leak->heard_next], heard, sizeof leak->heard[0]);
	leak->heard_db[leak->heard_next] = heard_db;
	leak->heard_next = (leak->heard_next + 1) % ROOM_FRAMES;
	if (leak->heard_count < ROOM_FRAMES)
		leak->heard_count++;
}

static int
by_level(const void *a, const void *b)
{
	double one = *(const double *)a, other = *(const double *)b;
	return (one > other) - (one < other);
}

/* A read-back begins: the room is what was about as soft as the softest that was heard. The edges
 * of what somebody just said are not: in a microphone that is silent between words they would seem
 * to be words again. */
static void
know_room(struct leak *leak)
{
	double sorted_db[ROOM_FRAMES];
	leak->room_count = leak->room_at = 0;
	if (leak->heard_count == 0)
		return;
	memcpy(sorted_db, leak->heard_db, sizeof sorted_db);
	qsort(sorted_db, (size_t)leak->heard_count, sizeof *sorted_db, by_level);
	double soft_db = sorted_db[leak->heard_count * ROOM_SHARE / 100];
	leak->room_db = fmax(silence_db, soft_db);
	int oldest = leak->heard_count < ROOM_FRAMES ? 0 : leak->heard_next;
	for (int i = 0; i < leak->heard_count; i++) {
		int at = (oldest + i) % ROOM_FRAMES;
		if (leak->heard_db[at] <= soft_db + room_spread_db)
			leak->room[leak->room_count++] = at;
	}
}

/* In place of what is left of a leak: the room as it sounded before, so that it does not seem to
 * change. While that is not known, what is left is turned down to its level. */
static void
put_room(struct leak *leak, int16_t left[LEAK_FRAME], double left_db)
{
	if (leak->room_count > 0) {
		leak->room_at = (leak->room_at + 1) % leak->room_count;
		memcpy(left, leak->heard[leak->room[leak->room_at]], sizeof leak->heard[0]);
		return;
	}
	double gain = pow(10, fmin(0, leak->room_db - left_db) / 20);
	for (int i = 0; i < LEAK_FRAME; i++)
		left[i] = (int16_t)lround(left[i] * gain);
}

/* Nothing of the read-back can come back any more: what it told of the leak is learned. */
static void
learn(struct leak *leak)
{
	if (!leak->opened && leak->loud_frames >= LEARNED_FRAMES) {
		double enough_db = fmax(least_gate_db, leak->most_db + over_leak_db);
		leak->gate_db = fmin(first_gate_db, 0.5 * (leak->gate_db + enough_db));
	}
	leak->loud_frames = leak->open_frames = 0;
	leak->most_db = -INFINITY;
	leak->opened = false;
}

static void
gate(struct leak *leak, int16_t left[LEAK_FRAME], double heard_db)
{
	double loud_db = loudest_db(leak), left_db = level_db(left);
	bool is_leak = heard_db - left_db > taken_out_db;
	bool stands_out = left_db > leak->room_db + over_room_db;
	/* The leak has become louder than was learned, and the canceller knows it for what it is.
	 */
	if (is_leak && left_db > loud_db + leak->gate_db)
		leak->gate_db = fmin(first_gate_db, left_db - loud_db + 1);
	if (!is_leak && stands_out && left_db > loud_db + leak->gate_db) {
		leak->open_frames = OPEN_FRAMES;
		leak->opened = true;
	}
	if (leak->open_frames > 0) {
		leak->open_frames--;
		return;
	}
	leak->most_db = fmax(leak->most_db, left_db - loud_db);
	put_room(leak, left, left_db);
}

void
leak_take_out(struct leak *leak, int16_t heard[LEAK_FRAME], const int16_t played[LEAK_FRAME])
{
	int16_t left[LEAK_FRAME];
	double heard_db = level_db(heard), played_db = level_db(played);
	leak->at = (leak->at + 1) % LEAK_TAIL_FRAMES;
	leak->played_db[leak->at] = played_db;
	if (played_db > silence_db) {
		if (leak_silent(leak))
			know_room(leak);
		leak->silent_frames = 0;
		leak->loud_frames++;
	} else {
		leak->silent_frames++;
	}
	if (leak_silent(leak)) {
		if (leak->silent_frames == LEAK_TAIL_FRAMES)
			learn(leak);
		remember(leak, heard, heard_db);
		return;
	}
	speex_echo_cancellation(leak->canceller, heard, played, left);
	gate(leak, left, heard_db);
	memcpy(heard, left, sizeof left);
}

bool
leak_silent(const struct leak *leak)
{
	return leak->silent_frames >= LEAK_TAIL_FRAMES;
}

double
leak_gate_db(const struct leak *leak)
{
	return leak->gate_db;
}
