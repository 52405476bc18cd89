/* A record as a row. */
#include "csv_record.h"

#include "csv_column.h"
#include "phrase.h"
#include "price.h"
#include "reading_order.h"
#include "writeup_part.h"

#include <stdio.h>
#include <string.h>

enum { CELL_MAX = 512 };

/* One row under way. */
struct writing {
	const struct csv_record_setting *setting;
	const struct record *record;
	struct csv_rows *rows;
	struct text cell;
	enum length_unit unit;
	char currency[4];
};

const struct csv_column csv_columns[CSV_FIXED_COLUMNS] = {
	{"number", CSV_OF_LABEL, CALL_ITEM},
	{"bin", CSV_OF_LABEL, CALL_BIN},
	{"kind", CSV_OF_NAME, CALL_KIND},
	{"route", CSV_OF_NAME, CALL_ROUTE},
	{"state", CSV_OF_STATE, CALL_TYPES},
	{"maker", CSV_OF_NAME, CALL_MAKER},
	{"size", CSV_OF_NAME, CALL_SIZE},
	{"colour", CSV_OF_NAME, CALL_COLOUR},
	{"cloth", CSV_OF_WORDS, CALL_CLOTH},
	{"pilling", CSV_OF_WORDS, CALL_PILLING},
	{"colour change", CSV_OF_WORDS, CALL_COLOUR_CHANGE},
	{"weight", CSV_OF_WEIGHT, CALL_WEIGHT},
	{"cost", CSV_OF_MONEY, CALL_COST},
	{"price", CSV_OF_MONEY, CALL_PRICE},
	{"parcel", CSV_OF_NAME, CALL_PARCEL},
	{"group", CSV_OF_NAME, CALL_GROUP},
	{"care", CSV_OF_WORDS, CALL_CARE},
	{"mending", CSV_OF_MENDING, CALL_MENDING},
	{"asking", CSV_OF_ASKING, CALL_TYPES},
	/* Here the measures stand, two columns each. */
	{"part", CSV_OF_PARTS, CALL_PART},
	{"other measures", CSV_OF_MEASURES, CALL_MEASURE},
	{"flaws", CSV_OF_FLAWS, CALL_FLAW},
	{"unit", CSV_OF_UNIT, CALL_TYPES},
	{"currency", CSV_OF_CURRENCY, CALL_TYPES},
	{"confirmed", CSV_OF_CONFIRMED, CALL_TYPES},
};

static const char *const state_names[] = {
	[ITEM_OPEN] = "open", [ITEM_DONE] = "done", [ITEM_SET_ASIDE] = "set aside"};

const char *
csv_state_name(enum item_state state)
{
	return state_names[state];
}

static void
write_amount(const struct writing *writing, struct money money)
{
	char amount[32], cell[48];
	money_format(money, amount, sizeof amount);
	if (strcmp(money.currency, writing->currency) == 0) {
		csv_add_number(writing->rows, amount);
		return;
	}
	snprintf(cell, sizeof cell, "%s %s", amount, money.currency);
	csv_add_text(writing->rows, cell);
}

static void
write_asking(const struct writing *writing)
{
	const struct entry *price = record_slot(writing->record, CALL_PRICE);
	struct money asking;
	if (price != NULL && !price->said.other &&
	    price_asking(price->said.money, writing->setting->discount_percent, &asking))
		write_amount(writing, asking);
	else
		csv_add_text(writing->rows, "");
}

/* Each flaw as text, without the "flaw:" before it. */
static void
write_flaws_cell(struct writing *writing)
{
	int count = 0;
	text_cut(&writing->cell, 0);
	for (int i = 0; i < writing->record->entry_count; i++) {
		const struct entry *entry = &writing->record->entries[i];
		if (!entry->stands || entry->said.type != CALL_FLAW)
			continue;
		text_add(&writing->cell, count++ == 0 ? "" : "; ");
		write_value(&entry->said, &writing->cell);
	}
	csv_add_text(writing->rows, text_chars(&writing->cell));
}

