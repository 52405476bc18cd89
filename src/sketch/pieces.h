/* The pieces of a set that a record tells of. Inside sketch/. */
#ifndef LAPEL_SKETCH_PIECES_H
#define LAPEL_SKETCH_PIECES_H

#include "record.h"

/* More pieces than any set has. */
enum { PIECES_MAX = 32 };

/* Fills in their kinds, as indexes into LIST_KIND: those that were said to be there, those of which
 * something was measured or seen, and last -1, if there is anything that is of no piece, or nothing
 * at all. The count, at least 1. */
int pieces_gather(const struct vocabulary *vocabulary, const struct record *record,
		  int pieces[PIECES_MAX + 1]);

#endif
