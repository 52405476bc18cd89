/* Doubts by geometry: two measures of one garment that do not go together. */
#include "doubt_part.h"
#include "phrase.h"

#include <string.h>

enum { THOUSAND = 1000, WITHOUT_BOUND = INT32_MAX };

/* Of two measures: their difference in micrometres, or their ratio in thousandths; and what is said
 * when it is below low, or above high: of the first, and of the second. The ratios hold for the
 * girths as well as for the flat widths that are half of them. */
static const struct relation {
	const char *first, *second;
	enum { DIFFERENCE, RATIO } is;
	int32_t low, high;
	const char *too_low[2], *too_high[2];
	bool of_adults; /* by their bodies: of children's nothing is sourced */
} RELATIONS[] = {
	/* The back has to reach over the seat. Common practice, no source: on nearly all trousers.
	 */
	{"back rise",
	 "front rise",
	 DIFFERENCE,
	 0,
	 WITHOUT_BOUND,
	 {"is less than", "is more than"},
	 {NULL, NULL},
	 false},
	/* Both end at the same hem, and one begins at the waist, the other at the crotch. */
	{"outseam",
	 "inseam",
	 DIFFERENCE,
	 1,
	 WITHOUT_BOUND,
	 {"is not longer than", "is not shorter than"},
	 {NULL, NULL},
	 false},
	/* What lies between is the height from crotch to waist. ANSUR II, waist height less crotch
	 * height: women's P1 14.9 cm, men's P99 26.0, and 9 for a high waist and its band. */
	{"outseam",
	 "inseam",
	 DIFFERENCE,
	 150000,
	 350000,
	 {"is hardly longer than", "is hardly shorter than"},
	 {"is far longer than", "is far shorter than"},
	 true},
	/* ANSUR II, waist to hip: men's P99 1.059. Elastic at rest may be as narrow as it likes. */
	{"waist", "hip", RATIO, 0, 1059, {NULL, NULL}, {"is far over", "is far under"}, true},
	/* ANSUR II, thigh to hip girth: women's P1 0.558, men's P99 0.662, and 0.85 either way for
	 * cut (0.474, 0.779). */
	{"thigh",
	 "hip",
	 RATIO,
	 474,
	 779,
	 {"is narrow for", "is wide for"},
	 {"is wide for", "is narrow for"},
	 true},
	/* ANSUR II, biacromial breadth to half the chest: women's P99 0.931, and 0.85 for dropped
	 * shoulders (1.095). How narrow a shoulder is cut has no bound. */
	{"shoulder", "chest", RATIO, 0, 1095, {NULL, NULL}, {"is wide for", "is narrow for"}, true},
};

/* A length as a fraction of micrometres: numerator over the length's denominator. */
static int64_t
um_numerator(struct length length)
{
	return length.numerator * length_um((struct length){1, 1, length.unit});
}

/* Below 0, 0, above 0: how the relation of the two compares with its bounds. No product overflows:
 * numerators are up to 10^6 x 25400, denominators up to 1000, bounds up to 350000. */
static int
out_of(const struct relation *relation, struct length first, struct length second)
{
	int64_t one = um_numerator(first) * second.denominator;
	int64_t other = um_numerator(second) * first.denominator;
	int64_t value = one - other, unit = (int64_t)first.denominator * second.denominator;
	if (relation->is == RATIO) {
		value = one * THOUSAND;
		unit = other;
	}
	if (value < relation->low * unit)
		return -1;
	return relation->high != WITHOUT_BOUND && value > relation->high * unit;
}

bool
doubt_relation(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	struct doubt_point point = doubt_point(view, call->name);
	enum wearer wearer = doubt_wearer(view);
	char phrase[192];
	for (size_t i = 0; i < sizeof RELATIONS / sizeof RELATIONS[0]; i++) {
		const struct relation *relation = &RELATIONS[i];
		if (relation->of_adults && wearer == WEARER_CHILDREN)
			continue;
		bool is_second = strcmp(point.measure, relation->second) == 0;
		if (!is_second && strcmp(point.measure, relation->first) != 0)
			continue;
		const struct call *reading =
			doubt_beside(view, &point, is_second ? relation->first : relation->second);
		if (reading == NULL)
			continue;
		int out = is_second ? out_of(relation, reading->length, call->length)
				    : out_of(relation, call->length, reading->length);
		if (out == 0)
			continue;
		phrase_call(reading, PHRASE_FULL, phrase, sizeof phrase);
		return doubt_ask(doubt, call, " %s %s: is that right?",
				 out < 0 ? relation->too_low[is_second]
					 : relation->too_high[is_second],
				 phrase);
	}
	return false;
}