static void
write_confirmed_cell(struct writing *writing)
{
	int flaw = 0;
	text_cut(&writing->cell, 0);
	for (int i = 0; i < writing->record->entry_count; i++) {
		const struct entry *entry = &writing->record->entries[i];
		enum call_type type = entry->said.type;
		if (!entry->stands || type == CALL_NOTE)
			continue;
		flaw += type == CALL_FLAW;
		if (!entry->confirmed)
			continue;
		text_add(&writing->cell, writing->cell.length == 0 ? "" : ", ");
		if (type == CALL_FLAW)
			text_add_format(&writing->cell, "flaw %d", flaw);
		else if (type == CALL_MEASURE)
			text_add(&writing->cell, entry->said.name);
		else if (type == CALL_ITEM)
			text_add(&writing->cell, "number");
		else
			text_add(&writing->cell, call_type_name(type));
	}
	csv_add_text(writing->rows, text_chars(&writing->cell));
}

static void
write_parts_cell(struct writing *writing, const struct entry *part)
{
	text_cut(&writing->cell, 0);
	if (part != NULL && part->said.listed_count == 0)
		text_add(&writing->cell, part->said.name);
	for (int i = 0; part != NULL && i < part->said.listed_count; i++)
		text_add_format(&writing->cell, "%s%s", i == 0 ? "" : ", ",
				part->said.listed[i].name);
	csv_add_text(writing->rows, text_chars(&writing->cell));
}

/* A measure of the list, of a left or right, or of a piece of a set. */
static bool
is_listed(const struct writing *writing, const char *measure)
{
	const struct vocabulary *vocabulary = writing->setting->vocabulary;
	return vocabulary_find(vocabulary, LIST_MEASURE, reading_point(vocabulary, measure)) >= 0;
}

/* Readings that have no column of their own. */
static void
write_measures_cell(struct writing *writing)
{
	const struct vocabulary *vocabulary = writing->setting->vocabulary;
	text_cut(&writing->cell, 0);
	for (int i = 0; i < writing->record->entry_count; i++) {
		const struct entry *entry = &writing->record->entries[i];
		if (!entry->stands || entry->said.type != CALL_MEASURE ||
		    vocabulary_find(vocabulary, LIST_MEASURE, entry->said.name) >= 0 ||
		    !is_listed(writing, entry->said.name))
			continue;
		char written[CELL_MAX];
		phrase_written(&entry->said, written, sizeof written);
		text_add_format(&writing->cell, "%s%s", writing->cell.length == 0 ? "" : "; ",
				written);
	}
	csv_add_text(writing->rows, text_chars(&writing->cell));
}

static void
write_cell(struct writing *writing, const struct csv_column *column)
{
	struct csv_rows *rows = writing->rows;
	const struct entry *entry =
		column->type == CALL_TYPES ? NULL : record_slot(writing->record, column->type);

	switch (column->way) {
	case CSV_OF_LABEL:
		csv_add_text(rows, entry == NULL ? "" : entry->said.label);
		break;
	case CSV_OF_NAME:
		csv_add_text(rows, entry == NULL       ? ""
				   : entry->said.other ? "other"
						       : entry->said.name);
		break;
	case CSV_OF_WORDS:
	case CSV_OF_MENDING:
	case CSV_OF_WEIGHT:
		text_cut(&writing->cell, 0);
		if (entry != NULL)
			write_value(&entry->said, &writing->cell);
		csv_add_text(rows, text_chars(&writing->cell));
		break;
	case CSV_OF_MONEY:
		if (entry == NULL || entry->said.other)
			csv_add_text(rows, entry == NULL ? "" : "other");
		else
			write_amount(writing, entry->said.money);
		break;
	case CSV_OF_STATE:
		csv_add_text(rows, state_names[writing->record->state]);
		break;
	case CSV_OF_ASKING:
		write_asking(writing);
		break;
	case CSV_OF_FLAWS:
		write_flaws_cell(writing);
		break;
	case CSV_OF_PARTS:
		write_parts_cell(writing, entry);
		break;
	case CSV_OF_MEASURES:
		write_measures_cell(writing);
		break;
	case CSV_OF_UNIT:
		csv_add_text(rows, length_unit_name(writing->unit));
		break;
	case CSV_OF_CURRENCY:
		csv_add_text(rows, writing->currency);
		break;
	case CSV_OF_CONFIRMED:
		write_confirmed_cell(writing);
		break;
	}
}

