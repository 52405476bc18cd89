/* A length as it was said, exactly: a fraction of whole numbers with its unit. */
#ifndef LAPEL_TRADE_LENGTH_H
#define LAPEL_TRADE_LENGTH_H

#include "words.h"

#include <stddef.h>
#include <stdint.h>

enum length_unit { LENGTH_INCH, LENGTH_CENTIMETRE };

/* numerator / denominator of the unit; not reduced, since "point five oh" is not "point five".
 * The denominator is 1, 2, 4, 8 or 16 (fractions of an inch) or 10, 100, 1000 (decimals). */
struct length {
	int32_t numerator;
	int32_t denominator;
	enum length_unit unit;
};

/* Reads a spoken length from word `at` on: whole numbers 0 to 999 ("twenty one", "a hundred and
 * four", "one oh four", "one twenty four"), decimals digit by digit ("twenty one point two five",
 * "point oh five", at most three), fractions in halves, quarters, eighths and sixteenths ("twenty
 * one and a half", "and three quarters", "and five eighths", "half", "a quarter", "three
 * quarters"), then the unit if said ("inch", "inches", "half an inch", "three quarters of an
 * inch", "centimetres", "centimeters", "cm"); otherwise the unit is `unless_said`, and
 * *unit_said (may be NULL) is false. Greedy. Returns how many words were used, 0 when none.
 *
 * The "and" may be left out where that leaves one reading only: "twenty one three eighths" is
 * 21 3/8. "twenty one half" (20 1/2 or 21 1/2) and "twenty three eighths" (20 3/8 or 23/8) have
 * two and are no lengths; nor is any other that a number follows without a unit between ("twenty
 * one thirty", "twelve hundred", a fourth decimal). */
int length_read(const struct words *words, int at, enum length_unit unless_said,
		struct length *length, bool *unit_said);

/* Whole micrometres, half-up. 1 in = 25400 um exactly (international inch, 1959); so 1/8 in is
 * 3175 um, and 1/16 in = 1587.5 um becomes 1588. 0 for a struct that was never filled. */
int64_t length_um(struct length length);

/* As said: "21 1/2", "21.5", "1/2", "0.25", "21". */
void length_value(struct length length, char *text, size_t size);

/* The reverse of length_value: false when the text is no such value (blanks around are allowed). */
bool length_parse(const char *text, enum length_unit unit, struct length *length);

/* "in" or "cm"; and back, false when it is neither. */
const char *length_unit_name(enum length_unit unit);
bool length_unit_parse(const char *text, enum length_unit *unit);

/* In words, the way it is dictated and without the unit: "twenty one and a half", "twenty one
 * point five", "half", "three quarters", "zero point two five". length_read gives the same length
 * back (a fraction that makes a whole, as 2/2, is said as the whole). */
void length_say(struct length length, char *text, size_t size);

/* "inches", "inch" or "centimetres", "centimetre" as the value wants ("one inch", "half inch"); "of
 * an inch" after several parts ("three quarters of an inch"). */
const char *length_unit_say(struct length length);

#endif
