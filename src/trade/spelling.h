/* Names spelled out in the international radiotelephony alphabet (ICAO annex 10, volume II; the
 * ITU's Radio Regulations, appendix 14): "hotel alfa lima". */
#ifndef LAPEL_TRADE_SPELLING_H
#define LAPEL_TRADE_SPELLING_H

#include "words.h"

/* Reads letters and digits from word `at` on, as many as stand there, into lower case. "alpha",
 * "juliet" and "x ray" are understood too. Returns how many words were used; 0 when none stands
 * there, or more than fit. */
int spelling_read(const struct words *words, int at, char *name, size_t size);

/* In words, one for each letter or digit; what is neither is left out. spelling_read gives the same
 * name back. */
void spelling_say(const char *name, char *text, size_t size);

#endif
