/* Names, each kept once and numbered from 0 in the order in which they came. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_NAMES_H
#define LAPEL_GRAMMAR_NAMES_H

#include <stddef.h>

struct names; /* opaque; owns the text */

struct names *names_create(void);
void names_destroy(struct names *names); /* NULL is allowed */

/* The number of the name, which is added if it is new; -1 when there is no memory. */
int names_add(struct names *names, const char *text, size_t length);

/* Its number, or -1 when it is not there. */
int names_find(const struct names *names, const char *text, size_t length);

int names_count(const struct names *names);
const char *names_text(const struct names *names, int number);

#endif
