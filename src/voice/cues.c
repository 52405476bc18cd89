#include "cues.h"

#include "level.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
	NAME_MAX_BYTES = 32,
	TONES_MAX = 16,
	TONE_HZ_MIN = 100, /* below, a headset gives little */
	TONE_HZ_MAX = 4000,
	TONE_MS_MIN = 10,
	TONE_MS_MAX = 1000,
	CUE_MS_MAX = 2000,
	LEVEL_DBFS_MIN = -60,
	LEVEL_DBFS_MAX = -12,
	EDGE_MS = 5, /* each tone swells and fades, for a sudden edge is heard as a click */
	SAMPLES_A_MS = SOUND_RATE_HZ / 1000
};

struct tone {
	int hertz, ms;
};

struct cue {
	char name[NAME_MAX_BYTES];
	struct sound sound;
};

struct cues {
	struct cue *cues;
	int count;
};

/* Where the parser is; the functions below read one line of it. */
struct line {
	const char *file;
	int number;
	char *rest;
	struct problem *problem;
};

/* How much of a tone is heard at `at`: rises and falls by half a cosine. */
static double
envelope(int64_t at, int64_t count)
{
	int64_t edge = EDGE_MS * SAMPLES_A_MS;
	if (edge > count / 2)
		edge = count / 2;
	int64_t from_end = count - 1 - at, nearest = at < from_end ? at : from_end;
	return nearest >= edge ? 1.0 : 0.5 - 0.5 * cos(M_PI * (double)nearest / (double)edge);
}

static bool
render(struct sound *sound, const struct tone *tones, int tone_count, int level_dbfs)
{
	int64_t count = 0;
	for (int i = 0; i < tone_count; i++)
		count += tones[i].ms * SAMPLES_A_MS;
	sound->samples = malloc((size_t)count * sizeof *sound->samples);
	if (sound->samples == NULL)
		return false;
	sound->count = count;
	double loud = level_sample(level_dbfs);
	int16_t *sample = sound->samples;
	for (int i = 0; i < tone_count; i++) {
		int64_t length = tones[i].ms * SAMPLES_A_MS;
		double turn = 2 * M_PI * tones[i].hertz / SOUND_RATE_HZ;
		for (int64_t at = 0; at < length; at++)
			*sample++ = (int16_t)(loud * envelope(at, length) * sin(turn * (double)at));
	}
	return true;
}

static bool
wrong(const struct line *line, const char *what, const char *word)
{
	return problem_say(line->problem, "%s, line %d: %s: \"%.60s\"", line->file, line->number,
			   what, word);
}

/* The next word of the line, or NULL at its end. */
static char *
next_word(struct line *line)
{
	return strtok_r(NULL, " \t", &line->rest);
}

/* All of `text` up to `end` is a whole number of at most five digits, maybe with a minus. */
static bool
whole_number(const char *text, char end, int *value, const char **after)
{
	bool negative = *text == '-';
	const char *digit = text + negative;
	int magnitude = 0;
	for (; *digit >= '0' && *digit <= '9' && digit - text < 6; digit++)
		magnitude = magnitude * 10 + (*digit - '0');
	if (digit == text + negative || *digit != end)
		return false;
	*value = negative ? -magnitude : magnitude;
	*after = digit + (end != '\0');
	return true;
}

static bool
read_tone(const struct line *line, const char *word, struct tone *tone)
{
	const char *after;
	if (!whole_number(word, '/', &tone->hertz, &after) ||
	    !whole_number(after, '\0', &tone->ms, &after))
		return wrong(line, "a tone is written HERTZ/MILLISECONDS, not", word);
	if (tone->hertz != 0 && (tone->hertz < TONE_HZ_MIN || tone->hertz > TONE_HZ_MAX))
		return wrong(line, "a tone has 100 to 4000 hertz, or 0 for silence, not", word);
	if (tone->ms < TONE_MS_MIN || tone->ms > TONE_MS_MAX)
		return wrong(line, "a tone lasts 10 to 1000 milliseconds, not", word);
	return true;
}

