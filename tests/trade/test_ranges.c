/* Between which lengths a measure may lie.
 *
 * The body measurements are percentiles of ANSUR II (Gordon et al., 2012 Anthropometric Survey of
 * U.S. Army Personnel, NATICK/TR-15/007), in millimetres. That the table is what its script
 * derives, byte for byte, is a test of its own; this one works the bounds out once more. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "lists.h"
#include "ranges.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static struct ranges ranges;
static struct problem problem;

static int
begin(void **state)
{
	char *text = lists_text("ranges.txt");
	bool good = text != NULL && ranges_read(&ranges, "ranges.txt", text, &problem);
	free(text);
	if (!good)
		fprintf(stderr, "%s\n", problem.text);
	return !good;
}

/* Flat: half of a girth that stretching cloth is 0.85 of; half of a girth with its ease. */
#define STRETCHED(mm) ((mm)*850 / 2)
#define EASED(mm, ease_mm) (((mm) + (ease_mm)) * 1000 / 2)
#define MM(mm) ((mm)*1000)

static void
soft_bounds_are_body_measurements_with_an_allowance(void **state)
{
	static const struct {
		const char *measure, *kind;
		int32_t hard_low_cm, hard_high_cm, soft_low_um, soft_high_um;
		double soft_low_cm, soft_high_cm; /* rounded, as they are usually quoted */
	} ROWS[] = {
		/* chest: women's P1 784, men's P99 1276 */
		{"chest", NULL, 15, 110, STRETCHED(784), EASED(1276, 400), 33.3, 83.8},
		/* waist: women's P1 665, men's P99 1214 */
		{"waist", "trousers", 12, 95, STRETCHED(665), EASED(1214, 200), 28.3, 70.7},
		{"waist", "skirt", 12, 95, STRETCHED(665), EASED(1214, 200), 28.3, 70.7},
		{"waist", "dress", 12, 110, STRETCHED(665), EASED(1214, 400), 28.3, 80.7},
		/* buttocks: men's P1 862, men's P99 1218 */
		{"hip", "jeans", 15, 100, STRETCHED(862), EASED(1218, 200), 36.6, 70.9},
		/* biacromial breadth: women's P1 322; bideltoid breadth: men's P99 593 */
		{"shoulder", NULL, 12, 85, MM(322 - 20), MM(593 + 60), 30, 65},
		/* sleeve outseam: women's P1 478, men's P99 670 */
		{"sleeve", "shirt", 3, 95, MM(478 - 30), MM(670 + 80), 45, 75},
		{"sleeve", "coat", 3, 95, MM(478 - 30), MM(670 + 80), 45, 75},
		{"sleeve", "t shirt", 3, 95, MM(30), MM(670 + 80), 3, 75},
		/* neck to crotch: P1 547, P99 748 */
		{"length", "t shirt", 15, 160, MM(547 - 150), MM(748 + 200), 40, 95},
		/* cervicale height: men's P99 1677, women's P99 1533 */
		{"length", "coat", 15, 200, MM(547), MM(1677), 55, 168},
		{"length", "dress", 15, 200, MM(547), MM(1533 + 100), 55, 163},
		/* waist height less crotch height: women's P99 248; waist height: women's P99 1099
		 */
		{"length", "skirt", 10, 140, MM(248), MM(1099), 24.8, 109.9},
		/* crotch height: women's P1 685, men's P99 960 */
		{"inseam", "trousers", 2, 115, MM(685 - 85), MM(960 - 10), 60, 95},
		{"inseam", "shorts", 2, 115, MM(20), MM(685 - 85), 2, 60},
		/* waist height: women's P1 869, men's P99 1186 */
		{"outseam", "trousers", 10, 165, MM(869 - 120), MM(1186 + 50), 75, 124},
		/* crotch length, front to back: men's P1 523, men's P99 739 */
		{"front rise", NULL, 10, 50, MM(523) / 2 - MM(90), MM(739) / 2 + MM(10), 17, 38},
		{"back rise", NULL, 10, 60, MM(523) / 2 - MM(90), MM(739) / 2 + MM(80), 17, 45},
		/* thigh: women's P1 495, men's P99 774 */
		{"thigh", NULL, 8, 70, STRETCHED(495), EASED(774, 180), 21, 48},
		/* ankle: women's P1 185; calf: women's P99 452, twice */
		{"leg opening", "trousers", 5, 80, EASED(185, 0), EASED(452, 452), 9, 45},
		/* neck: women's P1 291, men's P99 467; all the way round */
		{"collar", NULL, 20, 65, MM(291), MM(467 + 60), 29, 53},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		const struct range *range = ranges_find(&ranges, ROWS[i].measure, ROWS[i].kind);
		assert_non_null(range);
		if (range->hard_low_um != ROWS[i].hard_low_cm * 10000 ||
		    range->hard_high_um != ROWS[i].hard_high_cm * 10000 ||
		    range->soft_low_um != ROWS[i].soft_low_um ||
		    range->soft_high_um != ROWS[i].soft_high_um)
			fail_msg("%s %s: %d %d %d %d", ROWS[i].measure, range->kind,
				 range->hard_low_um, range->hard_high_um, range->soft_low_um,
				 range->soft_high_um);
		/* to the digits that are quoted */
		double digits = ROWS[i].soft_low_cm == (int)ROWS[i].soft_low_cm ? 0.5 : 0.05;
		assert_float_equal(ROWS[i].soft_low_cm, range->soft_low_um / 1e4, digits + 1e-9);
		digits = ROWS[i].soft_high_cm == (int)ROWS[i].soft_high_cm ? 0.5 : 0.05;
		assert_float_equal(ROWS[i].soft_high_cm, range->soft_high_um / 1e4, digits + 1e-9);
	}
}

