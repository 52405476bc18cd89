#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "length_convert.h"

static struct length
length_of(const char *value, enum length_unit unit)
{
	struct length length;
	assert_true(length_parse(value, unit, &length));
	return length;
}

static void
a_girth_is_twice_the_flat_width(void **state)
{
	static const struct {
		const char *flat;
		enum length_unit unit;
		const char *round;
	} cases[] = {
		{"20.5", LENGTH_INCH, "41.0"},
		{"52.0", LENGTH_CENTIMETRE, "104.0"},
		{"21 3/4", LENGTH_INCH, "43 1/2"},
		{"21 1/2", LENGTH_INCH, "43"},
		{"21 1/16", LENGTH_INCH, "42 1/8"},
		{"1/2", LENGTH_INCH, "1"},
		{"20", LENGTH_INCH, "40"},
		{"0", LENGTH_CENTIMETRE, "0"},
		{"52.25", LENGTH_CENTIMETRE, "104.50"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char value[32];
		struct length twice = length_doubled(length_of(cases[i].flat, cases[i].unit));
		length_value(twice, value, sizeof value);
		assert_string_equal(value, cases[i].round);
		assert_int_equal(twice.unit, cases[i].unit);
	}
}

/* 1 in is 2.54 cm exactly (international inch, 1959); worked out by hand from it. */
static void
a_length_is_given_in_the_other_unit(void **state)
{
	static const struct {
		const char *value;
		enum length_unit from;
		const char *converted;
	} cases[] = {
		{"21 1/2", LENGTH_INCH, "54.6"},       /* 54.61 */
		{"1", LENGTH_INCH, "2.5"},	       /* 2.54 */
		{"5/8", LENGTH_INCH, "1.6"},	       /* 1.5875 */
		{"1/8", LENGTH_INCH, "0.3"},	       /* 0.3175 */
		{"2.5", LENGTH_INCH, "6.4"},	       /* 6.35: half-up */
		{"0", LENGTH_INCH, "0.0"},	       /* */
		{"999", LENGTH_INCH, "2537.5"},	       /* 2537.46 */
		{"52.0", LENGTH_CENTIMETRE, "20 1/2"}, /* 20.472 */
		{"54.6", LENGTH_CENTIMETRE, "21 1/2"}, /* 21.496 */
		{"2.54", LENGTH_CENTIMETRE, "1"},      /* exactly */
		{"1", LENGTH_CENTIMETRE, "3/8"},       /* 0.394 is 3.15 eighths */
		{"0.1", LENGTH_CENTIMETRE, "0"},       /* 0.31 eighths */
		{"71.5", LENGTH_CENTIMETRE, "28 1/8"}, /* 28.150 is 225.2 eighths */
		{"81.280", LENGTH_CENTIMETRE, "32"},   /* exactly */
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char value[32];
		enum length_unit to =
			cases[i].from == LENGTH_INCH ? LENGTH_CENTIMETRE : LENGTH_INCH;
		length_value(length_converted(length_of(cases[i].value, cases[i].from), to), value,
			     sizeof value);
		assert_string_equal(value, cases[i].converted);
	}
}

static void
in_its_own_unit_a_length_stays_as_it_was_said(void **state)
{
	static const char *const values[] = {"21 2/4", "21.50", "1/2", "21"};
	for (size_t i = 0; i < sizeof values / sizeof *values; i++) {
		char value[32];
		length_value(length_converted(length_of(values[i], LENGTH_INCH), LENGTH_INCH),
			     value, sizeof value);
		assert_string_equal(value, values[i]);
	}
}

/* Never further off than half of what is rounded to: every eighth and every tenth to 60 inches. */
static void
nothing_is_further_off_than_half_a_step(void **state)
{
	for (int i = 0; i < 60 * 16; i++) {
		struct length said = {i, 16, LENGTH_INCH};
		struct length converted = length_converted(said, LENGTH_CENTIMETRE);
		/* In 1/4000 cm: an inch is 10160 of them, a tenth of a centimetre 400. */
		int64_t off = (int64_t)converted.numerator * 400 - (int64_t)i * 635;
		assert_in_range(off + 200, 1, 400);
	}
	for (int i = 0; i < 1520; i++) {
		struct length said = {i, 10, LENGTH_CENTIMETRE};
		struct length converted = length_converted(said, LENGTH_INCH);
		/* In 1/2540 of an eighth: a tenth of a centimetre is 800 of them. */
		int64_t eighths = converted.numerator * 8 / converted.denominator;
		assert_in_range(eighths * 2540 - (int64_t)i * 800 + 1270, 1, 2540);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_girth_is_twice_the_flat_width),
		cmocka_unit_test(a_length_is_given_in_the_other_unit),
		cmocka_unit_test(in_its_own_unit_a_length_stays_as_it_was_said),
		cmocka_unit_test(nothing_is_further_off_than_half_a_step),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
