/* Lines of a sketch: the path data of SVG 1.1, section 8.3, of which M, L, C and Z are read. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "path.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static void
lines_are_read_and_nonsense_is_not(void **state)
{
	static const struct {
		const char *text;
		int curves; /* 0: it is none */
		bool closed;
	} ROWS[] = {
		{"M 0 0 L 1 0", 1, false},
		{"M0,0L1,0L1,1", 2, false},
		{"M -1.5 .5 C 1 2 3 4 5 6", 1, false},
		{"M 0 0 L 1 0 L 1 1 Z", 3, true},
		{"  M 0 0   L 1 0  ", 1, false},
		{"", 0, false},
		{"M 0 0", 0, false},
		{"L 1 0", 0, false},
		{"M 0", 0, false},
		{"M 0 0 L 1", 0, false},
		{"M 0 0 L 1 - 1", 0, false},
		{"M 0 0 l 1 0", 0, false},
		{"M 0 0 C 1 2 3 4", 0, false},
		{"M 0 0 L 1 0 Q 1 2 3 4", 0, false},
		{"M 0 0 L 1e3 0", 0, false},
		{"M 0 0 L 1234567 0", 0, false},
		{"M 0 0 L one two", 0, false},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct path path;
		const char *rest = ROWS[i].text, *wrong;
		bool good = path_read(&path, &rest, &wrong);
		if (good != (ROWS[i].curves > 0))
			fail_msg("%s", ROWS[i].text);
		assert_int_equal(path.count, ROWS[i].curves);
		assert_int_equal(path.closed, ROWS[i].closed);
		path_free(&path);
	}
}

static void
several_lines_stand_one_behind_the_other(void **state)
{
	const char *rest = "M 0 0 L 1 0 Z M 5 5 L 6 6 X", *wrong;
	struct path path;
	assert_true(path_read(&path, &rest, &wrong));
	path_free(&path);
	assert_string_equal(rest, "M 5 5 L 6 6 X");
	assert_false(path_read(&path, &rest, &wrong));
	assert_non_null(strstr(wrong, "something else"));
	assert_int_equal(path.count, 0);
	/* Nothing goes on from where a line was closed. */
	rest = "M 0 0 L 1 0 Z L 2 0";
	assert_true(path_read(&path, &rest, &wrong));
	path_free(&path);
	assert_string_equal(rest, "L 2 0");
}

static struct path
read_path(const char *text)
{
	struct path path;
	const char *wrong;
	assert_true(path_read(&path, &text, &wrong));
	return path;
}

static void
a_curve_begins_and_ends_where_it_says(void **state)
{
	struct point points[PATH_POINTS_MAX];
	struct path path = read_path("M 0 0 C 0 10 10 10 10 0 L 20 0");
	int count = path_flatten(&path, points, PATH_POINTS_MAX);
	assert_int_equal(count, 1 + 12 + 1);
	assert_float_equal(points[12].x, 10, 1e-4);
	assert_float_equal(points[12].y, 0, 1e-4);
	/* The middle of a cubic Bezier is (from + 3 handle + 3 handle + to) / 8. */
	assert_float_equal(points[6].x, 5, 1e-4);
	assert_float_equal(points[6].y, 7.5, 1e-4);
	assert_float_equal(path_end(&path).x, 20, 1e-4);
	assert_float_equal(path_distance(&path, (struct point){15, 2}), 2, 1e-4);
	assert_int_equal(path_flatten(&path, points, 5), 5);
	path_free(&path);
}

static void
half_a_shape_is_joined_with_its_mirror_image(void **state)
{
	struct path half = read_path("M 0 0 L 4 0 C 4 5 4 6 3 8 L 0 8"), whole, mirrored;
	assert_true(path_join_mirror(&whole, &half));
	assert_int_equal(whole.count, 6);
	assert_true(whole.closed);
	for (int i = 1; i < whole.count; i++) {
		assert_float_equal(whole.curves[i].from.x, whole.curves[i - 1].to.x, 1e-4);
		assert_float_equal(whole.curves[i].from.y, whole.curves[i - 1].to.y, 1e-4);
	}
	assert_float_equal(path_end(&whole).x, 0, 1e-4);
	assert_float_equal(path_end(&whole).y, 0, 1e-4);
	assert_true(path_holds(&whole, (struct point){-3.5, 4}));
	assert_true(path_holds(&whole, (struct point){3.5, 4}));
	assert_false(path_holds(&whole, (struct point){-4.5, 4}));
	assert_false(path_holds(&whole, (struct point){0, 9}));
	assert_true(path_mirror(&mirrored, &half));
	assert_float_equal(mirrored.curves[1].from_handle.x, -4, 1e-4);
	path_free(&mirrored);
	path_free(&whole);
	path_free(&half);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lines_are_read_and_nonsense_is_not),
		cmocka_unit_test(several_lines_stand_one_behind_the_other),
		cmocka_unit_test(a_curve_begins_and_ends_where_it_says),
		cmocka_unit_test(half_a_shape_is_joined_with_its_mirror_image),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
