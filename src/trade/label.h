/* Labels said in groups: item numbers, bins, sizes. */
#ifndef LAPEL_TRADE_LABEL_H
#define LAPEL_TRADE_LABEL_H

#include "words.h"

#include <stddef.h>

enum { LABEL_MAX = 24 }; /* with the final zero */

/* Reads a spoken label from word `at` on into a string of digits. "hundred" and "thousand" build
 * a cardinal ("six hundred" 600, "one thousand five" 1005, "one hundred and five" 105); otherwise
 * groups are joined as written: "four eighty two" and "four eight two" are 482, "twenty seven
 * fifteen" 2715, "thirteen oh seven" 1307. With `by_too`, "thirty two by thirty" is "32x30".
 * A ten takes the unit after it: "twenty one" is 21, and 201 is said "two oh one". Greedy; returns
 * how many words were used, 0 when none, when the label would be too long, or when it mixes
 * cardinal and groups ("four eighty two hundred", "one hundred oh five"). */
int label_read(const struct words *words, int at, bool by_too, char label[LABEL_MAX]);

/* In words, as people say one: "482" is "four eighty two", "2715" "twenty seven fifteen",
 * "1307" "thirteen oh seven", "600" "six hundred", "2000" "two thousand", "7" "seven",
 * "0042" "oh oh four two", longer ones digit by digit; "32x30" "thirty two by thirty".
 * label_read gives the same label back. A label that is not digits is said as it stands. */
void label_say(const char *label, char *text, size_t size);

#endif
