/* The list below the sketch: the flaws in words, and what has no place on it. Inside sketch/. */
#ifndef LAPEL_SKETCH_LEGEND_H
#define LAPEL_SKETCH_LEGEND_H

#include "picture.h"

/* Adds the lines of the list to the picture, from `top` on down; *bottom is where they end. False
 * when there is no memory. `record` may be NULL. */
bool legend_make(struct picture *picture, const struct record *record, const struct ruler *ruler,
		 double top, double *bottom);

enum { FLAW_WORDS_MAX = 512 };

/* "small hole, left cuff": what a transcript says of it, without the word "flaw", and what of its
 * place was not said. The flaw is one that the picture shows. */
void flaw_words(const struct picture *picture, const struct entry *flaw, char *text, size_t size);

#endif
