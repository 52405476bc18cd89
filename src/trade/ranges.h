/* Between which lengths a measure of a kind may lie: the table grammars/ranges.txt.
 *
 * Outside the hard range nothing is that long or short, and it is asked again; outside the soft
 * range few are, and it is read back as a question. */
#ifndef LAPEL_TRADE_RANGES_H
#define LAPEL_TRADE_RANGES_H

#include "call.h"
#include "problem.h"

enum { RANGES_MAX = 192, RANGE_UM_MAX = 10000000 }; /* ten metres */

struct range {
	char measure[CALL_NAME_MAX];
	char kind[CALL_NAME_MAX]; /* empty: any kind that has no row of its own */
	/* A value on a bound lies within. A soft bound that the table leaves out is the hard one.
	 */
	int32_t hard_low_um, hard_high_um, soft_low_um, soft_high_um;
};

struct ranges {
	int count;
	struct range rows[RANGES_MAX];
};

/* Reads a table's text: "MEASURE | KIND or any | hard low | hard high | soft low | soft high |
 * source", whole micrometres. Either soft bound may be left out. False, with what is wrong in which
 * line, also when a row is given twice, its bounds do not rise, or it has no source. Names are not
 * held against the lists: a row for a kind that is not on them does nothing. */
bool ranges_read(struct ranges *ranges, const char *file, const char *text,
		 struct problem *problem);

/* The row of the measure for this kind (NULL or empty: not known), else for any; NULL when there is
 * none. "left sleeve" and "right sleeve" have the row of "sleeve" where they have none. */
const struct range *ranges_find(const struct ranges *ranges, const char *measure, const char *kind);

/* Below 0, 0, above 0: as the length is less than, equal to, more than so many micrometres;
 * exactly, without rounding a sixteenth of an inch to a whole one first. */
int range_compare(struct length length, int32_t um);

/* Where a length lies. */
enum range_place {
	RANGE_WITHIN,
	RANGE_BELOW_SOFT,
	RANGE_ABOVE_SOFT,
	RANGE_BELOW_HARD,
	RANGE_ABOVE_HARD
};
enum range_place range_place(const struct range *range, struct length length);

#endif
