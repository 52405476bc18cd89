/* The user's table of what a write-up says, once it is read. Inside trade/. */
#ifndef LAPEL_TRADE_WRITEUP_FORM_H
#define LAPEL_TRADE_WRITEUP_FORM_H

#include "writeup.h"
#include "writeup_part.h"

enum { FORM_ROWS_MAX = 128, FORM_SPELLINGS_MAX = 128 };

enum form_section { FORM_TITLE, FORM_DESCRIPTION, FORM_TEXT };

struct form_row {
	enum form_section section;
	char *pattern; /* owned */
};

/* How a name that can only be said in plain letters is written: "t shirt", "T-shirt". */
struct form_spelling {
	char *name, *written; /* owned */
};

struct writeup_form {
	int title_limit; /* in characters */
	int row_count;
	struct form_row rows[FORM_ROWS_MAX];
	writeup_how *how; /* NULL: not known */
	const void *how_from;
	int spelling_count;
	struct form_spelling spellings[FORM_SPELLINGS_MAX];
};

/* How the name is written by the table; NULL when it does not say. */
const char *form_spelling(const struct writeup_form *form, const char *name);

#endif
