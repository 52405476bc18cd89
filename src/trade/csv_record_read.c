/* A row as a record. */
#include "csv_record.h"

#include "csv_column.h"

#include <stdio.h>
#include <string.h>

/* One row under way. */
struct reading {
	struct cell_setting cells;
	const struct csv_record_columns *columns;
	const struct csv_reader *row;
	struct record *record;
	struct problem *problem;
	char cell[CSV_CELL_MAX]; /* the one at hand */
	char confirmed[CSV_CELL_MAX];
	int flaws;
};

static int
fixed_column(enum csv_way way)
{
	int column = 0;
	while (csv_columns[column].way != way)
		column++;
	return column;
}

static int
measure_column(int measure, bool um)
{
	return CSV_FIXED_COLUMNS + 2 * measure + um;
}

/* The cell of a column without blanks at its ends, in *cell; "" where there is no such column. That
 * cells fit was looked at before. */
static void
cell_of(const struct reading *reading, int column, char cell[CSV_CELL_MAX])
{
	const char *text = "";
	for (int i = 0; i < reading->columns->count; i++)
		if (reading->columns->columns[i].column == column)
			text = csv_cell(reading->row, i);
	text += strspn(text, " ");
	size_t length = strlen(text);
	while (length > 0 && text[length - 1] == ' ')
		length--;
	memcpy(cell, text, length);
	cell[length] = '\0';
}

/* Whether the cell of what was confirmed names it. */
static bool
is_confirmed(const struct reading *reading, const char *name)
{
	const char *at = reading->confirmed;
	size_t length;
	for (; *at != '\0'; at += length) {
		at += strspn(at, ", ");
		length = strcspn(at, ",");
		size_t used = length;
		while (used > 0 && at[used - 1] == ' ')
			used--;
		if (used == strlen(name) && strncmp(at, name, used) == 0)
			return true;
	}
	return false;
}

static bool
write_down(struct reading *reading, const char *column, const char *cell, const struct call *call)
{
	char flaw[32];
	struct deed deed;
	const char *name = column;

	if (call->type == CALL_FLAW) {
		snprintf(flaw, sizeof flaw, "flaw %d", ++reading->flaws);
		name = flaw;
	}
	return record_write(reading->record, call, is_confirmed(reading, name), &deed) ||
	       problem_say(reading->problem,
			   "%s: \"%.80s\" cannot stand beside the rest, or there is too much",
			   column, cell);
}

static bool
read_one(struct reading *reading, const struct csv_column *column, const char *cell)
{
	struct call call;
	return csv_cell_read(&reading->cells, column, cell, &call, reading->problem) &&
	       write_down(reading, call.type == CALL_MEASURE ? call.name : column->name, cell,
			  &call);
}

static bool
read_several(struct reading *reading, const struct csv_column *column)
{
	for (char *rest = reading->cell, *one; (one = strsep(&rest, ";")) != NULL;) {
		one += strspn(one, " ");
		if (one[0] != '\0' && !read_one(reading, column, one))
			return false;
	}
	return true;
}

static bool
read_fixed(struct reading *reading, int column)
{
	const struct csv_column *of = &csv_columns[column];

	if (of->type == CALL_TYPES)
		return true;
	cell_of(reading, column, reading->cell);
	if (reading->cell[0] == '\0')
		return true;
	return of->way == CSV_OF_FLAWS || of->way == CSV_OF_MEASURES
		       ? read_several(reading, of)
		       : read_one(reading, of, reading->cell);
}

static bool
read_measure(struct reading *reading, int measure)
{
	const char *name = vocabulary_term(reading->cells.vocabulary, LIST_MEASURE, measure)->name;
	char um[CSV_CELL_MAX];
	struct call call;

	cell_of(reading, measure_column(measure, false), reading->cell);
	cell_of(reading, measure_column(measure, true), um);
	if (reading->cell[0] == '\0' && um[0] == '\0')
		return true;
	return csv_measure_read(&reading->cells, name, reading->cell, um, &call,
				reading->problem) &&
	       write_down(reading, name, reading->cell, &call);
}

/* What the row says about itself: the unit and the currency of its figures. */
static bool
read_units(struct reading *reading)
{
	struct cell_setting *cells = &reading->cells;
	char *cell = reading->cell;

	cell_of(reading, fixed_column(CSV_OF_UNIT), cell);
	if (cell[0] != '\0' && !length_unit_parse(cell, &cells->unit))
		return problem_say(reading->problem, "unit: \"%.80s\" is neither in nor cm", cell);
	cell_of(reading, fixed_column(CSV_OF_CURRENCY), cell);
	if (cell[0] == '\0')
		return true;
	if (money_decimals(cell) < 0)
		return problem_say(reading->problem,
				   "currency: \"%.80s\" is no code of ISO 4217, such as USD", cell);
	memcpy(cells->currency, cell, sizeof cells->currency);
	return true;
}

