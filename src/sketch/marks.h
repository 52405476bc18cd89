/* The numbered marks of the flaws. Inside sketch/. */
#ifndef LAPEL_SKETCH_MARKS_H
#define LAPEL_SKETCH_MARKS_H

#include "obstacles.h"

/* Puts a mark at the part of each standing flaw of the picture's piece, on the side that was said;
 * on both sides, with one number, where a part is there twice and the side was not said. A mark
 * that would lie over a measured line or another mark moves away as little as it can, with a leader
 * to its place. Without a part, a side or a face, or on a part that the sketch does not know, a
 * flaw gets no mark; nor where there is no room left. */
void marks_place(struct picture *picture, const struct record *record, struct box area);

/* Whether the record's entry is a standing flaw; flaws are numbered from 1 in their order. */
bool entry_is_flaw(const struct entry *entry);
/* On the back or the inside; `part` is what the flaw's part is called on its piece. */
bool flaw_is_hidden(const struct call *flaw, const char *part);

#endif
