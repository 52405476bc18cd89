#include "ranges.h"

#include "table.h"

#include <stdio.h>
#include <string.h>

enum column {
	COLUMN_MEASURE,
	COLUMN_KIND,
	COLUMN_HARD_LOW,
	COLUMN_HARD_HIGH,
	COLUMN_SOFT_LOW,
	COLUMN_SOFT_HIGH,
	COLUMN_SOURCE,
	COLUMNS
};

static bool
name_read(struct table *table, enum column column, char name[CALL_NAME_MAX])
{
	const char *text = table->columns[column];
	if (text[0] == '\0')
		return table_refuse(table, "the name of a %s is empty",
				    column == COLUMN_KIND ? "kind" : "measure");
	if (strlen(text) >= CALL_NAME_MAX)
		return table_refuse(table, "\"%s\" is longer than %d letters", text,
				    CALL_NAME_MAX - 1);
	snprintf(name, CALL_NAME_MAX, "%s", text);
	return true;
}

static bool
bound_read(struct table *table, enum column column, int32_t left_out_um, int32_t *bound_um)
{
	const char *text = table->columns[column];
	int64_t number = left_out_um;
	bool may_be_left_out = column == COLUMN_SOFT_LOW || column == COLUMN_SOFT_HIGH;
	if (!(may_be_left_out && text[0] == '\0') && !table_number(text, RANGE_UM_MAX, &number))
		return table_refuse(table, "\"%s\" is no length in whole micrometres up to %d",
				    text, RANGE_UM_MAX);
	*bound_um = (int32_t)number;
	return true;
}

static bool
row_read(struct ranges *ranges, struct table *table)
{
	if (ranges->count == RANGES_MAX)
		return table_refuse(table, "more than %d ranges", RANGES_MAX);
	struct range *row = &ranges->rows[ranges->count];
	if (table->count > COLUMNS)
		return table_refuse(table, "more than %d columns parted by |", COLUMNS);
	if (!name_read(table, COLUMN_MEASURE, row->measure) ||
	    !name_read(table, COLUMN_KIND, row->kind))
		return false;
	if (strcmp(row->kind, "any") == 0)
		row->kind[0] = '\0';
	for (int i = 0; i < ranges->count; i++)
		if (strcmp(ranges->rows[i].measure, row->measure) == 0 &&
		    strcmp(ranges->rows[i].kind, row->kind) == 0)
			return table_refuse(table, "the range of %s for %s is given twice",
					    table->columns[COLUMN_MEASURE],
					    table->columns[COLUMN_KIND]);
	if (!bound_read(table, COLUMN_HARD_LOW, 0, &row->hard_low_um) ||
	    !bound_read(table, COLUMN_HARD_HIGH, 0, &row->hard_high_um) ||
	    !bound_read(table, COLUMN_SOFT_LOW, row->hard_low_um, &row->soft_low_um) ||
	    !bound_read(table, COLUMN_SOFT_HIGH, row->hard_high_um, &row->soft_high_um))
		return false;
	if (row->hard_low_um > row->soft_low_um || row->soft_low_um >= row->soft_high_um ||
	    row->soft_high_um > row->hard_high_um)
		return table_refuse(table, "the bounds have to rise: hard low, soft low, soft "
					   "high, hard high");
	if (table->columns[COLUMN_SOURCE][0] == '\0')
		return table_refuse(table, "a range wants a source: where its bounds come from");
	ranges->count++;
	return true;
}

bool
ranges_read(struct ranges *ranges, const char *file, const char *text, struct problem *problem)
{
	struct table table;
	bool good = true;
	ranges->count = 0;
	table_start(&table, file, text, problem);
	while (good && table_next(&table))
		good = row_read(ranges, &table);
	return good && !table.failed;
}

static const struct range *
row_find(const struct ranges *ranges, const char *measure, const char *kind)
{
	for (int i = 0; i < ranges->count; i++)
		if (strcmp(ranges->rows[i].measure, measure) == 0 &&
		    strcmp(ranges->rows[i].kind, kind) == 0)
			return &ranges->rows[i];
	return NULL;
}

const struct range *
ranges_find(const struct ranges *ranges, const char *measure, const char *kind)
{
	const char *space = strchr(measure, ' ');
	const struct range *row = NULL;
	if (kind != NULL && kind[0] != '\0')
		row = row_find(ranges, measure, kind);
	if (row == NULL)
		row = row_find(ranges, measure, "");
	if (row == NULL && space != NULL &&
	    (strncmp(measure, "left ", 5) == 0 || strncmp(measure, "right ", 6) == 0))
		return ranges_find(ranges, space + 1, kind);
	return row;
}

int
range_compare(struct length length, int32_t um)
{
	int64_t unit_um = length_um((struct length){1, 1, length.unit});
	int64_t said = length.numerator * unit_um;
	int64_t bound = (int64_t)um * length.denominator;
	return (said > bound) - (said < bound);
}

enum range_place
range_place(const struct range *range, struct length length)
{
	if (range_compare(length, range->hard_low_um) < 0)
		return RANGE_BELOW_HARD;
	if (range_compare(length, range->hard_high_um) > 0)
		return RANGE_ABOVE_HARD;
	if (range_compare(length, range->soft_low_um) < 0)
		return RANGE_BELOW_SOFT;
	if (range_compare(length, range->soft_high_um) > 0)
		return RANGE_ABOVE_SOFT;
	return RANGE_WITHIN;
}
