/* A text cut into clauses, so that the first is heard while the next is being rendered. Pure. */
#ifndef LAPEL_VOICE_CLAUSE_H
#define LAPEL_VOICE_CLAUSE_H

#include <stddef.h>

enum {
	CLAUSE_MIN = 8, /* bytes; what is shorter is said with what follows */
	CLAUSE_MAX = 90
};

/* How many bytes of `text` are its first clause, with the blanks after it: up to a comma, a stop or
 * the like that a blank follows, or else all that is left. What is longer than CLAUSE_MAX is cut at
 * the last blank within it (a word is never cut, however long). 0 at the end of the text. */
size_t clause_length(const char *text);

/* The pause after it, by the mark that ends it (0: none; it was cut at a blank or is the last). */
int clause_pause_ms(const char *text, size_t length);

#endif
