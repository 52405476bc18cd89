/* What may be said, from the grammars and the lists. */
#ifndef LAPEL_COMMAND_WORDS_CARD_H
#define LAPEL_COMMAND_WORDS_CARD_H

#include "problem.h"
#include "vocabulary.h"

#include <stdio.h>

/* One printed page (PDF, A4) of all calls and all lists, in letters as large as fit. The same lists
 * give the same bytes. */
bool words_card(const struct vocabulary *vocabulary, const char *path, struct problem *problem);

/* The same as plain text. */
void words_card_print(const struct vocabulary *vocabulary, FILE *to);

#endif
