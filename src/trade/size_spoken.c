#include "size_spoken.h"

#include "label.h"

#include <stdio.h>
#include <string.h>

/* What a child's size is counted in: as it is written, and as it is said of more and of one. */
static const struct unit {
	const char *written, *many, *one;
} units[] = {
	{"years", "years", "year"},
	{"months", "months", "month"},
	{"cm", "centimetres", "centimetre"},
};

enum { UNITS = sizeof units / sizeof *units };

static const struct unit *
unit_said(const struct words *words, int at)
{
	for (int i = 0; i < UNITS; i++)
		if (words_is(words, at, units[i].many) || words_is(words, at, units[i].one))
			return &units[i];
	return NULL;
}

/* "six years", "six to seven years", "one sixteen centimetres". */
static int
read_age_or_height(const struct words *words, int at, char *name, size_t size)
{
	char from[LABEL_MAX], to[LABEL_MAX] = "";
	int used = label_read(words, at, false, from);
	if (used == 0)
		return 0;
	if (words_is(words, at + used, "to")) {
		int more = label_read(words, at + used + 1, false, to);
		used += more > 0 ? 1 + more : 0;
	}
	const struct unit *unit = unit_said(words, at + used);
	if (unit == NULL)
		return 0;
	snprintf(name, size, "%s%s%s %s", from, to[0] != '\0' ? " to " : "", to, unit->written);
	return used + 1;
}

static int
read_listed(const struct vocabulary *vocabulary, const struct words *words, int at, char *name,
	    size_t size)
{
	int used;
	int tag = vocabulary_match(vocabulary, LIST_TAG, words, at, &used);
	if (tag < 0)
		return 0;
	snprintf(name, size, "%s", vocabulary_term(vocabulary, LIST_TAG, tag)->name);
	return used;
}

int
size_read(const struct vocabulary *vocabulary, const struct words *words, int at, int nth,
	  char *name, size_t size)
{
	enum { WAYS = 3, SIZE_MAX_LETTERS = 2 * LABEL_MAX + 16 };
	char names[WAYS][SIZE_MAX_LETTERS];
	int used[WAYS] = {
		read_listed(vocabulary, words, at, names[0], SIZE_MAX_LETTERS),
		read_age_or_height(words, at, names[1], SIZE_MAX_LETTERS),
		label_read(words, at, true, names[2]),
	};
	for (;; nth--) {
		int best = 0;
		for (int i = 1; i < WAYS; i++)
			if (used[i] > used[best])
				best = i;
		if (used[best] == 0)
			return 0;
		if (nth == 0) {
			snprintf(name, size, "%s", names[best]);
			return used[best];
		}
		used[best] = 0;
	}
}

void
size_say(const char *name, char *text, size_t size)
{
	char said[256] = "", number[128];
	struct words words;
	const struct unit *unit = NULL;

	label_say(name, text, size);
	if (name[0] < '0' || name[0] > '9' || !words_split(&words, name) || words.count < 2)
		return;
	const char *last = words.word[words.count - 1];
	for (int i = 0; i < UNITS; i++)
		if (strcmp(units[i].written, last) == 0)
			unit = &units[i];
	if (unit == NULL)
		return;
	for (int i = 0; i + 1 < words.count; i++) {
		label_say(words.word[i], number, sizeof number);
		words_append(said, sizeof said, number);
	}
	bool one = words.count == 2 && strcmp(words.word[0], "1") == 0;
	words_append(said, sizeof said, one ? unit->one : unit->many);
	snprintf(text, size, "%s", said);
}
