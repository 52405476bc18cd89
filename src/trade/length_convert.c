#include "length_convert.h"

static bool
is_fraction(int32_t denominator)
{
	return denominator == 2 || denominator == 4 || denominator == 8 || denominator == 16;
}

static struct length
lowest_terms(struct length length)
{
	while (is_fraction(length.denominator) && length.numerator % 2 == 0) {
		length.numerator /= 2;
		length.denominator /= 2;
	}
	return length;
}

struct length
length_doubled(struct length length)
{
	length.numerator *= 2;
	return lowest_terms(length);
}

struct length
length_converted(struct length length, enum length_unit unit)
{
	/* Of a centimetre to eighths of an inch, 8 / 2.54; of an inch to tenths of a centimetre,
	 * 25.4. */
	static const struct {
		int64_t multiplier, divisor;
		int32_t denominator;
	} ways[] = {[LENGTH_INCH] = {800, 254, 8}, [LENGTH_CENTIMETRE] = {254, 10, 10}};
	if (length.unit == unit || length.denominator <= 0)
		return length;
	int64_t above = length.numerator * ways[unit].multiplier;
	int64_t below = length.denominator * ways[unit].divisor;
	struct length converted = {.numerator = (int32_t)((2 * above + below) / (2 * below)),
				   .denominator = ways[unit].denominator,
				   .unit = unit};
	return lowest_terms(converted);
}
