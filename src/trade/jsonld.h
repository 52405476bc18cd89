/* A garment as a schema.org Product, in JSON-LD (schema.org 30.0, of 2026-03-19; nested as its own
 * example of a jacket is).
 *
 * schema.org has no word for a width that is measured flat: its chest is the whole girth. So a flat
 * width is given as twice its value under the measurement's name, and as it was taken in an
 * additionalProperty beside it; what has no name there at all (shoulder, rise, thigh ...) only so.
 * Units are codes of UN/CEFACT Recommendation 20: CMT, INH, GRM.
 *
 * Where a used garment begins to be a damaged one schema.org does not say. Here it is damaged when
 * something of it is broken: a hole, a tear, an open seam, what fastens it; marks and wear leave it
 * used. Each flaw is told in any case. */
#ifndef LAPEL_TRADE_JSONLD_H
#define LAPEL_TRADE_JSONLD_H

#include "writeup.h"

#include <jansson.h>

/* A new object of type Product, without a context, which the caller owns. `writeup` gives its name
 * and description; `asking` (or NULL: not for sale) its offer. Where it is in the shop (bin,
 * parcel, route) and what it cost is nobody else's business, and left out. */
json_t *jsonld_product(const struct vocabulary *vocabulary, const struct record *record,
		       const struct writeup *writeup, const struct money *asking);

/* Adds the addresses of pictures, relative to where the text is; a NULL ends them. */
void jsonld_add_images(json_t *product, const char *const *addresses);

/* For json_dumps: JSON_REAL_PRECISION of this many digits writes each value as it was said. */
enum { JSONLD_PRECISION = 12 };

/* The @context that products stand in. */
#define JSONLD_CONTEXT "https://schema.org/"

#endif
