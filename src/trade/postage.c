#include "postage.h"

#include "table.h"

#include <stdio.h>
#include <string.h>

enum { WEIGHT_MAX = 1000000 };

/* In 10 ug, as in weight.c: 1 lb = 0.45359237 kg exactly (international pound, 1959), and an ounce
 * is its sixteenth, so the ounce is counted in sixteenths of that. */
static const struct weight_unit {
	const char *name;
	int64_t size, in_gram;
} UNITS[] = {
	{"g", 1, 1},
	{"kg", 1000, 1},
	{"oz", 45359237, 16 * 100000},
	{"lb", 45359237, 100000},
};

static const struct weight_unit *
unit_find(const char *name)
{
	for (size_t i = 0; i < sizeof UNITS / sizeof UNITS[0]; i++)
		if (strcmp(UNITS[i].name, name) == 0)
			return &UNITS[i];
	return NULL;
}

/* "250 g": whole grams, half-up, as a garment's weight in ounces is kept; so that eight ounces are
 * still within "to 8 oz". */
static bool
weight_parse(const char *text, int64_t *grams)
{
	char digits[16];
	int64_t value = 0;
	size_t length = strspn(text, "0123456789");
	if (length >= sizeof digits)
		return false;
	memcpy(digits, text, length);
	digits[length] = '\0';
	text += length;
	const struct weight_unit *unit = unit_find(text + strspn(text, " "));
	if (unit == NULL || !table_number(digits, WEIGHT_MAX, &value) || value == 0)
		return false;
	*grams = (2 * value * unit->size + unit->in_gram) / (2 * unit->in_gram);
	return true;
}

static bool
amount_read(const struct postage *postage, struct table *table, int64_t *minor)
{
	struct money amount;
	if (table->count != 2)
		return table_refuse(table, "\"%s\" wants an amount after a |", table->columns[0]);
	if (!money_parse(table->columns[1], postage->currency, &amount) || amount.minor < 0)
		return table_refuse(table, "\"%s\" is no amount in %s", table->columns[1],
				    postage->currency);
	*minor = amount.minor;
	return true;
}

static bool
band_read(struct postage *postage, struct table *table, int64_t to_g)
{
	if (postage->band_count == POSTAGE_BANDS_MAX)
		return table_refuse(table, "more than %d bands", POSTAGE_BANDS_MAX);
	if (postage->band_count > 0 && to_g <= postage->bands[postage->band_count - 1].to_g)
		return table_refuse(table, "\"%s\" has to be heavier than the band before",
				    table->columns[0]);
	struct postage_band *band = &postage->bands[postage->band_count++];
	band->to_g = to_g;
	return amount_read(postage, table, &band->minor);
}

static bool
parcel_read(struct postage *postage, const struct vocabulary *vocabulary, struct table *table,
	    const char *name)
{
	if (vocabulary_find(vocabulary, LIST_PARCEL, name) < 0)
		return table_refuse(table, "there is no parcel \"%s\" in the list of parcels",
				    name);
	for (int i = 0; i < postage->parcel_count; i++)
		if (strcmp(postage->parcels[i].name, name) == 0)
			return table_refuse(table, "the parcel \"%s\" is given twice", name);
	if (postage->parcel_count == POSTAGE_PARCELS_MAX)
		return table_refuse(table, "more than %d parcels", POSTAGE_PARCELS_MAX);
	struct postage_parcel *parcel = &postage->parcels[postage->parcel_count++];
	snprintf(parcel->name, sizeof parcel->name, "%s", name);
	return amount_read(postage, table, &parcel->minor);
}

/* What the line says of how postage is worked out, which has to agree with the lines before. */
static bool
way_read(struct postage *postage, struct table *table, bool *way_said)
{
	const char *words = table->columns[0];
	bool above = strcmp(words, "above") == 0;
	bool to = strncmp(words, "to ", 3) == 0;
	enum postage_way way = POSTAGE_AT_COST;
	int64_t to_g = INT64_MAX;

	if (strcmp(words, "fixed") == 0)
		way = POSTAGE_FIXED;
	else if (above || to)
		way = POSTAGE_BY_WEIGHT;
	else if (strcmp(words, "at cost") != 0)
		return table_refuse(table,
				    "\"%s\" has to be: at cost, fixed, to WEIGHT, above, or parcel "
				    "NAME",
				    words);
	if (*way_said && (way != POSTAGE_BY_WEIGHT || postage->way != way))
		return table_refuse(table,
				    "\"%s\" does not go with the lines before: postage is "
				    "fixed, or by weight, or at cost",
				    words);
	*way_said = true;
	postage->way = way;
	if (to && !weight_parse(words + 3, &to_g))
		return table_refuse(table,
				    "\"%s\" wants a whole weight, such as: to 250 g (or kg, oz, "
				    "lb)",
				    words);
	if (above && postage->band_count == 0)
		return table_refuse(table, "\"above\" comes after the bands");
	if (way == POSTAGE_FIXED)
		return amount_read(postage, table, &postage->fixed_minor);
	if (way == POSTAGE_BY_WEIGHT)
		return band_read(postage, table, to_g);
	return table->count == 1 || table_refuse(table, "\"at cost\" has no amount");
}

bool
postage_read(struct postage *postage, const struct vocabulary *vocabulary, const char *currency,
	     const char *file, const char *text, struct problem *problem)
{
	struct table table;
	bool way_said = false, good = true;

	*postage = (struct postage){.way = POSTAGE_AT_COST};
	if (money_decimals(currency) < 0)
		return problem_say(problem, "\"%s\" is no currency of ISO 4217", currency);
	memcpy(postage->currency, currency, sizeof postage->currency);
	table_start(&table, file, text, problem);
	while (good && table_next(&table)) {
		const char *words = table.columns[0];
		if (strncmp(words, "parcel ", 7) == 0)
			good = parcel_read(postage, vocabulary, &table, words + 7);
		else
			good = way_read(postage, &table, &way_said);
	}
	return good && !table.failed;
}

enum postage_due
postage_for(const struct postage *postage, int32_t grams, const char *parcel, struct money *due)
{
	int64_t surcharge_minor = 0;
	int band = 0;

	memcpy(due->currency, postage->currency, sizeof due->currency);
	due->minor = 0;
	for (int i = 0; parcel != NULL && i < postage->parcel_count; i++)
		if (strcmp(postage->parcels[i].name, parcel) == 0)
			surcharge_minor = postage->parcels[i].minor;
	switch (postage->way) {
	case POSTAGE_AT_COST:
		due->minor = surcharge_minor;
		return POSTAGE_COST_ADDS;
	case POSTAGE_FIXED:
		due->minor = postage->fixed_minor + surcharge_minor;
		return POSTAGE_DUE;
	case POSTAGE_BY_WEIGHT:
		if (grams <= 0)
			return POSTAGE_NO_WEIGHT;
		while (band < postage->band_count && grams > postage->bands[band].to_g)
			band++;
		if (band == postage->band_count)
			return POSTAGE_TOO_HEAVY;
		due->minor = postage->bands[band].minor + surcharge_minor;
		return POSTAGE_DUE;
	}
	return POSTAGE_NO_WEIGHT;
}
