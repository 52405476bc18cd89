#include "voice.h"

#include "clause.h"
#include "level.h"
#include "voice_output.h"

#include <stdlib.h>
#include <string.h>

enum {
	SAMPLES_A_MS = SOUND_RATE_HZ / 1000,
	CUE_GAP_MS = 30,
	CLAUSES_MAX = 256,
	USUAL_CHARACTER_MS = 70 /* about 14 characters a second */
};

/* A clause that is still to be rendered. Live output only. */
struct clause {
	char *text;
	bool joined;  /* it goes on from the clause before */
	int pause_ms; /* after it */
};

struct voice {
	struct voice_output *output; /* owned */
	struct speech *speech;	     /* borrowed */
	struct cues *cues;	     /* borrowed */
	struct clause clauses[CLAUSES_MAX];
	int clause_count;
	int64_t clauses_ms; /* about how long they will last */
};

static struct voice *
voice_create(struct voice_output *output, struct speech *speech, struct cues *cues,
	     struct problem *problem)
{
	struct voice *voice = output == NULL ? NULL : calloc(1, sizeof *voice);
	if (output != NULL && voice == NULL) {
		output->functions->close(output, 0, NULL);
		problem_say(problem, "cannot speak: out of memory");
	}
	if (voice == NULL)
		return NULL;
	voice->output = output;
	voice->speech = speech;
	voice->cues = cues;
	return voice;
}

struct voice *
voice_open_file(const char *path, struct speech *speech, struct cues *cues, struct problem *problem)
{
	return voice_create(voice_output_file(path, problem), speech, cues, problem);
}

struct voice *
voice_open_headset(const char *name, double loudness_db, struct speech *speech, struct cues *cues,
		   struct played *played, struct problem *problem)
{
	return voice_create(voice_output_headset(name, loudness_db, played, problem), speech, cues,
			    problem);
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

/* Renders and plays, with silence of `pause_ms` after it. */
static bool
utter(struct voice *voice, const char *cue, const char *text, bool joined, int pause_ms,
      struct problem *problem)
{
	struct sound sound = {NULL, 0};
	bool made = render(voice, cue, text, &sound, problem);
	if (made && pause_ms > 0) {
		struct sound nothing = {NULL, 0};
		made = sound_mix(&sound, &nothing, sound.count + pause_ms * SAMPLES_A_MS) ||
		       problem_say(problem, "cannot say \"%.60s\": out of memory", text);
	}
	if (made)
		return voice->output->functions->play(voice->output, &sound, joined, problem);
	sound_finish(&sound);
	return false;
}

static void
drop_clauses(struct voice *voice, int count)
{
	for (int i = 0; i < count; i++) {
		voice->clauses_ms -= (int64_t)strlen(voice->clauses[i].text) * USUAL_CHARACTER_MS;
		free(voice->clauses[i].text);
	}
	voice->clause_count -= count;
	memmove(voice->clauses, voice->clauses + count,
		(size_t)voice->clause_count * sizeof *voice->clauses);
}

static bool
keep_clauses(struct voice *voice, const char *text, bool joined, struct problem *problem)
{
	for (size_t length; (length = clause_length(text)) > 0; text += length, joined = true) {
		if (voice->clause_count == CLAUSES_MAX)
			return problem_say(problem,
					   "too much is still to be said: the end of it is "
					   "left out");
		char *copy = strndup(text, length);
		if (copy == NULL)
			return problem_say(problem, "cannot speak: out of memory");
		voice->clauses[voice->clause_count++] =
			(struct clause){copy, joined, clause_pause_ms(text, length)};
		voice->clauses_ms += (int64_t)strlen(copy) * USUAL_CHARACTER_MS;
	}
	return true;
}

/* A cue is never late: it is heard at once, before the clauses that still wait, and those are
 * rendered while it lasts. Without a cue the first clause is rendered at once, and the others as
 * voice_work comes to them. */
static bool
say_live(struct voice *voice, const char *cue, const char *text, struct problem *problem)
{
	const char *words = text == NULL ? "" : text;
	bool waits = voice->clause_count > 0;
	if (cue != NULL) {
		bool cued =
			utter(voice, cue, NULL, false, *words == '\0' ? 0 : CUE_GAP_MS, problem);
		return keep_clauses(voice, words, !waits, cued ? problem : NULL) && cued;
	}
	if (waits)
		return keep_clauses(voice, words, false, problem);
	size_t length = clause_length(words);
	char *first = strndup(words, length);
	bool said = first != NULL &&
		    utter(voice, NULL, first, false, clause_pause_ms(words, length), problem);
	free(first);
	return keep_clauses(voice, words + length, true, said ? problem : NULL) && said;
}

bool
voice_say(struct voice *voice, int64_t at_ms, const char *cue, const char *text,
	  struct problem *problem)
{
	voice->output->functions->time(voice->output, at_ms);
	if (voice->output->functions->live)
		return say_live(voice, cue, text, problem);
	return utter(voice, cue, text, false, 0, problem);
}

bool
voice_work(struct voice *voice, int64_t at_ms, struct problem *problem)
{
	voice->output->functions->time(voice->output, at_ms);
	if (voice->clause_count == 0)
		return false;
	const struct clause *clause = &voice->clauses[0];
	utter(voice, NULL, clause->text, clause->joined, clause->pause_ms, problem);
	drop_clauses(voice, 1);
	return voice->clause_count > 0;
}

void
voice_hush(struct voice *voice, int64_t at_ms)
{
	voice->output->functions->time(voice->output, at_ms);
	drop_clauses(voice, voice->clause_count);
	voice->output->functions->hush(voice->output);
}

int64_t
voice_done_ms(const struct voice *voice)
{
	return voice->output->functions->done_ms(voice->output) + voice->clauses_ms;
}

bool
voice_gone(struct voice *voice)
{
	return voice->output->functions->live && headset_output_gone(voice->output);
}

void
voice_let_go(struct voice *voice)
{
	if (!voice->output->functions->live)
		return;
	drop_clauses(voice, voice->clause_count);
	headset_output_let_go(voice->output);
}

bool
voice_take_up(struct voice *voice, struct problem *problem)
{
	return !voice->output->functions->live || headset_output_take(voice->output, problem);
}

bool
voice_close(struct voice *voice, int64_t end_ms, struct problem *problem)
{
	if (voice == NULL)
		return true;
	drop_clauses(voice, voice->clause_count);
	bool closed = voice->output->functions->close(voice->output, end_ms, problem);
	free(voice);
	return closed;
}
