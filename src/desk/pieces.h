/* What is measured of an item: the item itself, or each piece of a set. Inside desk/. */
#ifndef LAPEL_DESK_PIECES_H
#define LAPEL_DESK_PIECES_H

#include "record.h"

struct piece {
	const struct term *kind; /* with the measures that it calls for; borrowed */
	const char *name;	 /* of a set's piece, under which its measures stand; else "" */
};

/* Whether what the record holds is a set. */
bool pieces_of_set(const struct vocabulary *vocabulary, const struct record *record);

/* One, without a name, of what is no set; of a set those that were said, which may be none. The
 * count; 0 also when no kind of the list was said. */
int pieces_of(const struct vocabulary *vocabulary, const struct record *record,
	      struct piece pieces[CALL_LISTED_MAX]);

/* Puts what was heard of a piece under its name: "chest" beside "jacket waist" is "jacket chest".
 * What stands under a name, or beside one that stands under none, is left as it is. */
void pieces_put_under(const struct vocabulary *vocabulary, const char *beside, char *name,
		      size_t size);

#endif
