#include "money.h"
#include "currency.h"

#include <stdio.h>
#include <string.h>

enum { DIGITS_MAX = 15 };

int
money_decimals(const char *currency)
{
	return currency_decimals(currency);
}

void
money_format(struct money money, char *text, size_t size)
{
	int decimals = currency_decimals(money.currency);
	const char *sign = money.minor < 0 ? "-" : "";
	uint64_t minor = money.minor < 0 ? 0 - (uint64_t)money.minor : (uint64_t)money.minor;
	uint64_t major = 1;
	for (int i = 0; i < decimals; i++)
		major *= 10;
	if (decimals > 0)
		snprintf(text, size, "%s%ju.%0*ju", sign, (uintmax_t)(minor / major), decimals,
			 (uintmax_t)(minor % major));
	else
		snprintf(text, size, "%s%ju", sign, (uintmax_t)minor);
}

bool
money_parse(const char *text, const char *currency, struct money *money)
{
	int decimals = currency_decimals(currency);
	int64_t minor = 0;
	int digits = 0, after_point = 0;
	if (decimals < 0)
		return false;

	text += strspn(text, " \t\r\n");
	bool negative = *text == '-';
	if (negative)
		text++;
	for (; *text >= '0' && *text <= '9'; text++, digits++)
		minor = digits < DIGITS_MAX ? 10 * minor + *text - '0' : minor;
	if (digits == 0)
		return false;
	if (*text == '.') {
		text++;
		for (; *text >= '0' && *text <= '9'; text++, digits++, after_point++)
			minor = digits < DIGITS_MAX ? 10 * minor + *text - '0' : minor;
		if (after_point == 0 || after_point > decimals)
			return false;
	}
	for (; after_point < decimals; after_point++, digits++)
		minor = digits < DIGITS_MAX ? 10 * minor : minor;
	text += strspn(text, " \t\r\n");
	if (*text != '\0' || digits > DIGITS_MAX)
		return false;

	*money = (struct money){.minor = negative ? -minor : minor};
	memcpy(money->currency, currency, sizeof money->currency);
	return true;
}
