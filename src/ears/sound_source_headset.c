#include "audio_device.h"
#include "bandwidth.h"
#include "pulse_watch.h"
#include "rate_change.h"
#include "ring.h"
#include "sound_source.h"

#include <portaudio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum {
	RATE_HZ = 16000,
	USUAL_ROOM_MS = 4000,
	FIRST_SOUND_MS = 5000, /* how long the first sound may take to come */
	SILENT_MS = 2000,      /* how long a stream may give nothing at all */
	PIECE_FRAMES = 480
};
static const double latency_s = 0.02;

struct headset_source {
	struct sound_source source;
	bool begun; /* audio_begin succeeded */
	PaStream *stream;
	struct audio_form form;		 /* what the device gives; set before the stream starts */
	struct ring *ring;		 /* written by the callback, read by the listening thread */
	struct pulse_watch *watch;	 /* from here on: the listening thread's only */
	struct rate_change *rate_change; /* NULL: the device gives 16 kHz */
	struct bandwidth bandwidth;
	int64_t lost_told;
	int64_t came;	 /* samples that the callback had seen when they last became more */
	int64_t came_ms; /* and when that was noticed */
	bool gone;
};

/* PortAudio's thread: no lock, no allocation, no system call. */
static int
on_sound(const void *input, void *output, unsigned long frames,
	 const PaStreamCallbackTimeInfo *time, PaStreamCallbackFlags flags, void *user)
{
	struct headset_source *headset = user;
	if (input != NULL)
		ring_write(headset->ring, input, (int64_t)frames * headset->form.channels);
	return paContinue;
}

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int
headset_fd(struct sound_source *source)
{
	return -1;
}

static bool
has_gone(struct headset_source *headset)
{
	int64_t came = ring_written(headset->ring) + ring_lost(headset->ring);
	int64_t patience_ms = came == 0 ? FIRST_SOUND_MS : SILENT_MS;
	if (came != headset->came) {
		headset->came = came;
		headset->came_ms = now_ms();
	}
	return pulse_watch_moved(headset->watch) || Pa_IsStreamActive(headset->stream) != 1 ||
	       now_ms() - headset->came_ms > patience_ms;
}

/* One channel of what the device gave: the mean of two. */
static int64_t
to_mono(int16_t *samples, int64_t count, int channels)
{
	if (channels == 1)
		return count;
	for (int64_t i = 0; i < count / 2; i++)
		samples[i] = (int16_t)((samples[2 * i] + samples[2 * i + 1]) / 2);
	return count / 2;
}

static enum sound_news
headset_next(struct sound_source *source, int16_t *samples, int64_t most, struct sound_piece *piece)
{
	struct headset_source *headset = (struct headset_source *)source;
	int16_t raw[PIECE_FRAMES * AUDIO_CHANNELS_MAX];
	int64_t frames = rate_change_most_in(headset->rate_change, most);
	if (frames > PIECE_FRAMES)
		frames = PIECE_FRAMES;
	/* Whole frames: the ring's room is a power of two, so that not even a full one cuts one. */
	int64_t there = ring_filled(headset->ring) / headset->form.channels;
	int64_t count = ring_read(headset->ring, raw,
				  (there < frames ? there : frames) * headset->form.channels);
	if (count == 0) {
		headset->gone = headset->gone || has_gone(headset);
		return headset->gone ? SOUND_GONE : SOUND_NONE;
	}
	count = to_mono(raw, count, headset->form.channels);
	piece->count = rate_change_do(headset->rate_change, raw, count, samples, most);
	int64_t lost = ring_lost(headset->ring);
	piece->lost = (lost - headset->lost_told) / headset->form.channels * RATE_HZ /
		      headset->form.rate_hz;
	headset->lost_told = lost;
	bandwidth_add(&headset->bandwidth, samples, piece->count);
	piece->narrow = bandwidth_narrow(&headset->bandwidth);
	headset->gone = headset->gone || has_gone(headset);
	return piece->count > 0 ? SOUND_SOME : SOUND_NONE;
}

static void
headset_close(struct sound_source *source)
{
	struct headset_source *headset = (struct headset_source *)source;
	if (headset->stream != NULL)
		Pa_CloseStream(headset->stream);
	if (headset->begun)
		audio_end();
	pulse_watch_close(headset->watch);
	rate_change_destroy(headset->rate_change);
	ring_destroy(headset->ring);
	free(headset);
}

static const struct sound_source_functions headset_functions = {"headset", headset_fd, headset_next,
								headset_close};

static bool
begin(struct headset_source *headset, const char *name, int room_ms, struct problem *problem)
{
	headset->begun = audio_begin(problem);
	if (!headset->begun)
		return false;
	int device = audio_device_find(name, AUDIO_MICROPHONE, problem);
	if (device < 0)
		return false;
	struct audio_device known = audio_device_at(device);
	if (!audio_device_form(device, AUDIO_MICROPHONE, RATE_HZ, &headset->form))
		return problem_say(problem,
				   "the microphone \"%s\" cannot be recorded from: another program "
				   "may hold it; close that, or choose another with --headset",
				   known.name);
	int64_t room = (int64_t)headset->form.rate_hz * headset->form.channels *
		       (room_ms > 0 ? room_ms : USUAL_ROOM_MS) / 1000;
	headset->ring = ring_create(room);
	if (headset->form.rate_hz != RATE_HZ)
		headset->rate_change = rate_change_create(headset->form.rate_hz, RATE_HZ);
	if (headset->ring == NULL ||
	    (headset->form.rate_hz != RATE_HZ && headset->rate_change == NULL))
		return problem_say(problem, "cannot listen: out of memory");
	PaStreamParameters parameters = {.device = device,
					 .channelCount = headset->form.channels,
					 .sampleFormat = paInt16,
					 .suggestedLatency = latency_s};
	PaError error = Pa_OpenStream(&headset->stream, &parameters, NULL, headset->form.rate_hz,
				      paFramesPerBufferUnspecified, paClipOff, on_sound, headset);
	if (error == paNoError)
		error = Pa_StartStream(headset->stream);
	if (error != paNoError)
		return problem_say(problem, "the microphone \"%s\" cannot be opened: %s",
				   known.name, Pa_GetErrorText(error));
	headset->watch = pulse_watch_open(AUDIO_MICROPHONE);
	headset->came_ms = now_ms();
	return true;
}

struct sound_source *
sound_source_headset_open(const char *name, int room_ms, struct problem *problem)
{
	struct headset_source *headset = calloc(1, sizeof *headset);
	if (headset == NULL) {
		problem_say(problem, "cannot listen: out of memory");
		return NULL;
	}
	headset->source.functions = &headset_functions;
	bandwidth_init(&headset->bandwidth);
	if (begin(headset, name, room_ms, problem))
		return &headset->source;
	headset_close(&headset->source);
	return NULL;
}
