/* Lists, sketches and records of garments for the tests of pictures. */
#ifndef LAPEL_TESTS_SKETCH_GARMENT_H
#define LAPEL_TESTS_SKETCH_GARMENT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "book.h"
#include "lists.h"

#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

/* The lists and the sketches that are shipped. False, and why on standard error, when they cannot
 * be read; to be closed all the same. */
static inline bool
shop_open(struct vocabulary **vocabulary, struct sketch_book **book)
{
	struct problem problem = {"sketches.txt is not there"};
	char *text = lists_text("sketches.txt");
	*vocabulary = lists_read();
	*book = text == NULL ? NULL : sketch_book_read("sketches.txt", text, &problem);
	free(text);
	if (*book == NULL)
		fprintf(stderr, "%s\n", problem.text);
	return *vocabulary != NULL && *book != NULL;
}

static inline void
shop_close(struct vocabulary *vocabulary, struct sketch_book *book)
{
	sketch_book_destroy(book);
	vocabulary_destroy(vocabulary);
}

static inline void
say(struct record *record, const struct call *call)
{
	struct deed deed;
	assert_true(record_write(record, call, false, &deed));
}

static inline void
say_kind(struct record *record, const char *kind)
{
	struct call call = {.type = CALL_KIND};
	strcpy(call.name, kind);
	say(record, &call);
}

static inline void
say_measure(struct record *record, const char *measure, const char *value, enum length_unit unit)
{
	struct call call = {.type = CALL_MEASURE, .has_length = true};
	strcpy(call.name, measure);
	assert_true(length_parse(value, unit, &call.length));
	say(record, &call);
}

static inline void
say_none(struct record *record, const char *measure)
{
	struct call call = {.type = CALL_MEASURE, .none = true};
	strcpy(call.name, measure);
	say(record, &call);
}

static inline void
say_flaw(struct record *record, const char *flaw, enum side side, enum face face, const char *part)
{
	struct call call = {.type = CALL_FLAW, .side = side, .face = face};
	strcpy(call.name, flaw);
	strcpy(call.part, part);
	say(record, &call);
}

/* The i-th measure of the kind: those it calls for, then those that help. */
static inline const char *
kind_measure(const struct vocabulary *vocabulary, const struct term *kind, int i)
{
	int index =
		i < kind->wanted_count ? kind->wanted[i] : kind->helpful[i - kind->wanted_count];
	return vocabulary_term(vocabulary, LIST_MEASURE, index)->name;
}

#endif
