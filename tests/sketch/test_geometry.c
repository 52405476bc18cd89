/* Boxes, segments and distances in a plane. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "geometry.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static const struct box BOX = {10, 20, 30, 10}; /* x 10 to 40, y 20 to 30 */

static void
a_segment_meets_a_box_only_where_some_of_it_lies_inside(void **state)
{
	static const struct {
		const char *what;
		struct segment segment;
		bool meets;
	} ROWS[] = {
		{"through it", {{0, 25}, {50, 25}}, true},
		{"wholly inside", {{15, 22}, {20, 28}}, true},
		{"one end inside", {{15, 22}, {15, 60}}, true},
		{"across a corner", {{5, 25}, {15, 15}}, false},
		{"cutting a corner off", {{5, 28}, {20, 13}}, true},
		{"along its upper edge", {{0, 20}, {50, 20}}, false},
		{"along its left edge", {{10, 0}, {10, 50}}, false},
		{"ending before it", {{0, 25}, {9, 25}}, false},
		{"beside it", {{0, 31}, {50, 31}}, false},
		{"a point inside", {{20, 25}, {20, 25}}, true},
		{"a point outside", {{20, 35}, {20, 35}}, false},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++)
		if (box_meets_segment(BOX, ROWS[i].segment) != ROWS[i].meets)
			fail_msg("%s", ROWS[i].what);
}

static void
boxes_that_only_touch_do_not_meet(void **state)
{
	assert_true(box_meets_box(BOX, (struct box){39, 29, 5, 5}));
	assert_true(box_meets_box(BOX, (struct box){0, 0, 100, 100}));
	assert_false(box_meets_box(BOX, (struct box){40, 20, 5, 5}));
	assert_false(box_meets_box(BOX, (struct box){10, 30, 5, 5}));
	assert_true(box_holds(BOX, (struct box){10, 20, 30, 10}));
	assert_false(box_holds(BOX, (struct box){10, 20, 30, 11}));
}

static void
a_disc_meets_a_box_by_its_nearest_point(void **state)
{
	assert_true(box_meets_disc(BOX, (struct point){20, 33}, 4));
	assert_false(box_meets_disc(BOX, (struct point){20, 35}, 4));
	/* The corner (40, 30) is 5 away from (43, 34): a triangle of 3, 4 and 5. */
	assert_true(box_meets_disc(BOX, (struct point){43, 34}, 5.1));
	assert_false(box_meets_disc(BOX, (struct point){43, 34}, 4.9));
}

static void
segments_cross_inside_and_not_at_their_ends(void **state)
{
	struct segment level = {{0, 0}, {10, 0}};
	assert_true(segments_cross(level, (struct segment){{5, -5}, {5, 5}}));
	assert_false(segments_cross(level, (struct segment){{5, 0}, {5, 5}}));
	assert_false(segments_cross(level, (struct segment){{11, -5}, {11, 5}}));
	assert_false(segments_cross(level, (struct segment){{2, 0}, {8, 0}}));
}

static void
distances_are_to_the_nearest_point_of_a_segment(void **state)
{
	struct segment level = {{0, 0}, {10, 0}};
	assert_float_equal(segment_distance(level, (struct point){5, 3}), 3, 1e-4);
	assert_float_equal(segment_distance(level, (struct point){13, 4}), 5, 1e-4);
	assert_float_equal(segments_distance(level, (struct segment){{4, 7}, {4, 2}}), 2, 1e-4);
	assert_float_equal(segments_distance(level, (struct segment){{4, 7}, {4, -2}}), 0, 1e-4);
	assert_float_equal(segments_distance(level, (struct segment){{2, 0}, {30, 0}}), 0, 1e-4);
	assert_true(segments_near(level, (struct segment){{4, 7}, {4, 2}}, 2.1));
	assert_false(segments_near(level, (struct segment){{4, 7}, {4, 2}}, 1.9));
	/* Aslant their boxes meet, and they do not. */
	assert_false(segments_near((struct segment){{0, 0}, {10, 10}},
				   (struct segment){{6, 0}, {10, 4}}, 2));
}

static void
a_union_holds_both_boxes(void **state)
{
	struct box both = box_union(BOX, (struct box){0, 25, 5, 50});
	assert_float_equal(both.x, 0, 1e-4);
	assert_float_equal(both.y, 20, 1e-4);
	assert_float_equal(both.width, 40, 1e-4);
	assert_float_equal(both.height, 55, 1e-4);
	both = box_union(BOX, (struct box){0});
	assert_float_equal(both.x, 10, 1e-4);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_segment_meets_a_box_only_where_some_of_it_lies_inside),
		cmocka_unit_test(boxes_that_only_touch_do_not_meet),
		cmocka_unit_test(a_disc_meets_a_box_by_its_nearest_point),
		cmocka_unit_test(segments_cross_inside_and_not_at_their_ends),
		cmocka_unit_test(distances_are_to_the_nearest_point_of_a_segment),
		cmocka_unit_test(a_union_holds_both_boxes),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
