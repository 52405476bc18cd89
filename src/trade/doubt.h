/* Whether what was heard well should be doubted all the same, by what it says: it fits no garment
 * of its kind, or not the size on the tag, or not what else was measured. And why, in words. */
#ifndef LAPEL_TRADE_DOUBT_H
#define LAPEL_TRADE_DOUBT_H

#include "ranges.h"
#include "record.h"
#include "size_tag.h"

enum { DOUBT_REASON_MAX = 384 };

enum doubt_severity {
	DOUBT_NONE,
	DOUBT_ASK,	 /* few garments are so: "yes" takes it as it was said */
	DOUBT_IMPOSSIBLE /* none is: it is asked again, and is taken only when it is said again */
};

/* What a call is held against; all of it borrowed. */
struct doubt_view {
	const struct vocabulary *vocabulary;
	const struct ranges *ranges;
	const struct record *record; /* the item as it stands, without the call */
	const struct record *before; /* the item before; NULL: nothing is compared with it */
	/* When so many of the item's values are those of the item before, and none is another, it
	 * is asked whether it is another garment; 0: never. On a rack of one size single values do
	 * come twice. */
	int repeats;
	/* Where the item does not say its group. Children's wear has no soft ranges and no letters:
	 * none are sourced. */
	enum wearer wearer;
};

struct doubt {
	enum doubt_severity severity;
	/* "chest fifty four inches is more than any garment: centimetres?": what is doubted and
	 * why, a colon, and the question. */
	char reason[DOUBT_REASON_MAX];
	/* What else may have been meant: the same number in the other unit. The reason then names
	 * what can be answered: with DOUBT_ASK "first" is the call and "second" the second; with
	 * DOUBT_IMPOSSIBLE only the second is proposed, and "yes" takes that. */
	bool has_second;
	struct call second;
};

/* Doubts of a measure, of a size (against what was measured) and of a kind (likewise); of other
 * calls there are none here. A reading that stands confirmed is not doubted when it is said again.
 * True when there is a doubt; the first in this order: hard range, soft range (each with the other
 * unit, where that fits), left and right, other measures, the tag, the item before. */
bool doubt_call(const struct doubt_view *view, const struct call *call, struct doubt *doubt);

#endif
