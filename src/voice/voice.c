#include "voice.h"

#include "level.h"
#include "wav_file.h"

#include <stdlib.h>
#include <string.h>

enum {
	SAMPLES_A_MS = SOUND_RATE_HZ / 1000,
	CUE_GAP_MS = 40,
	QUEUE_GAP_MS = 60,
	FADE_SAMPLES = 10 * SAMPLES_A_MS
};

/* A cue and words that were asked for together, and when they start: a sample of the session. */
struct utterance {
	int64_t start;
	struct sound sound;
};

/* All times in here are samples from the session's start. What lies before `now` is settled, since
 * nothing can come that changes it, and is in the file up to `written`; silence is only written
 * when something follows it. */
struct voice {
	struct wav_file *file;	   /* NULL: none, or it failed */
	struct speech *speech;	   /* borrowed */
	struct cues *cues;	   /* borrowed */
	struct utterance *waiting; /* in order, not overlapping; the first may have begun */
	int waiting_count, waiting_room;
	int64_t now, written;
	int64_t end;	      /* of the last that was asked for */
	bool hushed;	      /* nothing was asked for since the hush */
	bool failed, told;    /* the file could not be written; voice_say has said so */
	struct problem fault; /* how */
};

struct voice *
voice_open_file(const char *path, struct speech *speech, struct cues *cues, struct problem *problem)
{
	struct voice *voice = calloc(1, sizeof *voice);
	if (voice == NULL) {
		problem_say(problem, "cannot speak: out of memory");
		return NULL;
	}
	voice->speech = speech;
	voice->cues = cues;
	if (path != NULL && (voice->file = wav_file_open(path, problem)) == NULL) {
		free(voice);
		return NULL;
	}
	return voice;
}

/* After a fault the file is closed as it is, and time passes as without one. */
static void
file_failed(struct voice *voice)
{
	voice->failed = true;
	wav_file_close(voice->file, NULL);
	voice->file = NULL;
}

static void
write_silence(struct voice *voice, int64_t until)
{
	if (until <= voice->written)
		return;
	if (voice->file != NULL &&
	    !wav_file_write_silence(voice->file, until - voice->written, &voice->fault))
		file_failed(voice);
	voice->written = until;
}

/* What of the utterance comes before `until`. */
static void
write_utterance(struct voice *voice, const struct utterance *utterance, int64_t until)
{
	write_silence(voice, utterance->start);
	int64_t end = utterance->start + utterance->sound.count;
	int64_t count = (end < until ? end : until) - voice->written;
	const int16_t *samples = utterance->sound.samples + (voice->written - utterance->start);
	if (voice->file != NULL && !wav_file_write(voice->file, samples, count, &voice->fault))
		file_failed(voice);
	voice->written += count;
}

static void
drop_first(struct voice *voice, int count)
{
	for (int i = 0; i < count; i++)
		sound_finish(&voice->waiting[i].sound);
	voice->waiting_count -= count;
	if (voice->waiting_count == 0)
		return;
	memmove(voice->waiting, voice->waiting + count,
		(size_t)voice->waiting_count * sizeof *voice->waiting);
}

/* Settles all that comes before `until`. */
static void
advance(struct voice *voice, int64_t until)
{
	if (until <= voice->now)
		return;
	voice->now = until;
	int ended = 0;
	for (; ended < voice->waiting_count; ended++) {
		const struct utterance *utterance = &voice->waiting[ended];
		if (utterance->start >= until)
			break;
		write_utterance(voice, utterance, until);
		if (utterance->start + utterance->sound.count > until)
			break;
	}
	drop_first(voice, ended);
}

