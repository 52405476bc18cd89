/* What the grades of the textile scales stand for. 5 is best on all of them. */
#ifndef LAPEL_TRADE_GRADE_H
#define LAPEL_TRADE_GRADE_H

/* The colour difference (CIELAB) of a grade of change in colour, in tenths: 0 for 5, 17 for 4, 136
 * for 1. `grade_halves` is twice the grade, 2 to 10; -1 for any other. After ISO 105-A02:1993,
 * whose table was read in a public copy of EN 20105-A02:1994; tolerances are left out. */
int grade_colour_difference_tenths(int grade_halves);

#endif
