#include "length.h"
#include "number.h"

enum { WHOLE_MAX = 999, DECIMALS_MAX = 3 };

struct part {
	const char *one, *many;
	const char *said; /* of one, after a whole number */
	int32_t denominator;
	bool bare_too; /* "half" needs no "a" before it */
};

static const struct part PARTS[] = {
	{"half", "halves", "a half", 2, true},
	{"quarter", "quarters", "a quarter", 4, true},
	{"eighth", "eighths", "one eighth", 8, false},
	{"sixteenth", "sixteenths", "one sixteenth", 16, false},
};
enum { PART_COUNT = sizeof PARTS / sizeof PARTS[0] };

static const struct unit_word {
	const char *word;
	enum length_unit unit;
} UNIT_WORDS[] = {
	{"inch", LENGTH_INCH},
	{"inches", LENGTH_INCH},
	{"centimetre", LENGTH_CENTIMETRE},
	{"centimetres", LENGTH_CENTIMETRE},
	{"centimeter", LENGTH_CENTIMETRE},
	{"centimeters", LENGTH_CENTIMETRE},
	{"cm", LENGTH_CENTIMETRE},
};
enum { UNIT_WORD_COUNT = sizeof UNIT_WORDS / sizeof UNIT_WORDS[0] };

static bool
article(const struct words *words, int at)
{
	return words_is(words, at, "a") || words_is(words, at, "an");
}

/* "a half", "one half", "three quarters" (and "three quarter" as in "three quarter inch"); with
 * `bare_too` also "half" and "quarter". Only what is less than a whole. */
static int
fraction_read(const struct words *words, int at, bool bare_too, int32_t *numerator,
	      int32_t *denominator)
{
	int many = 1;
	bool bare = false;
	int used = article(words, at) ? 1 : number_below_hundred(words, at, &many);
	if (used == 0)
		bare = true;
	for (int i = 0; i < PART_COUNT; i++) {
		const struct part *part = &PARTS[i];
		if (many < 1 || many >= part->denominator ||
		    (bare && !(bare_too && part->bare_too)))
			continue;
		if (words_is(words, at + used, part->one) ||
		    (many > 1 && words_is(words, at + used, part->many))) {
			*numerator = many;
			*denominator = part->denominator;
			return used + 1;
		}
	}
	return 0;
}

/* What would go on with a length that has no unit. */
static bool
goes_on(const struct words *words, int at)
{
	for (int i = 0; i < PART_COUNT; i++) {
		if (words_is(words, at, PARTS[i].one) || words_is(words, at, PARTS[i].many))
			return true;
	}
	return words_is(words, at, "point") || number_goes_on(words, at);
}

/* "one oh four", "one twenty four": what may follow a digit that stands for hundreds. */
static int
after_hundreds_digit(const struct words *words, int at, int *value)
{
	int zero = 0, rest = 0;
	int used = number_digit(words, at, true, &zero);
	if (used > 0 && zero == 0) {
		int last = number_digit(words, at + used, true, &rest);
		used = last > 0 ? used + last : 0;
	} else {
		used = number_below_hundred(words, at, &rest);
		if (rest < 10)
			used = 0;
	}
	if (used > 0)
		*value = 100 * *value + rest;
	return used;
}

/* 0 to 999. */
static int
whole_read(const struct words *words, int at, int *value)
{
	int used = number_cardinal(words, at, value);
	if (used == 0 || *value > WHOLE_MAX)
		return 0;
	if (used == 1 && *value >= 1 && *value <= 9)
		return used + after_hundreds_digit(words, at + used, value);
	/* In "a hundred and three quarters" the cardinal has taken the fraction's numerator. */
	for (int i = 1; i < used; i++) {
		int32_t numerator, denominator;
		if (words_is(words, at + i, "and") &&
		    fraction_read(words, at + i + 1, true, &numerator, &denominator) > 0) {
			*value -= *value % 100;
			return i;
		}
	}
	return used;
}

/* "point two five", from the "point" on. */
static int
decimals_read(const struct words *words, int at, int32_t *numerator, int32_t *denominator)
{
	int digits = 0, digit = 0;
	*numerator = 0;
	*denominator = 1;
	if (!words_is(words, at, "point"))
		return 0;
	while (digits < DECIMALS_MAX && number_digit(words, at + 1 + digits, true, &digit) > 0) {
		*numerator = 10 * *numerator + digit;
		*denominator *= 10;
		digits++;
	}
	return digits > 0 ? 1 + digits : 0;
}

