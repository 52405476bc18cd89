/* The write-up of a garment, for somebody who cannot touch it: a title, a description, and the
 * whole text. Every word of it was measured or seen: what was not said is left out. So is a fact
 * that was said to be other than any of the list, until it is written out; a flaw never is.
 *
 * How it is put together is the user's table, grammars/writeup.txt, whose head says how that is
 * written. The same record, lists and table give the same bytes. */
#ifndef LAPEL_TRADE_WRITEUP_H
#define LAPEL_TRADE_WRITEUP_H

#include "money.h"
#include "record.h"
#include "text.h"
#include "vocabulary.h"

enum { TITLE_LIMIT_LEAST = 10, TITLE_LIMIT_MOST = 1000, TITLE_LIMIT_USUAL = 80 };

struct writeup_form; /* opaque: the user's table */

/* Reads a table's text; the slots in it may be any of the vocabulary's measures. NULL, with what is
 * wrong in which line: a row that is neither of the limit, the title, the description nor the text,
 * a slot that there is not, brackets that do not fit. The text is not needed afterwards. */
struct writeup_form *writeup_form_read(const struct vocabulary *vocabulary, const char *file,
				       const char *text, struct problem *problem);
void writeup_form_destroy(struct writeup_form *form); /* NULL is allowed */

/* How the measure is taken on the kind (NULL: any): "straight across the strap"; NULL when that is
 * not known. */
typedef const char *writeup_how(const void *from, const char *measure, const char *kind);

/* Says what fills the slot {how}, which is empty without it. `from` is handed to `how`, and has to
 * stay as long as the form is in use. */
void writeup_form_tell_how(struct writeup_form *form, writeup_how *how, const void *from);

/* All zero is none. */
struct writeup {
	struct text title; /* no longer than the limit, in characters; no word of it is cut */
	struct text description;
	struct text text; /* lines, each with a line feed */
};

/* Writes it into *writeup, in place of what was there. `asking` is the price, or NULL. False when
 * the memory was full. */
bool writeup_write(const struct writeup_form *form, const struct vocabulary *vocabulary,
		   const struct record *record, const struct money *asking,
		   struct writeup *writeup);
void writeup_finish(struct writeup *writeup);

#endif
