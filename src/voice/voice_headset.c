#include "audio_device.h"
#include "played.h"
#include "pulse_watch.h"
#include "ring.h"
#include "voice_output.h"

#include <math.h>
#include <portaudio.h>
#include <samplerate.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum {
	ROOM_S = 64, /* voice.c renders no more than a few clauses ahead; what is more is cut */
	QUEUE_GAP_MS = 60,
	FADE_MS = 6,
	STALLED_MS = 3000, /* how long a stream may ask for nothing */
	BLOCK_FRAMES = 512
};
static const double latency_s = 0.01;

struct headset_output {
	struct voice_output output;
	char name[AUDIO_NAME_MAX];
	double gain; /* 0 to 1 */
	bool begun;
	PaStream *stream; /* NULL: the headset is gone */
	struct audio_form form;
	double latency_ms;
	struct ring *ring;     /* written by the main loop, read by the callback */
	struct played *played; /* NULL: nobody wants to know; borrowed */
	struct pulse_watch *watch;
	_Atomic int64_t hush_until;   /* a position in the ring: what lies before is faded out */
	_Atomic int64_t asked;	      /* how often the callback was asked for sound */
	int64_t asked_seen, asked_ms; /* the main loop's: when that had last become more */
	int64_t told_ms, told_at_ms;  /* the last time told, and the clock then */
	bool told_fault;
};

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static void
fade(int16_t *samples, int64_t count)
{
	for (int64_t i = 0; i < count; i++)
		samples[i] = (int16_t)(samples[i] * (count - 1 - i) / count);
}

/* The next samples to be heard: up to `most`, zeros where there are none. */
static void
next_samples(struct headset_output *headset, int16_t *samples, int64_t most)
{
	int64_t done = 0;
	int64_t unwanted = atomic_load_explicit(&headset->hush_until, memory_order_acquire) -
			   ring_taken(headset->ring);
	if (unwanted > 0) {
		int64_t length = headset->form.rate_hz * FADE_MS / 1000;
		length = length < unwanted ? length : unwanted;
		done = ring_read(headset->ring, samples, length < most ? length : most);
		fade(samples, done);
		ring_skip(headset->ring, unwanted - done);
	}
	done += ring_read(headset->ring, samples + done, most - done);
	memset(samples + done, 0, (size_t)(most - done) * sizeof *samples);
}

/* PortAudio's thread: no lock, no allocation, no system call. */
static int
on_ask(const void *input, void *output, unsigned long frames, const PaStreamCallbackTimeInfo *time,
       PaStreamCallbackFlags flags, void *user)
{
	struct headset_output *headset = user;
	int16_t *to = output, block[BLOCK_FRAMES];
	atomic_fetch_add_explicit(&headset->asked, 1, memory_order_relaxed);
	for (int64_t left = (int64_t)frames; left > 0;) {
		int64_t some = left < BLOCK_FRAMES ? left : BLOCK_FRAMES;
		next_samples(headset, block, some);
		if (headset->played != NULL)
			played_write(headset->played, block, some);
		for (int64_t i = 0; i < some; i++)
			for (int channel = 0; channel < headset->form.channels; channel++)
				*to++ = block[i];
		left -= some;
	}
	return paContinue;
}

static bool
take(struct headset_output *headset, struct problem *problem)
{
	int device = audio_device_find(headset->name, AUDIO_EAR_PIECE, problem);
	if (device < 0)
		return false;
	if (!audio_device_form(device, AUDIO_EAR_PIECE, SOUND_RATE_HZ, &headset->form))
		return problem_say(problem,
				   "nothing can be played on \"%s\": another program may hold it; "
				   "close that, or choose another with --headset",
				   audio_device_at(device).name);
	headset->ring = ring_create((int64_t)ROOM_S * headset->form.rate_hz);
	if (headset->ring == NULL)
		return problem_say(problem, "cannot speak: out of memory");
	atomic_store(&headset->hush_until, 0);
	PaStreamParameters parameters = {.device = device,
					 .channelCount = headset->form.channels,
					 .sampleFormat = paInt16,
					 .suggestedLatency = latency_s};
	if (headset->played != NULL)
		played_begin(headset->played, headset->form.rate_hz);
	PaError error = Pa_OpenStream(&headset->stream, NULL, &parameters, headset->form.rate_hz,
				      paFramesPerBufferUnspecified, paClipOff, on_ask, headset);
	if (error == paNoError)
		error = Pa_StartStream(headset->stream);
	if (error != paNoError)
		return problem_say(problem, "the ear-piece \"%s\" cannot be opened: %s",
				   audio_device_at(device).name, Pa_GetErrorText(error));
	headset->latency_ms = Pa_GetStreamInfo(headset->stream)->outputLatency * 1000;
	headset->watch = pulse_watch_open(AUDIO_EAR_PIECE);
	headset->asked_ms = now_ms();
	headset->told_fault = false;
	return true;
}

void
headset_output_let_go(struct voice_output *output)
{
	struct headset_output *headset = (struct headset_output *)output;
	if (headset->stream != NULL)
		Pa_CloseStream(headset->stream);
	headset->stream = NULL;
	if (headset->begun)
		audio_end();
	headset->begun = false;
	pulse_watch_close(headset->watch);
	headset->watch = NULL;
	ring_destroy(headset->ring);
	headset->ring = NULL;
}

bool
headset_output_take(struct voice_output *output, struct problem *problem)
{
	struct headset_output *headset = (struct headset_output *)output;
	headset_output_let_go(output);
	headset->begun = audio_begin(problem);
	if (headset->begun && take(headset, problem))
		return true;
	headset_output_let_go(output);
	return false;
}

