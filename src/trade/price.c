#include "price.h"

static bool
amount_good(struct money amount)
{
	return amount.minor >= 0 && amount.minor <= PRICE_MINOR_MAX;
}

static bool
discount_good(int discount_percent)
{
	return discount_percent >= 0 && discount_percent <= PRICE_DISCOUNT_MAX;
}

bool
price_discounted(struct money asking, int discount_percent, struct money *paid)
{
	if (!amount_good(asking) || !discount_good(discount_percent))
		return false;
	*paid = asking;
	paid->minor = (asking.minor * (100 - discount_percent) + 50) / 100;
	return true;
}

/* paid = floor((asking x kept + 50) / 100), so the lowest asking price for which that reaches the
 * wanted one is the least whole number with asking x kept + 50 >= 100 x wanted. */
bool
price_asking(struct money wanted, int discount_percent, struct money *asking)
{
	if (!amount_good(wanted) || !discount_good(discount_percent))
		return false;
	int64_t kept = 100 - discount_percent;
	int64_t least = 100 * wanted.minor - 50;
	int64_t minor = wanted.minor == 0 ? 0 : (least + kept - 1) / kept;
	if (minor > PRICE_MINOR_MAX)
		return false;
	*asking = wanted;
	asking->minor = minor;
	return true;
}

bool
price_share(int64_t minor, int hundredths, int64_t *share_minor)
{
	const int64_t whole = PRICE_PERCENT_HUNDREDTHS_MAX;
	if (minor < 0 || minor > PRICE_MINOR_MAX || hundredths < 0 || hundredths > whole)
		return false;
	/* The whole part apart, since the largest amount times 10000 does not fit. */
	*share_minor =
		minor / whole * hundredths + (minor % whole * hundredths + whole / 2) / whole;
	return true;
}

bool
price_percent_parse(const char *text, int *hundredths)
{
	int value = 0, digits = 0, decimals = 0;
	for (; *text >= '0' && *text <= '9' && digits < 3; text++, digits++)
		value = 10 * value + *text - '0';
	if (digits == 0)
		return false;
	if (*text == '.') {
		text++;
		for (; *text >= '0' && *text <= '9' && decimals < 2; text++, decimals++)
			value = 10 * value + *text - '0';
		if (decimals == 0)
			return false;
	}
	for (; decimals < 2; decimals++)
		value *= 10;
	if (*text != '\0' || value > PRICE_PERCENT_HUNDREDTHS_MAX)
		return false;
	*hundredths = value;
	return true;
}
