/* The columns of a table of records, as both its writer and its reader know them. Inside trade/.
 */
#ifndef LAPEL_TRADE_CSV_COLUMN_H
#define LAPEL_TRADE_CSV_COLUMN_H

#include "problem.h"
#include "record.h"

/* How a cell is written, and read back. */
enum csv_way {
	CSV_OF_LABEL,
	CSV_OF_NAME,
	CSV_OF_WORDS, /* as it would be said, with figures */
	CSV_OF_WEIGHT,
	CSV_OF_MONEY,
	CSV_OF_STATE,
	CSV_OF_ASKING,
	CSV_OF_FLAWS,
	CSV_OF_UNIT,
	CSV_OF_CURRENCY,
	CSV_OF_CONFIRMED,
	CSV_OF_MENDING, /* as would be said, with figures, and its materials */
	CSV_OF_PARTS,
	CSV_OF_MEASURES /* readings that have no column of their own */
};

struct csv_column {
	const char *name;
	enum csv_way way;
	enum call_type type; /* whose entry the cell holds; CALL_TYPES: none */
};

/* The measures' columns, two each, stand after the first CSV_BEFORE_MEASURES. */
enum { CSV_BEFORE_MEASURES = 19, CSV_FIXED_COLUMNS = 25 };

extern const struct csv_column csv_columns[CSV_FIXED_COLUMNS];

const char *csv_state_name(enum item_state state);

enum { CSV_CELL_MAX = 4096 }; /* with the final zero, of a cell that is read */

/* What a cell is read with. */
struct cell_setting {
	const struct vocabulary *vocabulary;
	enum length_unit unit; /* of the row's figures that do not say theirs */
	char currency[4];
};

/* A cell that says something as the call that it stands for: of a column with an entry (one flaw of
 * CSV_OF_FLAWS), and of a measure with its micrometres, which must agree if they are not "". False
 * with a problem that names the column. */
bool csv_cell_read(const struct cell_setting *setting, const struct csv_column *column,
		   const char *cell, struct call *call, struct problem *problem);
bool csv_measure_read(const struct cell_setting *setting, const char *measure, const char *cell,
		      const char *um, struct call *call, struct problem *problem);

#endif
