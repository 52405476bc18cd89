/* What the post costs, after the user's table (grammars/postage.txt): one amount for all, by bands
 * of weight, or at cost; and what a parcel costs besides. */
#ifndef LAPEL_TRADE_POSTAGE_H
#define LAPEL_TRADE_POSTAGE_H

#include "call.h"
#include "problem.h"
#include "vocabulary.h"

enum { POSTAGE_BANDS_MAX = 32, POSTAGE_PARCELS_MAX = 32 };

enum postage_way { POSTAGE_AT_COST, POSTAGE_FIXED, POSTAGE_BY_WEIGHT };

struct postage {
	enum postage_way way;
	char currency[4];
	int64_t fixed_minor;
	int band_count; /* by rising weight */
	struct postage_band {
		int64_t to_g; /* this much still belongs to the band; INT64_MAX for "above" */
		int64_t minor;
	} bands[POSTAGE_BANDS_MAX];
	int parcel_count;
	struct postage_parcel {
		char name[CALL_NAME_MAX];
		int64_t minor;
	} parcels[POSTAGE_PARCELS_MAX];
};

/* Reads a table's text; amounts are in `currency`. Lines: "at cost", or "fixed | AMOUNT", or bands
 * "to 250 g | AMOUNT" (g, kg, oz, lb; each heavier than the one before) and perhaps, last, "above |
 * AMOUNT"; and "parcel NAME | AMOUNT" for what a parcel of LIST_PARCEL adds. A table that says
 * nothing but parcels is at cost. False, with what is wrong in which line, for anything else;
 * *postage is then not to be used. */
bool postage_read(struct postage *postage, const struct vocabulary *vocabulary,
		  const char *currency, const char *file, const char *text,
		  struct problem *problem);

enum postage_due {
	POSTAGE_DUE,	   /* it is *due */
	POSTAGE_COST_ADDS, /* what it will cost, and *due (the parcel) besides */
	POSTAGE_NO_WEIGHT, /* the bands want a weight */
	POSTAGE_TOO_HEAVY  /* past the last band */
};

/* For a garment of `grams` (0: not weighed) in `parcel` (NULL or empty: not said; one that the
 * table does not name adds nothing). *due is 0 with the last two. */
enum postage_due postage_for(const struct postage *postage, int32_t grams, const char *parcel,
			     struct money *due);

#endif
