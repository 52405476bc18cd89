/* A garment's record as a row of a table for spreadsheets, and back. The columns:
 *
 *   number, bin, kind, route, state   "open", "done" or "set aside"
 *   maker, size, colour, cloth, pilling, colour change, weight, cost, price, parcel
 *   group, care, mending              "wash thirty, do not bleach"; "new zip 30 minutes, materials
 *                                     4.50 USD"
 *   asking                            the price under the standing discount; reading passes it over
 *   MEASURE, MEASURE um               for each of the list: as said ("21 1/2", "none"), and in
 *                                     whole micrometres
 *   part, other measures              of a set its pieces, and what was measured of them and of
 * left and right: "jacket chest 21 1/2 in; left sleeve 24 in" flaws "small hole, left cuff; stain 4
 * cm, front", or "none" unit, currency                    what the figures of the row are in; a
 * cell that is in another says so ("54.6 cm", "12.00 EUR") confirmed                         what
 * was doubted and said to be so: "chest, bin, flaw 2"
 *
 * What stands is written, not its history; notes, which are sound, are not. A name that is on no
 * list is "other". */
#ifndef LAPEL_TRADE_CSV_RECORD_H
#define LAPEL_TRADE_CSV_RECORD_H

#include "csv.h"
#include "record.h"

struct csv_record_setting {
	const struct vocabulary *vocabulary; /* borrowed */
	/* Written: of a row that has no readings, or no amounts. Read: of one that does not say. */
	enum length_unit unit;
	char currency[4];
	int discount_percent;
};

void csv_record_heading(const struct csv_record_setting *setting, struct csv_rows *rows);

/* Adds the record's row. False, the row being there all the same, when something of the record has
 * no column: a measure that is no longer on the list. */
bool csv_record_write(const struct csv_record_setting *setting, const struct record *record,
		      struct csv_rows *rows, struct problem *problem);

/* Where the columns of a table that is read stand. */
struct csv_record_columns {
	int count;
	struct csv_record_column {
		/* An index into the table of fixed columns, or, past its end, twice that of a
		 * measure, and one more for its micrometres. */
		int column;
	} columns[CSV_CELLS_MAX];
};

/* Takes the heading, in whatever order and with whatever columns left out. Refuses a name that is
 * no column, and one that stands there twice. */
bool csv_record_columns(const struct csv_record_setting *setting, const struct csv_reader *heading,
			struct csv_record_columns *columns, struct problem *problem);

/* The row as a record: its entries stand, and have no numbers of the store. Without a state it is
 * done, or set aside when the kind calls for a measure that is not there. The cells are held
 * against the lists: a kind, a colour, a fibre, a flaw, a route, a parcel has to be on its list,
 * and so has a bin, if the user has bins and it is not a number; a maker and a size need not,
 * and are then what the cell says. False with the problem, which names the column. A row that says
 * nothing gives an empty record. */
bool csv_record_read(const struct csv_record_setting *setting,
		     const struct csv_record_columns *columns, const struct csv_reader *row,
		     struct record *record, struct problem *problem);

#endif