/* "inches"; after a fraction alone also "an inch", "of an inch". */
static int
unit_read(const struct words *words, int at, bool fraction_alone, enum length_unit *unit)
{
	int used = 0;
	if (fraction_alone) {
		int of = words_is(words, at, "of");
		if (article(words, at + of))
			used = of + 1;
	}
	for (int i = 0; i < UNIT_WORD_COUNT; i++) {
		if (words_is(words, at + used, UNIT_WORDS[i].word)) {
			*unit = UNIT_WORDS[i].unit;
			return used + 1;
		}
	}
	return 0;
}

int
length_read(const struct words *words, int at, enum length_unit unless_said, struct length *length,
	    bool *unit_said)
{
	int whole = 0;
	int32_t numerator = 0, denominator = 1;
	int used = fraction_read(words, at, true, &numerator, &denominator);
	bool fraction_alone = used > 0;

	if (!fraction_alone) {
		used = whole_read(words, at, &whole);
		if (used == 0 && words_is(words, at, "oh") && words_is(words, at + 1, "point"))
			used = 1;
		int decimals = decimals_read(words, at + used, &numerator, &denominator);
		if (used > 0 && decimals == 0) {
			int and = words_is(words, at + used, "and");
			int fraction = fraction_read(words, at + used + and, and, &numerator,
						     &denominator);
			used += fraction > 0 ? and+fraction : 0;
		}
		used += decimals;
		if (used == 0)
			return 0;
	}

	enum length_unit unit = unless_said;
	int unit_words = unit_read(words, at + used, fraction_alone, &unit);
	if (unit_words == 0 && goes_on(words, at + used))
		return 0;
	*length = (struct length){whole * denominator + numerator, denominator, unit};
	if (unit_said != NULL)
		*unit_said = unit_words > 0;
	return used + unit_words;
}

static void
say_fraction(int whole, int32_t numerator, const struct part *part, char *text, size_t size)
{
	char many[32];
	if (whole > 0)
		words_append(text, size, "and");
	if (numerator == 1) {
		words_append(text, size, whole == 0 && part->bare_too ? part->one : part->said);
		return;
	}
	number_say(numerator, many, sizeof many);
	words_append(text, size, many);
	words_append(text, size, part->many);
}

static void
say_decimals(int32_t numerator, int32_t denominator, char *text, size_t size)
{
	char digit[16];
	words_append(text, size, "point");
	for (denominator /= 10; denominator > 0; denominator /= 10) {
		number_say(numerator / denominator % 10, digit, sizeof digit);
		words_append(text, size, digit);
	}
}

static const struct part *
part_find(int32_t denominator)
{
	for (int i = 0; i < PART_COUNT; i++) {
		if (PARTS[i].denominator == denominator)
			return &PARTS[i];
	}
	return NULL;
}

void
length_say(struct length length, char *text, size_t size)
{
	int32_t denominator = length.denominator > 0 ? length.denominator : 1;
	int32_t whole = length.numerator / denominator;
	int32_t rest = length.numerator % denominator;
	const struct part *part = part_find(denominator);

	if (size == 0)
		return;
	text[0] = '\0';
	if (whole > 0 || rest == 0 || part == NULL)
		number_say(whole, text, size);
	if (part != NULL && rest > 0)
		say_fraction(whole, rest, part, text, size);
	else if (part == NULL && denominator > 1)
		say_decimals(rest, denominator, text, size);
}

const char *
length_unit_say(struct length length)
{
	static const char *const ONE[] = {"inch", "centimetre"};
	static const char *const MANY[] = {"inches", "centimetres"};
	static const char *const OF_ONE[] = {"of an inch", "of a centimetre"};
	bool fraction = part_find(length.denominator) != NULL;
	bool decimals = !fraction && length.denominator > 1;

	if (!decimals &&
	    (length.numerator == length.denominator || (fraction && length.numerator == 1)))
		return ONE[length.unit];
	if (fraction && length.numerator > 0 && length.numerator < length.denominator)
		return OF_ONE[length.unit];
	return MANY[length.unit];
}
