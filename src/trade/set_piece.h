/* The pieces of a set: what is measured and seen of one is written under its name, "jacket chest",
 * "trousers knee". */
#ifndef LAPEL_TRADE_SET_PIECE_H
#define LAPEL_TRADE_SET_PIECE_H

#include "vocabulary.h"

/* Whether the kind (an index into LIST_KIND, or -1 when it is not known) is a set. */
bool kind_is_set(const struct vocabulary *vocabulary, int kind);

/* The kind, as an index into LIST_KIND, under whose name the measure or place stands, and in *rest
 * what it is the name of; -1, with all of it in *rest, when it stands under none. A name that is
 * itself on the list of measures or parts stands under none. */
int piece_of(const struct vocabulary *vocabulary, const char *name, const char **rest);

/* "jacket" and "chest" into "jacket chest"; an empty piece leaves the name as it is. False, with
 * `joined` cut short, when it does not fit. `joined` may be `name`'s own room. */
bool piece_join(const char *piece, const char *name, char *joined, size_t size);

#endif
