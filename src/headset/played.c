#include "played.h"

#include "ring.h"

#include <samplerate.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

enum {
	RATE_HZ = 16000,
	PIECE_MAX = 160,
	ROOM_SAMPLES = 4 * 48000,
	/* What is taken lags behind what is written, since both devices take and give in bursts.
	 * What was played comes back later than this, for it waits in both devices. */
	MARGIN_MS = 20,
	DRIFT_MS = 40, /* so far out of step is brought back */
	IN_MAX = 4096
};

struct played {
	struct ring *ring;
	_Atomic int rate_hz;
	_Atomic int streams; /* begun so far */
	int taken_streams;   /* from here on: the listening thread's */
	int taken_rate_hz;
	bool in_step;
	int64_t owed; /* samples that were not there in time, and are passed over when they come */
	SRC_STATE *change; /* NULL: the stream is at 16 kHz */
	float in[IN_MAX], out[PIECE_MAX];
};

struct played *
played_create(void)
{
	struct played *played = calloc(1, sizeof *played);
	if (played == NULL)
		return NULL;
	played->ring = ring_create(ROOM_SAMPLES);
	if (played->ring != NULL)
		return played;
	free(played);
	return NULL;
}

void
played_destroy(struct played *played)
{
	if (played == NULL)
		return;
	if (played->change != NULL)
		src_delete(played->change);
	ring_destroy(played->ring);
	free(played);
}

void
played_begin(struct played *played, int rate_hz)
{
	atomic_store_explicit(&played->rate_hz, rate_hz, memory_order_relaxed);
	atomic_fetch_add_explicit(&played->streams, 1, memory_order_release);
}

void
played_write(struct played *played, const int16_t *samples, int64_t count)
{
	ring_write(played->ring, samples, count);
}

static bool
is_new_stream(struct played *played)
{
	int error, streams = atomic_load_explicit(&played->streams, memory_order_acquire);
	if (streams == played->taken_streams)
		return false;
	played->taken_streams = streams;
	played->taken_rate_hz = atomic_load_explicit(&played->rate_hz, memory_order_relaxed);
	played->in_step = false;
	if (played->change != NULL)
		src_delete(played->change);
	played->change =
		played->taken_rate_hz == RATE_HZ ? NULL : src_new(SRC_SINC_FASTEST, 1, &error);
	return true;
}

/* All but the newest MARGIN_MS goes unread. */
static void
step(struct played *played)
{
	int64_t margin = (int64_t)played->taken_rate_hz * MARGIN_MS / 1000;
	int64_t filled = ring_filled(played->ring);
	played->owed = filled < margin ? filled - margin : 0;
	ring_skip(played->ring, filled > margin ? filled - margin : 0);
	played->in_step = true;
}

/* `count` samples of the stream as it is. What is owed below 0 is silence that goes before it. */
static void
take_raw(struct played *played, int16_t *samples, int64_t count)
{
	int64_t silent = played->owed < 0 ? -played->owed : 0;
	silent = silent < count ? silent : count;
	if (played->owed < 0)
		played->owed += silent;
	else
		played->owed -= ring_skip(played->ring, played->owed);
	int64_t got = silent + ring_read(played->ring, samples + silent, count - silent);
	memset(samples, 0, (size_t)silent * sizeof *samples);
	memset(samples + got, 0, (size_t)(count - got) * sizeof *samples);
	played->owed += count - got;
}

static void
take_changed(struct played *played, int16_t *samples, int64_t count)
{
	int16_t raw[IN_MAX];
	int64_t wanted = count * played->taken_rate_hz / RATE_HZ;
	wanted = wanted < IN_MAX ? wanted : IN_MAX;
	take_raw(played, raw, wanted);
	src_short_to_float_array(raw, played->in, (int)wanted);
	SRC_DATA data = {.data_in = played->in,
			 .input_frames = wanted,
			 .data_out = played->out,
			 .output_frames = count,
			 .src_ratio = (double)RATE_HZ / played->taken_rate_hz};
	memset(samples, 0, (size_t)count * sizeof *samples);
	if (src_process(played->change, &data) == 0)
		src_float_to_short_array(played->out, samples, (int)data.output_frames_gen);
}

bool
played_take(struct played *played, int16_t *samples, int64_t count)
{
	bool is_new = is_new_stream(played);
	if (played->taken_streams > 0 && !played->in_step)
		step(played);
	if (played->taken_streams == 0)
		memset(samples, 0, (size_t)count * sizeof *samples);
	else if (played->change != NULL)
		take_changed(played, samples, count);
	else
		take_raw(played, samples, count);
	return is_new;
}

bool
played_keep_step(struct played *played)
{
	if (played->taken_streams == 0 || !played->in_step)
		return false;
	int64_t margin = (int64_t)played->taken_rate_hz * MARGIN_MS / 1000;
	int64_t off = ring_filled(played->ring) - played->owed - margin;
	if (llabs(off) * 1000 <= (int64_t)DRIFT_MS * played->taken_rate_hz)
		return false;
	step(played);
	return true;
}
