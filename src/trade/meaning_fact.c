/* Facts: names from lists, labels, sizes, colours, cloth, grades, weights, money. */
#include "label.h"
#include "meaning_reader.h"
#include "number.h"
#include "size_spoken.h"
#include "spelling.h"
#include "weight.h"

#include <stdio.h>
#include <string.h>

/* The list that names of this type come from; LIST_COUNT when they come from none. */
static enum list
list_of(enum call_type type)
{
	static const struct {
		enum call_type type;
		enum list list;
	} rows[] = {
		{CALL_KIND, LIST_KIND},	  {CALL_MAKER, LIST_MAKER}, {CALL_PARCEL, LIST_PARCEL},
		{CALL_ROUTE, LIST_ROUTE}, {CALL_GROUP, LIST_GROUP}, {CALL_PART, LIST_KIND},
	};
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		if (rows[i].type == type)
			return rows[i].list;
	return LIST_COUNT;
}

static int
read_other(const struct reader *reader, int at, struct call *call)
{
	call->other = words_is(reader->words, at, "other");
	return call->other ? 1 : 0;
}

/* The name of the term that stands here; the vocabulary has seen to it that it fits. */
static int
read_name(const struct reader *reader, enum list list, int at, char *name, size_t size)
{
	int used;
	int index = vocabulary_match(reader->vocabulary, list, reader->words, at, &used);
	if (index < 0)
		return 0;
	snprintf(name, size, "%s", vocabulary_term(reader->vocabulary, list, index)->name);
	return used;
}

int
read_listed(const struct reader *reader, int at, int nth, struct call *call)
{
	if (nth > 0)
		return 0;
	int used = read_name(reader, list_of(call->type), at, call->name, sizeof call->name);
	return used > 0 ? used : read_other(reader, at, call);
}

/* A name of the list, or spelled out: "spell hotel alfa lima". */
int
read_maker(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = read_listed(reader, at, nth, call);
	if (used > 0 || nth > 0 || !words_is(reader->words, at, "spell"))
		return used;
	used = spelling_read(reader->words, at + 1, call->name, sizeof call->name);
	call->spelled = used > 0;
	return used > 0 ? 1 + used : 0;
}

int
read_label(const struct reader *reader, int at, int nth, struct call *call)
{
	return nth > 0 ? 0 : label_read(reader->words, at, false, call->label);
}

/* A bin as the user's list names it, or in digits: the longer of the two. */
int
read_bin(const struct reader *reader, int at, int nth, struct call *call)
{
	char listed[LABEL_MAX];

	if (nth > 0)
		return 0;
	int used = label_read(reader->words, at, false, call->label);
	int used_listed = read_name(reader, LIST_BIN, at, listed, sizeof listed);
	if (used_listed < used || used_listed == 0)
		return used;
	memcpy(call->label, listed, sizeof listed);
	return used_listed;
}

int
read_size(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = size_read(reader->vocabulary, reader->words, at, nth, call->name,
			     sizeof call->name);
	return used > 0 || nth > 0 ? used : read_other(reader, at, call);
}

/* Adds a word to a name; false when there is no room. */
static bool
name_add(char name[CALL_NAME_MAX], const char *word)
{
	size_t length = strlen(name);
	int added = snprintf(name + length, CALL_NAME_MAX - length, "%s%s", length > 0 ? " " : "",
			     word);
	return (size_t)added < CALL_NAME_MAX - length;
}

/* Shades stand before a colour, colours may be joined by "and", a pattern ends it: "dark blue and
 * white striped". The longest way, up to `words_max` words. */
static int
read_colour_up_to(const struct reader *reader, int at, int words_max, struct call *call)
{
	char name[CALL_NAME_MAX] = "";
	bool joined = true; /* at the start or after "and": not a place for "and" */
	int used = 0, whole = 0, length;

	for (int here = 0; here < words_max; here += length) {
		const struct term *term = NULL;
		int index = vocabulary_match(reader->vocabulary, LIST_COLOUR, reader->words,
					     at + here, &length);
		if (index >= 0)
			term = vocabulary_term(reader->vocabulary, LIST_COLOUR, index);
		else if (!joined && words_is(reader->words, at + here, "and"))
			length = 1;
		else
			break;
		if (!name_add(name, term == NULL ? "and" : term->name))
			break;
		used = here + length;
		joined = term == NULL || term->colour == COLOUR_SHADE;
		if (joined || used > words_max)
			continue;
		whole = used;
		memcpy(call->name, name, sizeof name);
		if (term->colour == COLOUR_PATTERN)
			break;
	}
	return whole;
}