/* The cue and the words as one sound, within the ceiling. The caller finishes it. */
static bool
render(struct voice *voice, const char *cue, const char *text, struct sound *sound,
       struct problem *problem)
{
	struct sound words = {NULL, 0};
	bool made = true;
	if (cue != NULL)
		made = sound_mix(sound, cues_find(voice->cues, cue), 0) ||
		       problem_say(problem, "cannot sound a cue: out of memory");
	if (made && text != NULL)
		made = speech_render(voice->speech, text, &words, problem);
	int64_t gap = sound->count == 0 ? 0 : CUE_GAP_MS * SAMPLES_A_MS;
	if (made)
		made = sound_mix(sound, &words, sound->count + gap) ||
		       problem_say(problem, "cannot say \"%.60s\": out of memory", text);
	sound_finish(&words);
	/* Cues and words keep within it of themselves; here it holds whatever they do. */
	level_limit(sound, LEVEL_CEILING_DBFS);
	return made;
}

/* Takes over the sound. */
static bool
ask_for(struct voice *voice, struct sound *sound, struct problem *problem)
{
	if (voice->waiting_count == voice->waiting_room) {
		int room = voice->waiting_room * 2 + 4;
		struct utterance *grown = realloc(voice->waiting, (size_t)room * sizeof *grown);
		if (grown == NULL) {
			sound_finish(sound);
			return problem_say(problem, "cannot speak: out of memory");
		}
		voice->waiting = grown;
		voice->waiting_room = room;
	}
	int64_t gap = voice->hushed ? 0 : QUEUE_GAP_MS * SAMPLES_A_MS;
	int64_t start = voice->end > voice->now ? voice->end + gap : voice->now;
	voice->waiting[voice->waiting_count++] = (struct utterance){start, *sound};
	voice->end = start + sound->count;
	voice->hushed = false;
	return true;
}

bool
voice_say(struct voice *voice, int64_t at_ms, const char *cue, const char *text,
	  struct problem *problem)
{
	struct sound sound = {NULL, 0};
	advance(voice, at_ms * SAMPLES_A_MS);
	if (!render(voice, cue, text, &sound, problem)) {
		sound_finish(&sound);
		return false;
	}
	if (sound.count > 0 && !ask_for(voice, &sound, problem))
		return false;
	if (voice->failed && !voice->told) {
		voice->told = true;
		return problem_say(problem, "%s", voice->fault.text);
	}
	return true;
}

void
voice_hush(struct voice *voice, int64_t at_ms)
{
	advance(voice, at_ms * SAMPLES_A_MS);
	int64_t now = voice->now;
	voice->hushed = true;
	if (voice->end > now)
		voice->end = now;
	int begun = voice->waiting_count > 0 && voice->waiting[0].start < now ? 1 : 0;
	for (int i = begun; i < voice->waiting_count; i++)
		sound_finish(&voice->waiting[i].sound);
	voice->waiting_count = begun;
	if (begun == 0)
		return;
	struct sound *sound = &voice->waiting[0].sound;
	int64_t from = now - voice->waiting[0].start;
	if (sound->count > from + FADE_SAMPLES)
		sound->count = from + FADE_SAMPLES;
	for (int64_t i = from; i < sound->count; i++)
		sound->samples[i] =
			(int16_t)(sound->samples[i] * (FADE_SAMPLES - (i - from)) / FADE_SAMPLES);
	voice->end = voice->waiting[0].start + sound->count;
}

int64_t
voice_done_ms(const struct voice *voice)
{
	return (voice->end + SAMPLES_A_MS - 1) / SAMPLES_A_MS;
}

bool
voice_close(struct voice *voice, int64_t end_ms, struct problem *problem)
{
	if (voice == NULL)
		return true;
	int64_t end = end_ms * SAMPLES_A_MS;
	advance(voice, voice->end);
	write_silence(voice, end);
	bool closed = wav_file_close(voice->file, &voice->fault);
	if (voice->failed || !closed)
		closed = problem_say(problem, "%s", voice->fault.text);
	drop_first(voice, voice->waiting_count);
	free(voice->waiting);
	free(voice);
	return closed;
}
