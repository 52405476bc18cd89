#include "takings.h"

#include "price.h"

#include <stdlib.h>
#include <string.h>

static bool
amount_good(struct money amount, const char *currency)
{
	return amount.minor >= 0 && amount.minor <= PRICE_MINOR_MAX &&
	       strncmp(amount.currency, currency, sizeof amount.currency) == 0;
}

bool
takings_of(const struct takings_terms *terms, struct money paid, const struct money *cost,
	   const struct money *postage, struct takings *takings)
{
	struct takings sale = {.items = 1, .paid_minor = paid.minor};
	bool postage_matters =
		terms->postage_included || (terms->fee_on_postage && terms->fee_hundredths > 0);

	if (!amount_good(paid, paid.currency) ||
	    (cost != NULL && !amount_good(*cost, paid.currency)) ||
	    (postage != NULL && !amount_good(*postage, paid.currency)) ||
	    terms->fee_fixed_minor < 0 || terms->fee_fixed_minor > PRICE_MINOR_MAX)
		return false;
	memcpy(sale.currency, paid.currency, sizeof sale.currency);
	sale.cost_minor = cost != NULL ? cost->minor : 0;
	sale.without_cost = cost == NULL;
	sale.without_postage = postage_matters && postage == NULL;

	/* With the postage in the price the fee is taken of the price as it stands. */
	int64_t fee_of = paid.minor;
	if (postage != NULL && terms->postage_included)
		sale.postage_minor = postage->minor;
	else if (postage != NULL && terms->fee_on_postage)
		fee_of += postage->minor;
	if (!price_share(fee_of, terms->fee_hundredths, &sale.fee_minor))
		return false;
	sale.fee_minor += terms->fee_fixed_minor;
	sale.left_minor = sale.paid_minor - sale.fee_minor - sale.cost_minor - sale.postage_minor;
	*takings = sale;
	return true;
}

/* Both are within a quarter of the range, so that their sum can be compared. */
static bool
add(int64_t *sum, int64_t more)
{
	*sum += more;
	return llabs(*sum) <= INT64_MAX / 4;
}

bool
takings_add(struct takings *sum, const struct takings *more)
{
	struct takings both = *sum;
	if (sum->items > 0 && strcmp(sum->currency, more->currency) != 0)
		return false;
	memcpy(both.currency, more->currency, sizeof both.currency);
	if (!add(&both.items, more->items) || !add(&both.without_cost, more->without_cost) ||
	    !add(&both.without_postage, more->without_postage) ||
	    !add(&both.paid_minor, more->paid_minor) || !add(&both.fee_minor, more->fee_minor) ||
	    !add(&both.cost_minor, more->cost_minor) ||
	    !add(&both.postage_minor, more->postage_minor) ||
	    !add(&both.left_minor, more->left_minor))
		return false;
	*sum = both;
	return true;
}