/* EN 13402-3: the largest lettered body girth is that of the women's 5XL, to 167 cm; and 40 cm of
 * ease, which is more than any handbook has. */
static void
hard_bounds_hold_the_largest_letter(void **state)
{
	assert_true(ranges_find(&ranges, "chest", NULL)->hard_high_um >= EASED(1670, 400));
}

static void
every_row_is_of_a_measure_and_a_kind_on_the_lists(void **state)
{
	struct vocabulary *vocabulary = lists_read();
	assert_non_null(vocabulary);
	for (int i = 0; i < ranges.count; i++) {
		const struct range *row = &ranges.rows[i];
		if (vocabulary_find(vocabulary, LIST_MEASURE, row->measure) < 0 ||
		    (row->kind[0] != '\0' && vocabulary_find(vocabulary, LIST_KIND, row->kind) < 0))
			fail_msg("%s %s is not on the lists", row->measure, row->kind);
	}
	vocabulary_destroy(vocabulary);
}

static struct length
said(const char *value, enum length_unit unit)
{
	struct length length = {0, 0, unit};
	if (!length_parse(value, unit, &length))
		fail_msg("%s", value);
	return length;
}

static void
a_length_is_placed_exactly_in_either_unit(void **state)
{
	/* 1 in = 25.4 mm exactly (international inch, 1959); 15 15/16 in is 404812.5 um. */
	static const struct range range = {"chest", "", 254000, 1016000, 404812, 500000};
	static const struct {
		const char *value;
		enum length_unit unit;
		enum range_place place;
	} ROWS[] = {
		{"10", LENGTH_INCH, RANGE_BELOW_SOFT},
		{"9 15/16", LENGTH_INCH, RANGE_BELOW_HARD},
		{"25.4", LENGTH_CENTIMETRE, RANGE_BELOW_SOFT},
		{"25.399", LENGTH_CENTIMETRE, RANGE_BELOW_HARD},
		{"15 15/16", LENGTH_INCH, RANGE_WITHIN},
		{"15 7/8", LENGTH_INCH, RANGE_BELOW_SOFT},
		{"50", LENGTH_CENTIMETRE, RANGE_WITHIN},
		{"50.001", LENGTH_CENTIMETRE, RANGE_ABOVE_SOFT},
		{"19 11/16", LENGTH_INCH, RANGE_ABOVE_SOFT}, /* 500062.5 um */
		{"40", LENGTH_INCH, RANGE_ABOVE_SOFT},
		{"101.6", LENGTH_CENTIMETRE, RANGE_ABOVE_SOFT},
		{"101.601", LENGTH_CENTIMETRE, RANGE_ABOVE_HARD},
		{"40 1/16", LENGTH_INCH, RANGE_ABOVE_HARD},
		{"0", LENGTH_INCH, RANGE_BELOW_HARD},
		{"999", LENGTH_INCH, RANGE_ABOVE_HARD},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		enum range_place place = range_place(&range, said(ROWS[i].value, ROWS[i].unit));
		if (place != ROWS[i].place)
			fail_msg("%s %s: %d", ROWS[i].value, length_unit_name(ROWS[i].unit),
				 (int)place);
	}
	/* Half a micrometre decides, as it does not once it is rounded: length_um says 404813. */
	assert_int_equal(length_um(said("15 15/16", LENGTH_INCH)), 404813);
	assert_true(range_compare(said("15 15/16", LENGTH_INCH), 404812) > 0);
	assert_true(range_compare(said("15 15/16", LENGTH_INCH), 404813) < 0);
	assert_int_equal(range_compare(said("1/8", LENGTH_INCH), 3175), 0);
}

