/* What went wrong, in words that a measurer understands: what, where, what to do. */
#ifndef LAPEL_TRADE_PROBLEM_H
#define LAPEL_TRADE_PROBLEM_H

#include <stdbool.h>

struct problem {
	char text[512]; /* one sentence, no full stop needed, no new line; empty: no problem */
};

/* Writes the sentence (cut where it is too long). `problem` may be NULL. Always returns false,
 * so that a function which failed can `return problem_say(...)`. */
bool problem_say(struct problem *problem, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

#endif
