/* Sizes as they are said: a name of the list of tags, a number, a pair of numbers, and of
 * children's wear an age or a height: "6 years", "6 to 7 years", "12 to 18 months", "116 cm". */
#ifndef LAPEL_TRADE_SIZE_SPOKEN_H
#define LAPEL_TRADE_SIZE_SPOKEN_H

#include "vocabulary.h"

/* The nth way (0, 1 ...) of reading a size from word `at` on, those that use more words first:
 * "one size" before "one". Writes its name, and returns how many words it used; 0 when there is no
 * such way. */
int size_read(const struct vocabulary *vocabulary, const struct words *words, int at, int nth,
	      char *name, size_t size);

/* In words; size_read gives the same name back. */
void size_say(const char *name, char *text, size_t size);

#endif
