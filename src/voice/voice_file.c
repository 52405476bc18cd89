#include "voice_output.h"
#include "wav_file.h"

#include <stdlib.h>
#include <string.h>

enum { SAMPLES_A_MS = SOUND_RATE_HZ / 1000, QUEUE_GAP_MS = 60, FADE_SAMPLES = 10 * SAMPLES_A_MS };

/* A cue and words that were asked for together, and when they start: a sample of the session. */
struct utterance {
	int64_t start;
	struct sound sound;
};

/* All times in here are samples from the session's start. What lies before `now` is settled, since
 * nothing can come that changes it, and is in the file up to `written`; silence is only written
 * when something follows it. */
struct file_output {
	struct voice_output output;
	struct wav_file *wav;	   /* NULL: none, or it failed */
	struct utterance *waiting; /* in order, not overlapping; the first may have begun */
	int waiting_count, waiting_room;
	int64_t now, written;
	int64_t end;	      /* of the last that was asked for */
	bool hushed;	      /* nothing was asked for since the hush */
	bool failed, told;    /* the file could not be written; file_play has said so */
	struct problem fault; /* how */
};

/* After a fault the file is closed as it is, and time passes as without one. */
static void
file_failed(struct file_output *file)
{
	file->failed = true;
	wav_file_close(file->wav, NULL);
	file->wav = NULL;
}

static void
write_silence(struct file_output *file, int64_t until)
{
	if (until <= file->written)
		return;
	if (file->wav != NULL &&
	    !wav_file_write_silence(file->wav, until - file->written, &file->fault))
		file_failed(file);
	file->written = until;
}

/* What of the utterance comes before `until`. */
static void
write_utterance(struct file_output *file, const struct utterance *utterance, int64_t until)
{
	write_silence(file, utterance->start);
	int64_t end = utterance->start + utterance->sound.count;
	int64_t count = (end < until ? end : until) - file->written;
	const int16_t *samples = utterance->sound.samples + (file->written - utterance->start);
	if (file->wav != NULL && !wav_file_write(file->wav, samples, count, &file->fault))
		file_failed(file);
	file->written += count;
}

static void
drop_first(struct file_output *file, int count)
{
	for (int i = 0; i < count; i++)
		sound_finish(&file->waiting[i].sound);
	file->waiting_count -= count;
	if (file->waiting_count == 0)
		return;
	memmove(file->waiting, file->waiting + count,
		(size_t)file->waiting_count * sizeof *file->waiting);
}

/* Settles all that comes before `until`. */
static void
advance(struct file_output *file, int64_t until)
{
	if (until <= file->now)
		return;
	file->now = until;
	int ended = 0;
	for (; ended < file->waiting_count; ended++) {
		const struct utterance *utterance = &file->waiting[ended];
		if (utterance->start >= until)
			break;
		write_utterance(file, utterance, until);
		if (utterance->start + utterance->sound.count > until)
			break;
	}
	drop_first(file, ended);
}

/* Takes over the sound. */
static bool
ask_for(struct file_output *file, struct sound *sound, struct problem *problem)
{
	if (file->waiting_count == file->waiting_room) {
		int room = file->waiting_room * 2 + 4;
		struct utterance *grown = realloc(file->waiting, (size_t)room * sizeof *grown);
		if (grown == NULL) {
			sound_finish(sound);
			return problem_say(problem, "cannot speak: out of memory");
		}
		file->waiting = grown;
		file->waiting_room = room;
	}
	int64_t gap = file->hushed ? 0 : QUEUE_GAP_MS * SAMPLES_A_MS;
	int64_t start = file->end > file->now ? file->end + gap : file->now;
	file->waiting[file->waiting_count++] = (struct utterance){start, *sound};
	file->end = start + sound->count;
	file->hushed = false;
	return true;
}

static void
file_time(struct voice_output *output, int64_t at_ms)
{
	advance((struct file_output *)output, at_ms * SAMPLES_A_MS);
}

static bool
file_play(struct voice_output *output, struct sound *sound, bool joined, struct problem *problem)
{
	struct file_output *file = (struct file_output *)output;
	if (sound->count > 0 && !ask_for(file, sound, problem))
		return false;
	if (file->failed && !file->told) {
		file->told = true;
		return problem_say(problem, "%s", file->fault.text);
	}
	return true;
}

static void
file_hush(struct voice_output *output)
{
	struct file_output *file = (struct file_output *)output;
	int64_t now = file->now;
	file->hushed = true;
	if (file->end > now)
		file->end = now;
	int begun = file->waiting_count > 0 && file->waiting[0].start < now ? 1 : 0;
	for (int i = begun; i < file->waiting_count; i++)
		sound_finish(&file->waiting[i].sound);
	file->waiting_count = begun;
	if (begun == 0)
		return;
	struct sound *sound = &file->waiting[0].sound;
	int64_t from = now - file->waiting[0].start;
	if (sound->count > from + FADE_SAMPLES)
		sound->count = from + FADE_SAMPLES;
	for (int64_t i = from; i < sound->count; i++)
		sound->samples[i] =
			(int16_t)(sound->samples[i] * (FADE_SAMPLES - (i - from)) / FADE_SAMPLES);
	file->end = file->waiting[0].start + sound->count;
}

static int64_t
file_done_ms(const struct voice_output *output)
{
	const struct file_output *file = (const struct file_output *)output;
	return (file->end + SAMPLES_A_MS - 1) / SAMPLES_A_MS;
}

static bool
file_close(struct voice_output *output, int64_t end_ms, struct problem *problem)
{
	struct file_output *file = (struct file_output *)output;
	advance(file, file->end);
	write_silence(file, end_ms * SAMPLES_A_MS);
	bool closed = wav_file_close(file->wav, &file->fault);
	if (file->failed || !closed)
		closed = problem_say(problem, "%s", file->fault.text);
	drop_first(file, file->waiting_count);
	free(file->waiting);
	free(file);
	return closed;
}

static const struct voice_output_functions file_functions = {
	.name = "file",
	.time = file_time,
	.play = file_play,
	.hush = file_hush,
	.done_ms = file_done_ms,
	.close = file_close,
};

struct voice_output *
voice_output_file(const char *path, struct problem *problem)
{
	struct file_output *file = calloc(1, sizeof *file);
	if (file == NULL) {
		problem_say(problem, "cannot speak: out of memory");
		return NULL;
	}
	file->output.functions = &file_functions;
	if (path != NULL && (file->wav = wav_file_open(path, problem)) == NULL) {
		free(file);
		return NULL;
	}
	return &file->output;
}