static void
write_reading(const struct writing *writing, const char *measure)
{
	const struct entry *reading = record_reading(writing->record, measure);
	char value[32], cell[CELL_MAX];

	if (reading == NULL || reading->said.none) {
		csv_add_text(writing->rows, reading == NULL ? "" : "none");
		csv_add_text(writing->rows, "");
		return;
	}
	length_value(reading->said.length, value, sizeof value);
	/* "1/2" alone would be taken for the second of January. */
	bool unit_too = reading->said.length.unit != writing->unit ||
			reading->said.length.numerator < reading->said.length.denominator;
	snprintf(cell, sizeof cell, "%s%s%s", value, unit_too ? " " : "",
		 unit_too ? length_unit_name(reading->said.length.unit) : "");
	csv_add_text(writing->rows, cell);
	snprintf(cell, sizeof cell, "%lld", (long long)length_um(reading->said.length));
	csv_add_number(writing->rows, cell);
}

/* What the figures of the row are in: as the first of them is. */
static void
choose_units(struct writing *writing)
{
	const struct entry *price = record_slot(writing->record, CALL_PRICE);
	const struct entry *money = price != NULL ? price : record_slot(writing->record, CALL_COST);

	if (money != NULL && money->said.money.currency[0] != '\0')
		memcpy(writing->currency, money->said.money.currency, sizeof writing->currency);
	for (int i = 0; i < writing->record->entry_count; i++) {
		const struct entry *entry = &writing->record->entries[i];
		if (!entry->stands || entry->said.type != CALL_MEASURE || !entry->said.has_length)
			continue;
		writing->unit = entry->said.length.unit;
		return;
	}
}

static bool
all_have_columns(const struct writing *writing, struct problem *problem)
{
	const struct entry *number = record_slot(writing->record, CALL_ITEM);
	for (int i = 0; i < writing->record->entry_count; i++) {
		const struct entry *entry = &writing->record->entries[i];
		if (!entry->stands || entry->said.type != CALL_MEASURE ||
		    is_listed(writing, entry->said.name))
			continue;
		return problem_say(problem,
				   "the %s of %s%s has no column: put it into the list of measures "
				   "again, measures.txt",
				   entry->said.name,
				   number == NULL ? "an item without a number" : "item ",
				   number == NULL ? "" : number->said.label);
	}
	return true;
}

bool
csv_record_write(const struct csv_record_setting *setting, const struct record *record,
		 struct csv_rows *rows, struct problem *problem)
{
	const struct vocabulary *vocabulary = setting->vocabulary;
	struct writing writing = {
		.setting = setting, .record = record, .rows = rows, .unit = setting->unit};

	memcpy(writing.currency, setting->currency, sizeof writing.currency);
	choose_units(&writing);
	for (int i = 0; i < CSV_BEFORE_MEASURES; i++)
		write_cell(&writing, &csv_columns[i]);
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_MEASURE); i++)
		write_reading(&writing, vocabulary_term(vocabulary, LIST_MEASURE, i)->name);
	for (int i = CSV_BEFORE_MEASURES; i < CSV_FIXED_COLUMNS; i++)
		write_cell(&writing, &csv_columns[i]);
	csv_end_row(rows);
	rows->text.failed = rows->text.failed || writing.cell.failed;
	text_finish(&writing.cell);
	return all_have_columns(&writing, problem);
}

void
csv_record_heading(const struct csv_record_setting *setting, struct csv_rows *rows)
{
	const struct vocabulary *vocabulary = setting->vocabulary;
	char um[CALL_NAME_MAX + 8];

	for (int i = 0; i < CSV_BEFORE_MEASURES; i++)
		csv_add_text(rows, csv_columns[i].name);
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_MEASURE); i++) {
		const char *name = vocabulary_term(vocabulary, LIST_MEASURE, i)->name;
		csv_add_text(rows, name);
		snprintf(um, sizeof um, "%s um", name);
		csv_add_text(rows, um);
	}
	for (int i = CSV_BEFORE_MEASURES; i < CSV_FIXED_COLUMNS; i++)
		csv_add_text(rows, csv_columns[i].name);
	csv_end_row(rows);
}
