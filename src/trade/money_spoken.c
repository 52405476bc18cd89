#include "currency.h"
#include "money.h"
#include "number.h"

#include <string.h>

enum { SAID_MAX = 999999999 };

/* What was read so far: one amount in minor units, or two. */
struct amounts {
	int64_t minor[2];
	int count;
};

static int64_t
minor_in_major(int decimals)
{
	int64_t minor = 1;
	while (decimals-- > 0)
		minor *= 10;
	return minor;
}

static int
unit_read(const struct words *words, int at, const char *one, const char *many)
{
	return one != NULL && (words_is(words, at, one) || words_is(words, at, many));
}

/* "oh five": two decimals below ten. */
static int
oh_digit(const struct words *words, int at, int *value)
{
	int zero = 0;
	if (number_digit(words, at, true, &zero) == 0 || zero != 0)
		return 0;
	return number_digit(words, at + 1, true, value) > 0 ? 2 : 0;
}

/* 10 to 99: a two-digit group. */
static int
pair(const struct words *words, int at, int *value)
{
	int used = number_below_hundred(words, at, value);
	return *value >= 10 ? used : 0;
}

/* "eighteen fifty", "nine oh five", "two forty". */
static int
groups_read(const struct words *words, int at, int decimals, const struct currency_words *unit,
	    struct amounts *amounts)
{
	int first = 0, second = 0;
	int used = number_below_hundred(words, at, &first);
	if (first == 0 || (decimals != 0 && decimals != 2))
		return 0;
	int more = oh_digit(words, at + used, &second);
	bool with_oh = more > 0;
	if (!with_oh)
		more = pair(words, at + used, &second);
	if (more == 0)
		return 0;
	used += more;

	int64_t joined = 100 * first + second;
	int unit_words = unit_read(words, at + used, unit->one, unit->many);
	bool either = decimals == 2 && (unit_words > 0 || (first < 10 && !with_oh));
	amounts->count = either ? 2 : 1;
	amounts->minor[0] = joined;
	amounts->minor[1] = joined * minor_in_major(decimals);
	return used + unit_words;
}

/* "point five", from the "point" on: the minor units that it stands for. */
static int
point_read(const struct words *words, int at, int decimals, int64_t *minor)
{
	int digits = 0, digit = 0;
	if (!words_is(words, at, "point"))
		return 0;
	*minor = 0;
	while (digits < decimals && number_digit(words, at + 1 + digits, true, &digit) > 0) {
		*minor = 10 * *minor + digit;
		digits++;
	}
	*minor *= minor_in_major(decimals - digits);
	return digits > 0 ? 1 + digits : 0;
}

/* After "twenty dollars": "fifty", "oh five", "and fifty cents", "five cents". */
static int
change_read(const struct words *words, int at, const struct currency_words *unit, int *minor)
{
	int and = words_is(words, at, "and");
	int used = number_below_hundred(words, at + and, minor);
	if (used > 0 && unit_read(words, at + and+used, unit->minor_one, unit->minor_many))
		return and+used + 1;
	used = oh_digit(words, at, minor);
	return used > 0 ? used : pair(words, at, minor);
}

/* "eighteen", "twenty dollars and fifty cents", "a dollar fifty", "twelve point five". */
static int
amount_read(const struct words *words, int at, int decimals, const struct currency_words *unit,
	    struct amounts *amounts)
{
	int whole = 0, change = 0;
	int64_t after_point = 0;
	int used = number_amount(words, at, &whole);
	if (used == 0 && words_is(words, at, "a") &&
	    unit_read(words, at + 1, unit->one, unit->one)) {
		whole = 1;
		used = 1;
	}
	if (used == 0 && words_is(words, at, "oh") && words_is(words, at + 1, "point"))
		used = 1;
	int point = point_read(words, at + used, decimals, &after_point);
	used += point;
	if (used == 0)
		return 0;
	int unit_words = unit_read(words, at + used, unit->one, unit->many);
	used += unit_words;
	if (unit_words > 0 && point == 0 && unit->minor_one != NULL) {
		int more = change_read(words, at + used, unit, &change);
		if (more == 0)
			change = 0;
		used += more;
	}
	amounts->count = 1;
	amounts->minor[0] = whole * minor_in_major(decimals) + after_point + change;
	return used;
}

/* "fifty cents" alone. */
static int
cents_read(const struct words *words, int at, const struct currency_words *unit,
	   struct amounts *amounts)
{
	int minor = 0;
	int used = number_below_hundred(words, at, &minor);
	if (used == 0 || !unit_read(words, at + used, unit->minor_one, unit->minor_many))
		return 0;
	amounts->count = 1;
	amounts->minor[0] = minor;
	return used + 1;
}

int
money_read(const struct words *words, int at, const char *currency, struct money readings[2],
	   int *count)
{
	int decimals = currency_decimals(currency);
	if (decimals < 0)
		return 0;
	const struct currency_words *unit = currency_words(currency);
	struct amounts amounts = {{0, 0}, 0};
	int used = cents_read(words, at, unit, &amounts);
	if (used == 0)
		used = groups_read(words, at, decimals, unit, &amounts);
	if (used == 0)
		used = amount_read(words, at, decimals, unit, &amounts);
	if (used == 0 || words_is(words, at + used, "point") || number_goes_on(words, at + used))
		return 0;
	for (int i = 0; i < amounts.count; i++) {
		readings[i] = (struct money){.minor = amounts.minor[i]};
		memcpy(readings[i].currency, currency, sizeof readings[i].currency);
	}
	*count = amounts.count;
	return used;
}

static void
say_number(int value, char *text, size_t size)
{
	char number[128];
	number_say(value, number, sizeof number);
	words_append(text, size, number);
}

static void
say_pair(int value, char *text, size_t size)
{
	if (value < 10)
		words_append(text, size, "oh");
	say_number(value, text, size);
}

static void
say_point(int64_t minor, int decimals, char *text, size_t size)
{
	words_append(text, size, "point");
	for (int64_t place = minor_in_major(decimals) / 10; place > 0; place /= 10)
		say_number((int)(minor / place % 10), text, size);
}

void
money_say(struct money money, char *text, size_t size)
{
	int decimals = currency_decimals(money.currency);
	const struct currency_words *unit = currency_words(money.currency);
	int64_t in_major = minor_in_major(decimals);
	int64_t whole = money.minor / in_major;
	int change = (int)(money.minor % in_major);

	if (size == 0)
		return;
	text[0] = '\0';
	if (money.minor < 0 || whole > SAID_MAX || decimals < 0) {
		money_format(money, text, size);
		return;
	}
	if (whole == 0 && change > 0 && unit->minor_one != NULL) {
		say_number(change, text, size);
		words_append(text, size, change == 1 ? unit->minor_one : unit->minor_many);
		return;
	}
	say_number((int)whole, text, size);
	bool groups = decimals == 2 && change > 0 && whole > 0 &&
		      (whole < 10 ? change < 10 : whole < 100);
	if (!groups && unit->one != NULL)
		words_append(text, size, whole == 1 ? unit->one : unit->many);
	if (groups || (change > 0 && unit->one != NULL))
		say_pair(change, text, size);
	else if (change > 0)
		say_point(change, decimals, text, size);
}
