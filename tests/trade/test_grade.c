/* ISO 105-A02:1993, the grey scale for change in colour (read in a public copy of EN
 * 20105-A02:1994).
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "grade.h"

static void
each_grade_is_a_colour_difference_and_five_is_none(void **state)
{
	static const struct {
		int halves, tenths;
	} rows[] = {
		{10, 0},  /* 5 */
		{9, 8},	  /* 4-5 */
		{8, 17},  /* 4 */
		{7, 25},  /* 3-4 */
		{6, 34},  /* 3 */
		{5, 48},  /* 2-3 */
		{4, 68},  /* 2 */
		{3, 96},  /* 1-2 */
		{2, 136}, /* 1 */
		{1, -1},  /* nonsense */
		{0, -1},  {11, -1}, {-4, -1},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
		assert_int_equal(grade_colour_difference_tenths(rows[i].halves), rows[i].tenths);
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_grade_is_a_colour_difference_and_five_is_none),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
