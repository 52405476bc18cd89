/* Spoken whole numbers, the bricks of lengths, labels, money and weights.
 * Each reader takes the words and where to start, and says how many words it used (0: none of
 * this kind stands there). Readers are greedy: they use as many words as make sense. */
#ifndef LAPEL_TRADE_NUMBER_H
#define LAPEL_TRADE_NUMBER_H

#include "words.h"

#include <stddef.h>
#include <stdint.h>

/* "nought", "zero", "oh" as `oh_too` allows, "one" .. "nine". */
int number_digit(const struct words *words, int at, bool oh_too, int *value);

/* 0 to 99: "seven", "thirteen", "twenty", "twenty one". */
int number_below_hundred(const struct words *words, int at, int *value);

/* A cardinal 0 to 9999: "a hundred and four", "one hundred four", "twelve hundred",
 * "two thousand five", "nine thousand nine hundred ninety nine". */
int number_cardinal(const struct words *words, int at, int *value);

/* A cardinal 0 to 999 999 999, for money in small coin: as above, and "twelve thousand five
 * hundred", "two million". */
int number_amount(const struct words *words, int at, int *value);

/* Whether a number stands at `at` ("oh" counts). A reader that stops in front of one has not
 * understood what was said ("twenty one thirty" is no length), and should read nothing. */
bool number_goes_on(const struct words *words, int at);

/* Says 0 to 999 999 999 as a cardinal in words, British "and" left out: 104 is "one hundred four".
 * Nothing for other values. */
void number_say(int value, char *text, size_t size);

#endif