/* The slips that the ranges are there for. Twenty one heard as thirty one is none of them: only the
 * read-back catches it. */
static void
unit_slips_and_girths_fall_outside(void **state)
{
	static const struct {
		const char *value;
		enum length_unit unit;
		enum range_place place;
	} ROWS[] = {
		{"53.3", LENGTH_CENTIMETRE, RANGE_WITHIN}, /* a man's median, 105.6, and 1 cm */
		{"21", LENGTH_INCH, RANGE_WITHIN},
		{"21", LENGTH_CENTIMETRE, RANGE_BELOW_SOFT}, /* inches said for centimetres */
		{"53", LENGTH_INCH, RANGE_ABOVE_HARD},	     /* 134.6 cm */
		{"54", LENGTH_INCH, RANGE_ABOVE_HARD},
		{"106", LENGTH_CENTIMETRE, RANGE_ABOVE_SOFT}, /* the girth given for the flat */
		{"31", LENGTH_INCH, RANGE_WITHIN},
	};
	const struct range *chest = ranges_find(&ranges, "chest", "shirt");
	for (size_t i = 0; i < COUNT(ROWS); i++)
		assert_int_equal(range_place(chest, said(ROWS[i].value, ROWS[i].unit)),
				 ROWS[i].place);
}

static void
a_row_of_the_kind_comes_before_one_of_any(void **state)
{
	static struct ranges own;
	assert_true(ranges_read(&own, "r",
				"sleeve | any | 1 | 9 | | | ours\n"
				"sleeve | coat | 2 | 8 | 3 | | ours\n"
				"left sleeve | coat | 2 | 7 | | | ours\n"
				"thigh | jeans | 4 | 5 | | | ours\n",
				&problem));
	assert_int_equal(ranges_find(&own, "sleeve", "coat")->hard_high_um, 8);
	assert_int_equal(ranges_find(&own, "sleeve", "coat")->soft_low_um, 3);
	assert_int_equal(ranges_find(&own, "sleeve", "coat")->soft_high_um, 8);
	assert_int_equal(ranges_find(&own, "sleeve", "shirt")->hard_high_um, 9);
	assert_int_equal(ranges_find(&own, "sleeve", "")->hard_high_um, 9);
	assert_int_equal(ranges_find(&own, "sleeve", NULL)->hard_high_um, 9);
	assert_int_equal(ranges_find(&own, "left sleeve", "coat")->hard_high_um, 7);
	assert_int_equal(ranges_find(&own, "right sleeve", "coat")->hard_high_um, 8);
	assert_int_equal(ranges_find(&own, "left sleeve", "shirt")->hard_high_um, 9);
	assert_null(ranges_find(&own, "inner sleeve", "coat"));
	assert_null(ranges_find(&own, "thigh", "coat"));
	assert_null(ranges_find(&own, "thigh", NULL));
	assert_null(ranges_find(&own, "left ", NULL));
	assert_null(ranges_find(&own, "", NULL));
}