static bool
read_state(struct reading *reading)
{
	int missing[TERM_MEASURES_MAX];
	struct record *record = reading->record;

	cell_of(reading, fixed_column(CSV_OF_STATE), reading->cell);
	if (reading->cell[0] == '\0') {
		bool lacks = record_missing(record, reading->cells.vocabulary, missing) > 0;
		record->state = lacks ? ITEM_SET_ASIDE : ITEM_DONE;
		return true;
	}
	for (int state = ITEM_OPEN; state <= ITEM_SET_ASIDE; state++) {
		if (strcmp(reading->cell, csv_state_name((enum item_state)state)) == 0) {
			record->state = (enum item_state)state;
			return true;
		}
	}
	return problem_say(reading->problem, "state: \"%.80s\" is neither open, done nor set aside",
			   reading->cell);
}

static bool
cells_fit(const struct reading *reading)
{
	int count = reading->row->count;
	if (count != reading->columns->count)
		return problem_say(reading->problem,
				   "it has %d cells, and the heading %d: each cell that holds a "
				   "comma has to stand in quotes",
				   count, reading->columns->count);
	for (int i = 0; i < count; i++)
		if (strlen(csv_cell(reading->row, i)) >= CSV_CELL_MAX)
			return problem_say(reading->problem, "cell %d is too long", i + 1);
	return true;
}

bool
csv_record_read(const struct csv_record_setting *setting, const struct csv_record_columns *columns,
		const struct csv_reader *row, struct record *record, struct problem *problem)
{
	struct reading reading = {
		.columns = columns,
		.row = row,
		.record = record,
		.problem = problem,
		.cells = {.vocabulary = setting->vocabulary, .unit = setting->unit}};

	memcpy(reading.cells.currency, setting->currency, sizeof setting->currency);
	record_init(record);
	if (!cells_fit(&reading) || !read_units(&reading))
		return false;
	cell_of(&reading, fixed_column(CSV_OF_CONFIRMED), reading.confirmed);
	for (int i = 0; i < CSV_BEFORE_MEASURES; i++)
		if (!read_fixed(&reading, i))
			return false;
	for (int i = 0; i < vocabulary_count(setting->vocabulary, LIST_MEASURE); i++)
		if (!read_measure(&reading, i))
			return false;
	for (int i = CSV_BEFORE_MEASURES; i < CSV_FIXED_COLUMNS; i++)
		if (!read_fixed(&reading, i))
			return false;
	return read_state(&reading);
}

static int
column_named(const struct vocabulary *vocabulary, const char *name)
{
	char measure[CALL_NAME_MAX + 8];

	for (int i = 0; i < CSV_FIXED_COLUMNS; i++)
		if (strcmp(csv_columns[i].name, name) == 0)
			return i;
	int index = vocabulary_find(vocabulary, LIST_MEASURE, name);
	if (index >= 0)
		return measure_column(index, false);
	snprintf(measure, sizeof measure, "%s", name);
	size_t length = strlen(measure);
	if (length < 4 || strcmp(measure + length - 3, " um") != 0)
		return -1;
	measure[length - 3] = '\0';
	index = vocabulary_find(vocabulary, LIST_MEASURE, measure);
	return index < 0 ? -1 : measure_column(index, true);
}

bool
csv_record_columns(const struct csv_record_setting *setting, const struct csv_reader *heading,
		   struct csv_record_columns *columns, struct problem *problem)
{
	if (heading->count == 1 && strchr(csv_cell(heading, 0), ';') != NULL)
		return problem_say(problem, "the cells are parted by semicolons: save the table "
					    "with commas between them");
	columns->count = heading->count;
	for (int i = 0; i < heading->count; i++) {
		const char *name = csv_cell(heading, i);
		int column = column_named(setting->vocabulary, name);
		if (column < 0)
			return problem_say(problem,
					   "\"%.80s\" is no column: the heading has to be as lapel "
					   "export writes it, in any order",
					   name);
		for (int k = 0; k < i; k++)
			if (columns->columns[k].column == column)
				return problem_say(problem, "the column \"%s\" stands there twice",
						   name);
		columns->columns[i].column = column;
	}
	return true;
}