bool
headset_output_gone(struct voice_output *output)
{
	struct headset_output *headset = (struct headset_output *)output;
	if (headset->stream == NULL)
		return true;
	int64_t asked = atomic_load_explicit(&headset->asked, memory_order_relaxed);
	if (asked != headset->asked_seen) {
		headset->asked_seen = asked;
		headset->asked_ms = now_ms();
	}
	return pulse_watch_moved(headset->watch) || Pa_IsStreamActive(headset->stream) != 1 ||
	       now_ms() - headset->asked_ms > STALLED_MS;
}

static void
headset_time(struct voice_output *output, int64_t at_ms)
{
	struct headset_output *headset = (struct headset_output *)output;
	headset->told_ms = at_ms > headset->told_ms ? at_ms : headset->told_ms;
	headset->told_at_ms = now_ms();
}

/* The sound at the device's rate. */
static bool
bring_to_rate(struct sound *sound, int rate_hz)
{
	if (rate_hz == SOUND_RATE_HZ || sound->count == 0)
		return true;
	double ratio = (double)rate_hz / SOUND_RATE_HZ;
	int64_t most = (int64_t)((double)sound->count * ratio) + 16;
	float *in = malloc((size_t)sound->count * sizeof *in);
	float *out = malloc((size_t)most * sizeof *out);
	int16_t *samples = malloc((size_t)most * sizeof *samples);
	bool done = in != NULL && out != NULL && samples != NULL;
	if (done) {
		src_short_to_float_array(sound->samples, in, (int)sound->count);
		SRC_DATA data = {.data_in = in,
				 .data_out = out,
				 .input_frames = sound->count,
				 .output_frames = most,
				 .src_ratio = ratio};
		done = src_simple(&data, SRC_SINC_FASTEST, 1) == 0;
		if (done) {
			src_float_to_short_array(out, samples, (int)data.output_frames_gen);
			sound_finish(sound);
			*sound = (struct sound){samples, data.output_frames_gen};
			samples = NULL;
		}
	}
	free(in);
	free(out);
	free(samples);
	return done;
}

static void
write_silence(struct headset_output *headset, int ms)
{
	static const int16_t silence[BLOCK_FRAMES];
	for (int64_t left = (int64_t)headset->form.rate_hz * ms / 1000; left > 0;
	     left -= BLOCK_FRAMES)
		ring_write(headset->ring, silence, left < BLOCK_FRAMES ? left : BLOCK_FRAMES);
}

static bool
headset_play(struct voice_output *output, struct sound *sound, bool joined, struct problem *problem)
{
	struct headset_output *headset = (struct headset_output *)output;
	bool heard = headset->stream != NULL && bring_to_rate(sound, headset->form.rate_hz);
	for (int64_t i = 0; i < sound->count && headset->gain < 1; i++)
		sound->samples[i] = (int16_t)(sound->samples[i] * headset->gain);
	if (heard && sound->count > 0) {
		int64_t waiting = ring_written(headset->ring) - ring_taken(headset->ring);
		bool hushed = atomic_load(&headset->hush_until) >= ring_written(headset->ring);
		if (waiting > 0 && !hushed && !joined)
			write_silence(headset, QUEUE_GAP_MS);
		ring_write(headset->ring, sound->samples, sound->count);
	}
	sound_finish(sound);
	if (heard || headset->told_fault)
		return true;
	headset->told_fault = true;
	return problem_say(problem, "nothing is heard: the headset is gone; plug it in again");
}

static void
headset_hush(struct voice_output *output)
{
	struct headset_output *headset = (struct headset_output *)output;
	if (headset->stream != NULL)
		atomic_store_explicit(&headset->hush_until, ring_written(headset->ring),
				      memory_order_release);
}

static int64_t
headset_done_ms(const struct voice_output *output)
{
	const struct headset_output *headset = (const struct headset_output *)output;
	if (headset->stream == NULL)
		return headset->told_ms;
	int64_t hushed = atomic_load(&headset->hush_until);
	int64_t from = ring_taken(headset->ring);
	int64_t left = ring_written(headset->ring) - (from > hushed ? from : hushed);
	if (left <= 0)
		return headset->told_ms;
	return headset->told_ms + (now_ms() - headset->told_at_ms) +
	       left * 1000 / headset->form.rate_hz + (int64_t)ceil(headset->latency_ms);
}

static bool
headset_close(struct voice_output *output, int64_t end_ms, struct problem *problem)
{
	headset_output_let_go(output);
	free(output);
	return true;
}

static const struct voice_output_functions headset_functions = {
	.name = "headset",
	.live = true,
	.time = headset_time,
	.play = headset_play,
	.hush = headset_hush,
	.done_ms = headset_done_ms,
	.close = headset_close,
};

struct voice_output *
voice_output_headset(const char *name, double loudness_db, struct played *played,
		     struct problem *problem)
{
	struct headset_output *headset = calloc(1, sizeof *headset);
	if (headset == NULL) {
		problem_say(problem, "cannot speak: out of memory");
		return NULL;
	}
	headset->output.functions = &headset_functions;
	headset->gain = pow(10, fmin(loudness_db, 0) / 20);
	headset->played = played;
	headset->told_at_ms = now_ms();
	strncpy(headset->name, name == NULL ? "" : name, sizeof headset->name - 1);
	if (headset_output_take(&headset->output, problem))
		return &headset->output;
	free(headset);
	return NULL;
}
