/* The user's table of what a write-up says, once it is read. Inside trade/. */
#ifndef LAPEL_TRADE_WRITEUP_FORM_H
#define LAPEL_TRADE_WRITEUP_FORM_H

#include "writeup.h"
#include "writeup_part.h"

enum { FORM_ROWS_MAX = 128 };

enum form_section { FORM_TITLE, FORM_DESCRIPTION, FORM_TEXT };

struct form_row {
	enum form_section section;
	char *pattern; /* owned */
};

struct writeup_form {
	int title_limit; /* in characters */
	int row_count;
	struct form_row rows[FORM_ROWS_MAX];
};

#endif
