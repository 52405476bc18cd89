#include "presses.h"

#include <libevdev/libevdev.h>
#include <stdlib.h>
#include <string.h>

enum { SECONDS_DIGITS_MAX = 9, DECIMALS_MAX = 9, NS_A_MS = 1000000 };
static const int64_t ns_a_second = 1000000000;

struct presses {
	struct press *presses;
	int count, room;
	int64_t last_ns; /* the last press, as exactly as it was written */
};

/* Where the parser is. */
struct line {
	const char *file;
	int number;
	struct problem *problem;
};

int
presses_key(const char *name)
{
	return libevdev_event_code_from_name(EV_KEY, name);
}

static bool
wrong(const struct line *line, const char *what, const char *word)
{
	return problem_say(line->problem, "%s, line %d: %s: \"%.60s\"", line->file, line->number,
			   what, word);
}

/* Reads digits at `*text`, at least one and at most `most`, and moves past them. */
static bool
read_digits(const char **text, int most, int64_t *value, int *digits)
{
	*value = 0;
	for (*digits = 0; **text >= '0' && **text <= '9'; (*text)++, (*digits)++) {
		if (*digits == most)
			return false;
		*value = *value * 10 + (**text - '0');
	}
	return *digits > 0;
}

/* "12", "12.5", "0.000000001". Exact: nanoseconds in an integer. */
static bool
read_seconds(const struct line *line, const char *word, int64_t *ns)
{
	int64_t seconds, decimals = 0;
	int digits;
	const char *rest = word;
	if (*word == '-')
		return wrong(line, "a time is not negative", word);
	bool good = read_digits(&rest, SECONDS_DIGITS_MAX, &seconds, &digits);
	if (good && *rest == '.') {
		rest++;
		good = read_digits(&rest, DECIMALS_MAX, &decimals, &digits);
		for (; good && digits < DECIMALS_MAX; digits++)
			decimals *= 10;
	}
	if (!good || *rest != '\0')
		return wrong(line, "a time is seconds with up to nine decimals, as 12.345, not",
			     word);
	*ns = seconds * ns_a_second + decimals;
	return true;
}

static bool
add(struct presses *presses, struct press press)
{
	if (presses->count == presses->room) {
		int room = presses->room * 2 + 16;
		struct press *grown = realloc(presses->presses, (size_t)room * sizeof *grown);
		if (grown == NULL)
			return false;
		presses->presses = grown;
		presses->room = room;
	}
	presses->presses[presses->count++] = press;
	return true;
}

/* A line without its comment and its end; it is cut into words in place. */
static bool
read_line(const struct line *line, char *text, struct presses *presses)
{
	char *words[4] = {NULL}, *rest;
	int count = 0;
	for (char *word = strtok_r(text, " \t", &rest); word != NULL && count < 4;
	     word = strtok_r(NULL, " \t", &rest))
		words[count++] = word;
	if (count == 0)
		return true;
	int64_t ns = 0;
	if (!read_seconds(line, words[0], &ns))
		return false;
	if (ns < presses->last_ns)
		return wrong(line, "times may not go down, and the line before was later than",
			     words[0]);
	if (count < 3)
		return wrong(line,
			     "a press is written SECONDS KEYNAME 0|1, and more is needed after",
			     words[count - 1]);
	struct press press = {.at_ms = (ns + NS_A_MS / 2) / NS_A_MS, .key = presses_key(words[1])};
	if (press.key < 0)
		return wrong(line, "there is no key of this name (one is KEY_B)", words[1]);
	if (strcmp(words[2], "0") != 0 && strcmp(words[2], "1") != 0)
		return wrong(line, "the state of a key is 1 (down) or 0 (up), not", words[2]);
	press.down = words[2][0] == '1';
	if (count > 3)
		return wrong(line, "nothing may follow the state, but there is", words[3]);
	presses->last_ns = ns;
	return add(presses, press) || wrong(line, "out of memory after so many presses", words[0]);
}

struct presses *
presses_parse(const char *file, const char *text, struct problem *problem)
{
	struct presses *presses = calloc(1, sizeof *presses);
	char *copy = strdup(text);
	bool good = presses != NULL && copy != NULL;
	if (!good)
		problem_say(problem, "%s: out of memory", file);
	struct line line = {file, 1, problem};
	for (char *start = copy, *next; good && start != NULL; start = next, line.number++) {
		next = strchr(start, '\n');
		char *end = next == NULL ? start + strlen(start) : next++;
		*end = '\0';
		if (end > start && end[-1] == '\r')
			end[-1] = '\0';
		start[strcspn(start, "#")] = '\0';
		good = read_line(&line, start, presses);
	}
	free(copy);
	if (good)
		return presses;
	presses_destroy(presses);
	return NULL;
}

void
presses_destroy(struct presses *presses)
{
	if (presses == NULL)
		return;
	free(presses->presses);
	free(presses);
}

int
presses_count(const struct presses *presses)
{
	return presses->count;
}

const struct press *
presses_at(const struct presses *presses, int index)
{
	return &presses->presses[index];
}
