/* A text that grows, for what is written out: rows, write-ups. */
#ifndef LAPEL_TRADE_TEXT_H
#define LAPEL_TRADE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

/* All zero is an empty text. */
struct text {
	char *chars; /* owned; with a final zero, NULL while nothing was ever added */
	size_t length, room;
	bool failed; /* the memory was full: something that was added is missing */
};

void text_add(struct text *text, const char *chars);
void text_add_bytes(struct text *text, const char *bytes, size_t count);
void text_add_format(struct text *text, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

void text_cut(struct text *text, size_t length); /* keeps the first `length` bytes */
void text_finish(struct text *text);		 /* frees it; it is an empty text again */

/* Never NULL; borrowed until the text changes. */
const char *text_chars(const struct text *text);

#endif
