/* How a word that no dictionary has is probably said. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_WORK_OUT_H
#define LAPEL_GRAMMAR_WORK_OUT_H

#include "problem.h"

#include <stdbool.h>
#include <stddef.h>

enum { WORKED_OUT_MAX = 512 };

/* The phones of `word`, parted by single spaces, by flite's lexicon and, for what that lacks, its
 * letter-to-sound rules. A word of parts with hyphens is said part after part. Refuses, with a
 * sentence, what cannot be read aloud letter by letter: digits, signs, letters beyond a to z. */
bool work_out_phones(const char *word, char phones[WORKED_OUT_MAX], struct problem *problem);

#endif
