#include "weight.h"
#include "label.h"
#include "number.h"

#include <stdlib.h>
#include <string.h>

enum { GRAMS_MAX = 9999, OUNCES_IN_POUND = 16 };

/* 1 lb = 0.45359237 kg exactly (international pound, 1959). */
static const int64_t POUND_IN_10_UG = 45359237;
static const int64_t GRAM_IN_10_UG = 100000;

static bool
either(const struct words *words, int at, const char *one, const char *many)
{
	return words_is(words, at, one) || words_is(words, at, many);
}

static int64_t
ounces_in_grams(int64_t ounces)
{
	int64_t divisor = GRAM_IN_10_UG * OUNCES_IN_POUND;
	return (2 * ounces * POUND_IN_10_UG + divisor) / (2 * divisor);
}

/* "one pound two ounces", "two pounds", "eight ounces". */
static int
pounds_read(const struct words *words, int at, int64_t *grams)
{
	int value = 0, pounds = 0, ounces = 0;
	int used = number_cardinal(words, at, &value);
	if (used == 0)
		return 0;
	if (either(words, at + used, "ounce", "ounces")) {
		*grams = ounces_in_grams(value);
		return used + 1;
	}
	if (!either(words, at + used, "pound", "pounds"))
		return 0;
	pounds = value;
	used++;
	int and = words_is(words, at + used, "and");
	int more = number_cardinal(words, at + used + and, &ounces);
	if (more > 0 && ounces < OUNCES_IN_POUND &&
	    either(words, at + used + and+more, "ounce", "ounces"))
		used += and+more + 1;
	else if (number_goes_on(words, at + used))
		return 0;
	else
		ounces = 0;
	*grams = ounces_in_grams((int64_t)pounds * OUNCES_IN_POUND + ounces);
	return used;
}

/* Grams are said as a label is: "three eighty" is 380. */
static int
grams_read(const struct words *words, int at, int64_t *grams)
{
	char digits[LABEL_MAX];
	int used = label_read(words, at, false, digits);
	if (used == 0 || strlen(digits) > 4 || (digits[0] == '0' && digits[1] != '\0') ||
	    either(words, at + used, "pound", "pounds") ||
	    either(words, at + used, "ounce", "ounces"))
		return 0;
	*grams = strtol(digits, NULL, 10);
	return used + either(words, at + used, "gram", "grams");
}

int
weight_read(const struct words *words, int at, int32_t *grams)
{
	int64_t weight = 0;
	int used = pounds_read(words, at, &weight);
	if (used == 0)
		used = grams_read(words, at, &weight);
	if (used == 0 || weight > GRAMS_MAX)
		return 0;
	*grams = (int32_t)weight;
	return used;
}

void
weight_say(int32_t grams, char *text, size_t size)
{
	number_say(grams, text, size);
	words_append(text, size, grams == 1 ? "gram" : "grams");
}
