/* A line of text put together from words, in a buffer of the caller's. Inside trade/. */
#ifndef LAPEL_TRADE_LINE_H
#define LAPEL_TRADE_LINE_H

#include <stddef.h>

struct line {
	char *text; /* `size` long with its final zero, which is always there */
	size_t size;
};

/* An empty line in `text`; `size` is at least 1. */
struct line line_start(char *text, size_t size);

/* Adds words after a space (none at the start); nothing for NULL or empty words. Cut where the
 * buffer ends. */
void line_add(struct line *line, const char *words);

/* The same, but the first of the words stands directly after what is there. */
void line_join(struct line *line, const char *words);

#endif
