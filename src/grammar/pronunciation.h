/* How words sound, in the phones of the recogniser's model. */
#ifndef LAPEL_GRAMMAR_PRONUNCIATION_H
#define LAPEL_GRAMMAR_PRONUNCIATION_H

#include "problem.h"

#include <stdbool.h>
#include <stddef.h>

struct pronunciations; /* opaque: words with one or more pronunciations each */

struct pronunciations *pronunciations_create(void);
void pronunciations_destroy(struct pronunciations *pronunciations);

/* A dictionary file in the recogniser's form: `word PHONE PHONE ...`, `word(2) ...` for a second
 * way, `#` and `;;` comments. A word that an earlier file has is left as it is, so the first file
 * wins: model's number words, the user's, the trade's. Names file and line of what is wrong: no
 * phones, or a phone that is not in `phones` (blank-separated list; NULL: any). */
bool pronunciations_read(struct pronunciations *pronunciations, const char *file, const char *text,
			 const char *phones, struct problem *problem);

/* Looks the words that are still missing up in the large dictionary at `path` (read line by line,
 * only what is wanted is kept). */
bool pronunciations_look_up(struct pronunciations *pronunciations, const char *path,
			    const char *const *words, int count, struct problem *problem);

/* Works out a word that no file has, by flite's lexicon and letter-to-sound rules (stress digit
 * stripped, ax to AH, upper case). False when nothing sayable comes out ("x1!" ...). */
bool pronunciations_work_out(struct pronunciations *pronunciations, const char *word,
			     struct problem *problem);

bool pronunciations_has(const struct pronunciations *pronunciations, const char *word);

/* The index-th pronunciation of `word` (0 first), phones parted by single spaces; NULL past the
 * last. */
const char *pronunciations_of(const struct pronunciations *pronunciations, const char *word,
			      int index);

/* The file form of the dictionary for `words`, each with all its ways: for the recogniser. The
 * caller frees it. */
char *pronunciations_dictionary(const struct pronunciations *pronunciations,
				const char *const *words, int count);

#endif