static bool
read_level(struct line *line, int *level_dbfs)
{
	const char *after, *word = next_word(line);
	if (word == NULL || !whole_number(word, '\0', level_dbfs, &after) ||
	    *level_dbfs < LEVEL_DBFS_MIN || *level_dbfs > LEVEL_DBFS_MAX)
		return wrong(line, "a level is a whole number from -60 to -12 (decibels), not",
			     word == NULL ? "" : word);
	const char *extra = next_word(line);
	return extra == NULL || wrong(line, "nothing may follow the level, but there is", extra);
}

static bool
read_name(const struct line *line, const struct cues *cues, const char *word)
{
	size_t length = strspn(word, "abcdefghijklmnopqrstuvwxyz");
	if (word[length] != '\0' || length >= NAME_MAX_BYTES)
		return wrong(line, "a cue's name is one short word in lower-case letters, not",
			     word);
	for (int i = 0; i < cues->count; i++)
		if (strcmp(cues->cues[i].name, word) == 0)
			return wrong(line, "this cue stands twice", word);
	return true;
}

/* The cue that starts with the word `name`, put at the end of the list. */
static bool
read_cue(struct line *line, struct cues *cues, const char *name)
{
	struct tone tones[TONES_MAX];
	int tone_count = 0, ms = 0, level_dbfs = 0;
	if (!read_name(line, cues, name))
		return false;
	char *word;
	while ((word = next_word(line)) != NULL && strcmp(word, "level") != 0) {
		if (tone_count == TONES_MAX)
			return wrong(line, "a cue has at most 16 tones", name);
		if (!read_tone(line, word, &tones[tone_count]))
			return false;
		ms += tones[tone_count++].ms;
	}
	if (tone_count == 0)
		return wrong(line, "this cue has no tone", name);
	if (word == NULL)
		return wrong(line, "the line must end in \"level\" and decibels", name);
	if (ms > CUE_MS_MAX)
		return wrong(line, "a cue lasts at most 2000 milliseconds in all", name);
	if (!read_level(line, &level_dbfs))
		return false;
	struct cue *grown = realloc(cues->cues, (size_t)(cues->count + 1) * sizeof *grown);
	if (grown == NULL)
		return wrong(line, "out of memory", name);
	cues->cues = grown;
	struct cue *cue = &grown[cues->count];
	if (!render(&cue->sound, tones, tone_count, level_dbfs))
		return wrong(line, "out of memory", name);
	snprintf(cue->name, sizeof cue->name, "%s", name);
	cues->count++;
	return true;
}

struct cues *
cues_parse(const char *file, const char *text, struct problem *problem)
{
	struct cues *cues = calloc(1, sizeof *cues);
	char *copy = strdup(text);
	bool good = cues != NULL && copy != NULL;
	if (!good)
		problem_say(problem, "%s: out of memory", file);
	int number = 1;
	for (char *start = copy, *next; good && start != NULL; start = next, number++) {
		next = strchr(start, '\n');
		if (next != NULL)
			*next++ = '\0';
		start[strcspn(start, "#\r")] = '\0';
		struct line line = {file, number, NULL, problem};
		char *name = strtok_r(start, " \t", &line.rest);
		if (name != NULL)
			good = read_cue(&line, cues, name);
	}
	free(copy);
	if (good)
		return cues;
	cues_destroy(cues);
	return NULL;
}

void
cues_destroy(struct cues *cues)
{
	if (cues == NULL)
		return;
	for (int i = 0; i < cues->count; i++)
		sound_finish(&cues->cues[i].sound);
	free(cues->cues);
	free(cues);
}

const struct sound *
cues_find(const struct cues *cues, const char *name)
{
	static const struct sound silence = {NULL, 0};
	for (int i = 0; i < cues->count; i++)
		if (strcmp(cues->cues[i].name, name) == 0)
			return &cues->cues[i].sound;
	return &silence;
}
