/* What is left in hand of a sale, and of a day's sales: what was paid, less the fee, the cost and
 * the postage that the seller bears. Whole minor units; each item's fee is rounded on its own, as
 * it is taken on its own, so that the sum of a day is the sum of its items. */
#ifndef LAPEL_TRADE_TAKINGS_H
#define LAPEL_TRADE_TAKINGS_H

#include "money.h"

#include <stdbool.h>

/* What holds for every sale; from the settings. */
struct takings_terms {
	int fee_hundredths;	 /* of a percent, 0 to 10000 */
	int64_t fee_fixed_minor; /* of each sale */
	bool fee_on_postage;	 /* the percentage is taken of price and postage together */
	bool postage_included;	 /* the price has the postage in it; else the buyer pays it, and it
				    is not ours */
};

struct takings {
	char currency[4];
	int64_t items;
	int64_t without_cost;	 /* items whose cost is not known: counted as 0 */
	int64_t without_postage; /* items whose postage bears on the sum and is not known: as 0 */
	int64_t paid_minor, fee_minor, cost_minor, postage_minor;
	int64_t left_minor; /* may be negative */
};

/* One sale at `paid` (the wanted price). `cost` NULL: not said; `postage` NULL: not known. False
 * when an amount is out of range (price.h) or the currencies differ; *takings is then as it was. */
bool takings_of(const struct takings_terms *terms, struct money paid, const struct money *cost,
		const struct money *postage, struct takings *takings);

/* Adds to *sum, which starts as all zero. False, with *sum as it was, when the currencies differ or
 * the sum passes a quarter of what 64 bits hold. */
bool takings_add(struct takings *sum, const struct takings *more);

#endif
