#include "number.h"

static const char *const BELOW_TWENTY[20] = {
	"zero",	    "one",     "two",	  "three",     "four",	   "five",    "six",
	"seven",    "eight",   "nine",	  "ten",       "eleven",   "twelve",  "thirteen",
	"fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"};

static const char *const TENS[10] = {"",      "",      "twenty",  "thirty", "forty",
				     "fifty", "sixty", "seventy", "eighty", "ninety"};

struct scale {
	const char *word;
	int value;
};

static const struct scale SCALES[] = {{"million", 1000000}, {"thousand", 1000}};
enum { SCALE_COUNT = sizeof SCALES / sizeof SCALES[0], AMOUNT_MAX = 999999999 };

static int
word_below(const struct words *words, int at, int limit, int *value)
{
	for (int number = 0; number < limit; number++) {
		if (words_is(words, at, BELOW_TWENTY[number])) {
			*value = number;
			return 1;
		}
	}
	if (!words_is(words, at, "nought"))
		return 0;
	*value = 0;
	return 1;
}

int
number_digit(const struct words *words, int at, bool oh_too, int *value)
{
	if (oh_too && words_is(words, at, "oh")) {
		*value = 0;
		return 1;
	}
	return word_below(words, at, 10, value);
}

int
number_below_hundred(const struct words *words, int at, int *value)
{
	for (int ten = 2; ten <= 9; ten++) {
		if (!words_is(words, at, TENS[ten]))
			continue;
		int unit = 0;
		int used = number_digit(words, at + 1, false, &unit);
		if (unit == 0)
			used = 0;
		*value = 10 * ten + unit;
		return 1 + used;
	}
	return word_below(words, at, 20, value);
}

/* What may follow a hundred or a thousand: "[and] five", "[and] twenty one". */
static int
and_below_hundred(const struct words *words, int at, int *value)
{
	int and = words_is(words, at, "and");
	int more = 0;
	int used = number_below_hundred(words, at + and, &more);
	if (more == 0)
		return 0;
	*value += more;
	return and+used;
}

/* "a hundred", "four hundred and twenty"; with `most` 99 also "twelve hundred" and a bare
 * "hundred". */
static int
hundreds(const struct words *words, int at, int most, int *value)
{
	int many = 1;
	int used = words_is(words, at, "a") ? 1 : number_below_hundred(words, at, &many);
	if (many < 1 || many > most || (used == 0 && most < 99))
		return 0;
	if (!words_is(words, at + used, "hundred"))
		return 0;
	used++;
	*value = 100 * many;
	return used + and_below_hundred(words, at + used, value);
}

static int
below_thousand(const struct words *words, int at, int *value)
{
	int used = hundreds(words, at, 9, value);
	return used > 0 ? used : number_below_hundred(words, at, value);
}

/* "a thousand", "twelve thousand", and a bare "thousand" where the number begins with it. */
static int
scaled(const struct words *words, int at, const struct scale *scale, bool bare_too, int *value)
{
	int many = 1;
	int used = below_thousand(words, at, &many);
	if (used == 0)
		used = words_is(words, at, "a");
	if ((used == 0 && !bare_too) || many == 0 || !words_is(words, at + used, scale->word))
		return 0;
	*value += many * scale->value;
	return used + 1;
}

int
number_amount(const struct words *words, int at, int *value)
{
	int used = 0, sum = 0, rest = 0;
	for (int i = 0; i < SCALE_COUNT; i++)
		used += scaled(words, at + used, &SCALES[i], used == 0, &sum);
	int more = hundreds(words, at + used, used > 0 ? 9 : 99, &rest);
	if (more == 0)
		more = used > 0 ? and_below_hundred(words, at + used, &rest)
				: number_below_hundred(words, at, &rest);
	if (used + more > 0)
		*value = sum + rest;
	return used + more;
}

int
number_cardinal(const struct words *words, int at, int *value)
{
	int amount = 0;
	int used = number_amount(words, at, &amount);
	if (used == 0 || amount > 9999)
		return 0;
	*value = amount;
	return used;
}

bool
number_goes_on(const struct words *words, int at)
{
	int value;
	return words_is(words, at, "oh") || words_is(words, at, "million") ||
	       number_amount(words, at, &value) > 0;
}

static void
say_below_thousand(int value, char *text, size_t size)
{
	if (value >= 100) {
		words_append(text, size, BELOW_TWENTY[value / 100]);
		words_append(text, size, "hundred");
		value %= 100;
	}
	if (value >= 20) {
		words_append(text, size, TENS[value / 10]);
		value %= 10;
	}
	if (value > 0)
		words_append(text, size, BELOW_TWENTY[value]);
}

void
number_say(int value, char *text, size_t size)
{
	if (size == 0)
		return;
	text[0] = '\0';
	if (value < 0 || value > AMOUNT_MAX)
		return;
	if (value == 0)
		words_append(text, size, BELOW_TWENTY[0]);
	for (int i = 0; i < SCALE_COUNT; i++) {
		if (value < SCALES[i].value)
			continue;
		say_below_thousand(value / SCALES[i].value, text, size);
		words_append(text, size, SCALES[i].word);
		value %= SCALES[i].value;
	}
	say_below_thousand(value, text, size);
}
