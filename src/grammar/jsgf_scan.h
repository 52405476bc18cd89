/* Cuts the text of a JSGF grammar into tokens. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_JSGF_SCAN_H
#define LAPEL_GRAMMAR_JSGF_SCAN_H

#include "problem.h"

#include <stdbool.h>
#include <stddef.h>

enum token_type {
	TOKEN_END,
	TOKEN_WORD,   /* text: as written */
	TOKEN_QUOTED, /* text: what is between the quotation marks, \ not yet taken away */
	TOKEN_RULE,   /* text: what is between < and > */
	TOKEN_WEIGHT, /* weight */
	TOKEN_MARK,   /* mark: one of ; = | * + ( ) [ ] */
	TOKEN_BAD     /* the problem was said */
};

struct token {
	enum token_type type;
	char mark;
	const char *text; /* into the grammar's text */
	size_t length;
	double weight; /* 0 or more, finite */
	int line;
};

struct scan {
	const char *file;
	const char *at;
	int line;
	struct problem *problem;
};

/* Starts at `text`, which has to outlive the scan, and reads the header "#JSGF V1.0 ...;". False
 * with the problem when it is missing, or the text is not UTF-8. */
bool scan_begin(struct scan *scan, const char *file, const char *text, struct problem *problem);

/* The next token; blanks, comments and tags are passed over. */
struct token scan_next(struct scan *scan);

/* Says "FILE, line N: ..." and returns false. */
bool scan_refuse(const struct scan *scan, int line, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

#endif
