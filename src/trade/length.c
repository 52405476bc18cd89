#include "length.h"

#include <stdio.h>
#include <string.h>

static const char *const UNIT_NAMES[] = {"in", "cm"};
static const int64_t UNIT_UM[] = {25400, 10000};

int64_t
length_um(struct length length)
{
	int64_t denominator = length.denominator;
	if (denominator <= 0)
		return 0;
	int64_t um = length.numerator * UNIT_UM[length.unit];
	return (2 * um + denominator) / (2 * denominator);
}

const char *
length_unit_name(enum length_unit unit)
{
	return UNIT_NAMES[unit];
}

bool
length_unit_parse(const char *text, enum length_unit *unit)
{
	for (int i = LENGTH_INCH; i <= LENGTH_CENTIMETRE; i++) {
		if (strcmp(text, UNIT_NAMES[i]) == 0) {
			*unit = (enum length_unit)i;
			return true;
		}
	}
	return false;
}

/* How many decimals the denominator stands for; -1: none, it is a fraction's. */
static int
decimals_of(int32_t denominator)
{
	switch (denominator) {
	case 10:
		return 1;
	case 100:
		return 2;
	case 1000:
		return 3;
	default:
		return -1;
	}
}

void
length_value(struct length length, char *text, size_t size)
{
	int32_t denominator = length.denominator > 0 ? length.denominator : 1;
	int32_t whole = length.numerator / denominator;
	int32_t part = length.numerator % denominator;
	int decimals = decimals_of(denominator);

	if (decimals > 0)
		snprintf(text, size, "%d.%0*d", whole, decimals, part);
	else if (part == 0)
		snprintf(text, size, "%d", whole);
	else if (whole == 0)
		snprintf(text, size, "%d/%d", part, denominator);
	else
		snprintf(text, size, "%d %d/%d", whole, part, denominator);
}

/* Digits at *text, which moves past them; how many there were, 0 when there are too many. Signs and
 * blanks, which strtol would take, are not digits. */
static int
digits_parse(const char **text, int most, int32_t *value)
{
	int digits = (int)strspn(*text, "0123456789");
	if (digits > most)
		return 0;
	*value = 0;
	for (int i = 0; i < digits; i++)
		*value = 10 * *value + *(*text)++ - '0';
	return digits;
}

static void
skip_blanks(const char **text)
{
	*text += strspn(*text, " \t\r\n");
}

/* "/8", for a part that makes less than a whole. */
static bool
denominator_parse(const char **text, int32_t part, int32_t *denominator)
{
	if (*(*text) != '/')
		return false;
	(*text)++;
	return digits_parse(text, 2, denominator) > 0 && part > 0 && part < *denominator &&
	       (*denominator == 2 || *denominator == 4 || *denominator == 8 || *denominator == 16);
}

bool
length_parse(const char *text, enum length_unit unit, struct length *length)
{
	int32_t whole = 0, part = 0, denominator = 1;
	skip_blanks(&text);
	bool padded = text[0] == '0' && text[1] >= '0' && text[1] <= '9';
	if (padded || digits_parse(&text, 3, &whole) == 0)
		return false;
	if (*text == '.') {
		text++;
		int decimals = digits_parse(&text, 3, &part);
		if (decimals == 0)
			return false;
		while (decimals-- > 0)
			denominator *= 10;
	} else {
		bool fraction = *text == '/';
		skip_blanks(&text);
		if (fraction) {
			part = whole;
			whole = 0;
		} else if (whole > 0 && digits_parse(&text, 2, &part) > 0) {
			fraction = true;
		}
		if (fraction && !denominator_parse(&text, part, &denominator))
			return false;
	}
	skip_blanks(&text);
	if (*text != '\0')
		return false;
	*length = (struct length){whole * denominator + part, denominator, unit};
	return true;
}
