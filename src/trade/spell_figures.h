/* Text with figures in it as the words that would be said. Inside trade/. */
#ifndef LAPEL_TRADE_SPELL_FIGURES_H
#define LAPEL_TRADE_SPELL_FIGURES_H

#include <stdbool.h>
#include <stddef.h>

/* "60 % cotton, 40 % linen" is "sixty percent cotton forty percent linen", "hole 1/2 in, left cuff"
 * is "hole half inch left cuff", "32x30" is "thirty two by thirty", "3-4" "three four". Letters
 * become lower case; commas and hyphens part words. False when it does not fit. */
bool spell_figures(const char *text, char *words, size_t size);

#endif
