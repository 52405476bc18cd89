/* A plain table of the user's, line by line: columns parted by `|`, `#` starts a comment, blank
 * lines do not count. Inside trade/; keeps one line at a time and allocates nothing. */
#ifndef LAPEL_TRADE_TABLE_H
#define LAPEL_TRADE_TABLE_H

#include "problem.h"

#include <stdint.h>

enum { TABLE_LINE_MAX = 1024, TABLE_COLUMNS_MAX = 8 };

struct table {
	const char *file; /* its name, for saying where */
	const char *rest; /* of the text; borrowed */
	int line;	  /* the number of the line at hand, from 1 */
	struct problem *problem;
	bool failed;
	int count;			  /* of the columns that the line has */
	char *columns[TABLE_COLUMNS_MAX]; /* without blanks at the ends and with single ones
					     between;
					     "" where the line has fewer */
	char text[TABLE_LINE_MAX];
};

void table_start(struct table *table, const char *file, const char *text, struct problem *problem);

/* Goes to the next line that has something on it; false at the end of the text, and, with `failed`
 * and the problem said, at a line that is too long or has too many columns. */
bool table_next(struct table *table);

/* Says "FILE, line N: WHAT". Always false. */
bool table_refuse(struct table *table, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/* A whole number of digits alone, at most `most`. False, with nothing said, when it is none. */
bool table_number(const char *text, int64_t most, int64_t *number);

#endif
