/* What is odd about the fibres of a cloth: it is said, and never refused, since tags break the
 * rules.
 *
 * The shares are by weight, and come to 100 in each section (shell, lining); they stand in falling
 * order, but for "other fibres", which come last (15 U.S.C. 70b(b)(1) and 16 CFR 303.16, 303.25,
 * read in public copies; Regulation (EU) No 1007/2011 article 9, from memory). */
#ifndef LAPEL_TRADE_CLOTH_H
#define LAPEL_TRADE_CLOTH_H

#include "call.h"

#include <stddef.h>

/* "that is ninety five percent, and a larger share stands after a smaller one"; false, with an
 * empty text, when nothing is odd. */
bool cloth_odd(const struct call *cloth, char *text, size_t size);

#endif
