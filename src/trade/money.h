/* Money in integer minor units of an ISO 4217 currency. */
#ifndef LAPEL_TRADE_MONEY_H
#define LAPEL_TRADE_MONEY_H

#include "words.h"

#include <stddef.h>
#include <stdint.h>

struct money {
	int64_t minor;	  /* in the currency's smallest unit: 18.50 USD is 1850 */
	char currency[4]; /* ISO 4217 code, upper case */
};

/* How many decimals the currency has (0, 2 or 3; 4 for two units of account); -1 when the code is
 * not of ISO 4217's list, or is one without a minor unit (gold, test codes). */
int money_decimals(const char *currency);

/* Reads spoken money in `currency` from word `at` on. "eighteen fifty" is 18.50, "nine oh five"
 * 9.05, "twenty dollars" 20.00, "twenty dollars and fifty cents" 20.50, "eighteen" 18.00,
 * "twelve point five" 12.50, "a hundred and twenty" 120.00; pair and pair, and digit with "oh"
 * and digit, have two decimals; a digit and a two-digit group ("two forty") can be 2.40 or
 * 240.00: then readings[0] is 2.40, readings[1] 240.00 and *count is 2, else 1. Currencies with 0
 * or 3 decimals take whole amounts or "point"; with 0, groups are whole too ("eighteen fifty" is
 * 1850 yen). The words for units: dollars, pounds, euros, yen, cents, pence as the currency allows.
 * Groups with the unit behind ("eighteen fifty dollars") can be 18.50 or 1850.00 and have two
 * readings. Returns how many words were used, 0 when none or when a number follows that is not
 * understood ("two dollars five", "three hundred oh five"). */
int money_read(const struct words *words, int at, const char *currency, struct money readings[2],
	       int *count);

/* "18.50"; three decimals "1.250", none "1200". money_parse is the reverse, exact; it also takes
 * fewer decimals ("18", "18.5") and blanks around, up to 15 digits. */
void money_format(struct money money, char *text, size_t size);
bool money_parse(const char *text, const char *currency, struct money *money);

/* "eighteen fifty", "nine oh five", "twenty dollars", "two dollars forty" (never "two forty",
 * which could be two amounts), "fifty cents"; without words for the units "two point four zero".
 * money_read gives back this one reading. Amounts past 999 999 999 are said as figures. */
void money_say(struct money money, char *text, size_t size);

#endif
