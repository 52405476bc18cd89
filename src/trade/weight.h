/* Weights: grams to 9999, or pounds and ounces. */
#ifndef LAPEL_TRADE_WEIGHT_H
#define LAPEL_TRADE_WEIGHT_H

#include "words.h"

#include <stddef.h>
#include <stdint.h>

/* "four hundred twenty grams", "three eighty grams", "one pound two ounces", "two pounds", "eight
 * ounces", "four hundred" (grams). Whole grams, half-up: 1 lb = 453.59237 g exactly (international
 * pound, 1959), 16 oz to the pound. Returns how many words were used, 0 when none. */
int weight_read(const struct words *words, int at, int32_t *grams);

/* "four hundred twenty grams". */
void weight_say(int32_t grams, char *text, size_t size);

#endif
