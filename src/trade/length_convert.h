/* Lengths for a reader: doubled, and in the other unit. All exact but for the one rounding. */
#ifndef LAPEL_TRADE_LENGTH_CONVERT_H
#define LAPEL_TRADE_LENGTH_CONVERT_H

#include "length.h"

/* Twice a width that was measured flat: the way round. Exact, in the same unit, with fractions of
 * an inch in their lowest terms: 2 x 21 3/4 is 43 1/2. */
struct length length_doubled(struct length length);

/* In `unit`: itself where it was said so; otherwise to the nearest eighth of an inch or tenth of a
 * centimetre, half-up: 21 1/2 in is 54.6 cm, 52.0 cm is 20 1/2 in. That an eighth and a millimetre
 * are fine enough for cloth is common practice, no source; GB/T 31907-2015 measures to 1 mm. */
struct length length_converted(struct length length, enum length_unit unit);

#endif
