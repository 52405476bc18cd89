/* The readings of a record in the order in which somebody else wants to read them. */
#ifndef LAPEL_TRADE_READING_ORDER_H
#define LAPEL_TRADE_READING_ORDER_H

#include "record.h"

/* The standing readings: those that the kind calls for, in the order of asking, those that help,
 * and then the others in the order of the list of measures; of a set, one piece after another.
 * Returns the count. */
int reading_order(const struct record *record, const struct vocabulary *vocabulary,
		  const struct entry *readings[RECORD_ENTRIES_MAX]);

/* The measure's name without the side and the piece of a set: "sleeve" for "left sleeve" and for
 * "jacket left sleeve". */
const char *reading_point(const struct vocabulary *vocabulary, const char *measure);

/* Whether the measure is taken flat, so that the way round is twice the value. */
bool reading_is_flat(const struct vocabulary *vocabulary, const char *measure);

#endif
