/* The lists of the trade: kinds of garment with their measures, flaws, parts, routes and so on.
 * Read from the plain tables in grammars/, which a user may extend; nothing here opens a file. */
#ifndef LAPEL_TRADE_VOCABULARY_H
#define LAPEL_TRADE_VOCABULARY_H

#include "problem.h"
#include "words.h"

#include <stddef.h>

enum list {
	LIST_KIND,    /* kinds.txt    name | also said | measures called for, or "parts" | measures
			 that help */
	LIST_MEASURE, /* measures.txt name | also said | flat, straight or round */
	LIST_FLAW,    /* flaws.txt    name | also said | nothing, or a caution */
	LIST_PART,    /* parts.txt    name | also said */
	LIST_ROUTE,   /* routes.txt   name | also said */
	LIST_MAKER,   /* makers.txt   name | also said */
	LIST_COLOUR,  /* colours.txt  name | also said | nothing, or shade or pattern */
	LIST_TAG,     /* tags.txt     name | also said: sizes that are no numbers */
	LIST_FIBRE,   /* fibres.txt   name | also said */
	LIST_PARCEL,  /* parcels.txt  name | also said */
	LIST_PERSON,  /* people.txt   name | also said: who measures */
	LIST_GROUP,   /* groups.txt   name | also said: whom it is made for */
	LIST_CARE,    /* care.txt     name | also said | in the words of a write-up */
	LIST_MEND,    /* mends.txt    name | also said: what is done in mending */
	LIST_BIN,     /* the user's bins in walking order: label | also said */
	LIST_COUNT
};

enum { TERM_ALSO_MAX = 8, TERM_MEASURES_MAX = 24 };

/* How a word of LIST_COLOUR is used: "dark (shade) blue and white striped (pattern)". */
enum colour_word { COLOUR_BASIC, COLOUR_SHADE, COLOUR_PATTERN };

struct term {
	const char *name;		 /* the spoken name, lower case, single spaces */
	const char *weight;		 /* how often it is said, as it is written; "1" */
	const char *also[TERM_ALSO_MAX]; /* other ways of saying it */
	int also_count;
	/* Of a kind: indexes into LIST_MEASURE, in the order of asking. */
	int wanted[TERM_MEASURES_MAX];
	int wanted_count;
	int helpful[TERM_MEASURES_MAX];
	int helpful_count;
	bool set; /* "parts": of several pieces, which are of kinds of their own */
	/* Of a flaw what is said when it is written down, of a care label's word what a write-up
	 * says for it; "" where there is none. */
	const char *text;
	/* Of a measure: measured flat, so that the girth is twice the value. */
	bool flat;
	enum colour_word colour;
};

struct vocabulary; /* opaque; owns its terms and their text */

struct vocabulary *vocabulary_create(void);
void vocabulary_destroy(struct vocabulary *vocabulary); /* NULL is allowed */

/* Adds the terms of one table's text: a line a term, columns parted by `|`, entries of a column
 * by commas, `#` starts a comment, blank lines do not count. A name may have a number between
 * slashes before it ("/0.2/ insole"), as in a grammar: how often it is said beside the others of
 * its list; 1 where there is none. LIST_MEASURE comes before LIST_KIND. Refuses, naming `file` and
 * the line: an empty name, letters outside a-z, ' and space (digits too, for bins), a name or a way
 * of saying one given twice, a kind with an unknown measure, words that mean something of their own
 * ("other", "none", "no", "nothing", "spell"), a weight that is no number above 0. A refused table
 * adds no terms. A list may be read from several tables. */
bool vocabulary_read(struct vocabulary *vocabulary, enum list list, const char *file,
		     const char *text, struct problem *problem);

int vocabulary_count(const struct vocabulary *vocabulary, enum list list);
const struct term *vocabulary_term(const struct vocabulary *vocabulary, enum list list, int index);

/* By its own name: the index, or -1. */
int vocabulary_find(const struct vocabulary *vocabulary, enum list list, const char *name);

/* The longest name, or other way of saying one, that stands at word `at`: its index, and in *used
 * how many words it took; or -1. */
int vocabulary_match(const struct vocabulary *vocabulary, enum list list, const struct words *words,
		     int at, int *used);

#endif
