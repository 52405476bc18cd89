/* PocketSphinx behind a plain door: cepstra and a grammar in, the scores of sentences out. One
 * thread. */
#ifndef LAPEL_EARS_RECOGNISER_H
#define LAPEL_EARS_RECOGNISER_H

#include "problem.h"
#include "search.h"
#include "spectrum.h"

#include <stdint.h>

/* The sound's scores of sentences: logarithms to the base 1.0001 shifted right by ten bits; higher
 * is better. */
struct weighed {
	int32_t scores[FOUND_MAX];
};

struct recogniser; /* opaque: owns every object of sphinxbase and pocketsphinx */

/* `model`: folder of the acoustic model; `parameters`: the text of its feat.params; `dictionary`:
 * the words of all grammars to come, in the recogniser's form. */
struct recogniser *recogniser_open(const char *model, const char *parameters,
				   const char *dictionary, struct problem *problem);
void recogniser_close(struct recogniser *recogniser);

/* Scores each of the sentences found, all of whose words are in the dictionary, for a whole
 * utterance of mean-free cepstra; one that it has given up on its way scores less than the worst of
 * the others. False on a fault of the library. */
bool recogniser_weigh(struct recogniser *recogniser, const struct found *found,
		      const float *cepstra, int frames, struct weighed *weighed);

#endif