int
read_colour(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = read_colour_up_to(reader, at, WORDS_MAX, call);
	if (used == 0)
		return nth > 0 ? 0 : read_other(reader, at, call);
	while (nth-- > 0 && used > 0)
		used = read_colour_up_to(reader, at, used - 1, call);
	return used;
}

/* "sixty percent cotton", and in *used how many words; the section it belongs to is set before. */
static int
read_fibre(const struct reader *reader, int at, struct fibre *fibre)
{
	const struct words *words = reader->words;
	int used = number_cardinal(words, at, &fibre->percent);
	if (used == 0 && words_is(words, at, "hundred")) {
		used = 1;
		fibre->percent = 100;
	}
	if (used == 0 || fibre->percent < 1 || fibre->percent > 100)
		return 0;
	if (words_is(words, at + used, "percent"))
		used++;
	else
		used += words_match(words, at + used, "per cent");
	int name_used = read_name(reader, LIST_FIBRE, at + used, fibre->name, sizeof fibre->name);
	return name_used == 0 ? 0 : used + name_used;
}

/* Fibres one after another. "shell" or "lining" before one says which section it and those after
 * it are of (16 CFR 303.25 lets sections be listed apart). */
int
read_cloth(const struct reader *reader, int at, int nth, struct call *call)
{
	static const char *const sections[] = {"shell", "lining"};
	char section[sizeof call->fibres[0].section] = "";
	int used = 0;

	if (nth > 0)
		return 0;
	while (call->fibre_count < CALL_FIBRES_MAX) {
		struct fibre fibre = {0};
		int opened = 0;
		for (int i = 0; i < 2; i++) {
			if (words_is(reader->words, at + used, sections[i])) {
				snprintf(section, sizeof section, "%s", sections[i]);
				opened = 1;
			}
		}
		int fibre_used = read_fibre(reader, at + used + opened, &fibre);
		if (fibre_used == 0)
			break;
		memcpy(fibre.section, section, sizeof section);
		call->fibres[call->fibre_count++] = fibre;
		used += opened + fibre_used;
	}
	return used > 0 ? used : read_other(reader, at, call);
}

/* 5 to 1 and the halves between, named by both neighbours: "three to four", "three four", or
 * "three and a half" (ISO 105-A02 has the half steps 4-5, 3-4, 2-3, 1-2). */
int
read_grade(const struct reader *reader, int at, int nth, struct call *call)
{
	const struct words *words = reader->words;
	int low, high;

	if (nth > 0)
		return 0;
	int used = number_digit(words, at, false, &low);
	if (used == 0 || low < 1 || low > 5)
		return 0;
	call->grade_halves = 2 * low;
	int half = words_match(words, at + used, "and a half");
	if (half > 0 && low < 5) {
		call->grade_halves++;
		return used + half;
	}
	int to = words_is(words, at + used, "to") ? 1 : 0;
	int high_used = number_digit(words, at + used + to, false, &high);
	if (high_used > 0 && high == low + 1 && high <= 5) {
		call->grade_halves++;
		return used + to + high_used;
	}
	return used;
}

int
read_weight(const struct reader *reader, int at, int nth, struct call *call)
{
	return nth > 0 ? 0 : weight_read(reader->words, at, &call->grams);
}

int
read_money(const struct reader *reader, int at, int nth, struct call *call)
{
	struct money readings[2];
	int count = 0;

	if (nth > 0)
		return 0;
	int used = money_read(reader->words, at, reader->setting->currency, readings, &count);
	if (used == 0)
		return 0;
	call->money = readings[0];
	call->has_second = count > 1;
	if (call->has_second)
		call->money_second = readings[1];
	return used;
}
