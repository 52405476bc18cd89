/* PocketSphinx behind a plain door: cepstra and a grammar in, scored words out. One thread. */
#ifndef LAPEL_EARS_RECOGNISER_H
#define LAPEL_EARS_RECOGNISER_H

#include "automaton.h"
#include "problem.h"
#include "spectrum.h"

#include <stdint.h>

enum { DECODED_TEXT_MAX = 512, DECODED_OTHERS_MAX = 24 };

/* Scores are logarithms to the base 1.0001 shifted right by ten bits: higher is better. */
struct decoded {
	char text[DECODED_TEXT_MAX]; /* empty: no sentence of the grammar fits */
	int32_t score;
	int32_t lattice_score; /* the same text's on the scale of the others: sound alone */
	int other_count;       /* other word sequences, best first */
	struct {
		char text[DECODED_TEXT_MAX];
		int32_t score;
	} others[DECODED_OTHERS_MAX];
};

struct recogniser; /* opaque: owns every object of sphinxbase and pocketsphinx */

/* `model`: folder of the acoustic model; `parameters`: the text of its feat.params; `dictionary`:
 * the words of all grammars to come, in the recogniser's form. */
struct recogniser *recogniser_open(const char *model, const char *parameters,
				   const char *dictionary, struct problem *problem);
void recogniser_close(struct recogniser *recogniser);

/* Whether every word of a grammar is in the dictionary; names one that is not. */
bool recogniser_knows(struct recogniser *recogniser, const struct automaton *automaton,
		      struct problem *problem);

/* Adds a grammar, whose words are known, under a name. False on a fault of the library. */
bool recogniser_add(struct recogniser *recogniser, const char *name,
		    const struct automaton *automaton);

/* Decodes a whole utterance of mean-free cepstra by grammar `name`. False on a fault of the
 * library; *decoded is complete in any case. */
bool recogniser_decode(struct recogniser *recogniser, const char *name, const float *cepstra,
		       int frames, struct decoded *decoded);

#endif