static void
what_is_wrong_is_said_with_its_line(void **state)
{
	static const struct {
		const char *text, *says;
	} ROWS[] = {
		{"chest", "line 1: the name of a kind is empty"},
		{"| any | 1 | 9 | | | ours", "line 1: the name of a measure is empty"},
		{"chest | any", "line 1: \"\" is no length in whole micrometres up to 10000000"},
		{"chest | any | 1", "line 1: \"\" is no length"},
		{"chest | any | 1 | 9 | 2 | 8", "line 1: a range wants a source"},
		{"chest | any | 1 | 9 | 2 | 8 | ", "line 1: a range wants a source"},
		{"\nchest | any | 1 | 9 | 2 | 8 | a | b", "line 2: more than 7 columns"},
		{"chest | any | -1 | 9 | 2 | 8 | ours", "line 1: \"-1\" is no length"},
		{"chest | any | 1 | 9.5 | 2 | 8 | ours", "line 1: \"9.5\" is no length"},
		{"chest | any | 1 | 9 | x | 8 | ours", "line 1: \"x\" is no length"},
		{"chest | any | 1 | 10000001 | 2 | 8 | ours", "line 1: \"10000001\" is no length"},
		{"chest | any | 3 | 9 | 2 | 8 | ours", "line 1: the bounds have to rise"},
		{"chest | any | 1 | 9 | 8 | 2 | ours", "line 1: the bounds have to rise"},
		{"chest | any | 1 | 9 | 8 | 8 | ours", "line 1: the bounds have to rise"},
		{"chest | any | 1 | 7 | 2 | 8 | ours", "line 1: the bounds have to rise"},
		{"chest | any | 9 | 1 | | | ours", "line 1: the bounds have to rise"},
		{"chest | any | 1 | 9 | | | ours\nchest | any | 1 | 9 | | | ours",
		 "line 2: the range of chest for any is given twice"},
		{"a name that is longer than any that a call of the station has room for | any | 1 "
		 "| 9 | | | ours",
		 "line 1: \"a name that is longer than any that a call of the station has room "
		 "for\" is longer than 63 letters"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		static struct ranges own;
		char says[256];
		assert_false(ranges_read(&own, "r.txt", ROWS[i].text, &problem));
		snprintf(says, sizeof says, "r.txt, %s", ROWS[i].says);
		if (strncmp(problem.text, says, strlen(says)) != 0)
			fail_msg("row %zu says: %s", i, problem.text);
	}
}

static void
there_is_room_for_so_many_rows(void **state)
{
	static struct ranges own;
	static char text[RANGES_MAX * 64];
	size_t used = 0;
	for (int i = 0; i < RANGES_MAX; i++)
		used += (size_t)snprintf(text + used, sizeof text - used,
					 "m%d | any | 1 | 9 | | | ours\n", i);
	assert_true(ranges_read(&own, "r", text, &problem));
	assert_int_equal(own.count, RANGES_MAX);
	snprintf(text + used, sizeof text - used, "more | any | 1 | 9 | | | ours\n");
	assert_false(ranges_read(&own, "r", text, &problem));
	assert_string_equal(problem.text, "r, line 193: more than 192 ranges");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(soft_bounds_are_body_measurements_with_an_allowance),
		cmocka_unit_test(hard_bounds_hold_the_largest_letter),
		cmocka_unit_test(every_row_is_of_a_measure_and_a_kind_on_the_lists),
		cmocka_unit_test(a_length_is_placed_exactly_in_either_unit),
		cmocka_unit_test(unit_slips_and_girths_fall_outside),
		cmocka_unit_test(a_row_of_the_kind_comes_before_one_of_any),
		cmocka_unit_test(what_is_wrong_is_said_with_its_line),
		cmocka_unit_test(there_is_room_for_so_many_rows),
	};
	return cmocka_run_group_tests(tests, begin, NULL);
}
