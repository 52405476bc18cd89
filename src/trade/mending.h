/* Whether mending is worth it: what a garment will bring when it is mended, less what the mending
 * costs. Whole minor units, half-up. Common practice, no source. */
#ifndef LAPEL_TRADE_MENDING_H
#define LAPEL_TRADE_MENDING_H

#include "record.h"

/* The minutes of all that is to be mended. */
int mending_minutes(const struct call *mending);

/* What so many minutes cost, at so much an hour, rounded half-up. */
int64_t mending_time_minor(int minutes, int64_t hour_minor);

/* What is left: the price that is wanted for the mended garment, less the materials and the time.
 * Negative when it is not worth it. False when no price or no mending was said, or the amounts are
 * of two currencies. */
bool mending_left(const struct record *record, int64_t hour_minor, struct money *left);

#endif
