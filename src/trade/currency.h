/* What is known of a currency: the list of ISO 4217, and how its units are said in English. */
#ifndef LAPEL_TRADE_CURRENCY_H
#define LAPEL_TRADE_CURRENCY_H

#include <stdbool.h>

/* Each NULL where the currency has no such word. */
struct currency_words {
	const char *one, *many;		    /* "dollar", "dollars" */
	const char *minor_one, *minor_many; /* "cent", "cents" */
};

/* The number of decimals, -1 when the code (upper case) is none with a minor unit. */
int currency_decimals(const char *code);

/* Never NULL. */
const struct currency_words *currency_words(const char *code);

#endif
