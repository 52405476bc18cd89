/* What a garment is asked at, so that the standing discount leaves the price that is wanted; in any
 * currency, since minor units are all that is reckoned with.
 *
 * Reductions that are announced are regulated in many places (in the European Union by Directive
 * 98/6/EC, article 6a: the lowest price of the previous 30 days has to be told). */
#ifndef LAPEL_TRADE_PRICE_H
#define LAPEL_TRADE_PRICE_H

#include "money.h"

#include <stdbool.h>
#include <stdint.h>

/* Amounts are 0 to PRICE_MINOR_MAX minor units, the 15 digits that money_parse takes. */
#define PRICE_MINOR_MAX INT64_C(999999999999999)

enum { PRICE_DISCOUNT_MAX = 99, PRICE_PERCENT_HUNDREDTHS_MAX = 10000 };

/* What is paid when `discount_percent` (whole, 0 to PRICE_DISCOUNT_MAX) is taken off, rounded
 * half-up to the minor unit. False, with *paid as it was, when an amount or the discount is out of
 * range. Whatever is rounded in this file is rounded half-up; that this is how discounts are
 * rounded is common practice, no source. */
bool price_discounted(struct money asking, int discount_percent, struct money *paid);

/* The lowest amount that, discounted, gives exactly `wanted`: 12.49 at 15 % is asked at 14.69,
 * since 14.68 would come to 12.48 (common practice, no source). There always is one, since one
 * minor unit more never adds more than one to what is paid. False as above, and when it would pass
 * the limit. */
bool price_asking(struct money wanted, int discount_percent, struct money *asking);

/* `hundredths` of a percent (0 to PRICE_PERCENT_HUNDREDTHS_MAX; 1250 is 12.5 %) of an amount, to
 * the minor unit. False when one of them is out of range. */
bool price_share(int64_t minor, int hundredths, int64_t *share_minor);

/* "12", "12.5", "12.55": a percentage of the settings, as hundredths of a percent. False when it is
 * none, or is over 100. */
bool price_percent_parse(const char *text, int *hundredths);

#endif
