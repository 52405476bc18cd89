#include "grade.h"

int
grade_colour_difference_tenths(int grade_halves)
{
	/* 1, 1-2, 2, 2-3, 3, 3-4, 4, 4-5, 5 */
	static const int tenths[] = {136, 96, 68, 48, 34, 25, 17, 8, 0};
	const int first = 2, count = sizeof tenths / sizeof *tenths;
	if (grade_halves < first || grade_halves >= first + count)
		return -1;
	return tenths[grade_halves - first];
}
