/* Comma separated values, after RFC 4180 (records end in CR LF; a cell with a comma, a quote or a
 * line break stands in quotes, and a quote inside is doubled), such that no spreadsheet computes
 * them.
 *
 * A spreadsheet takes a cell that begins with = + - @ (also after blanks) for a formula, whether it
 * is quoted or not (CWE-1236). A text cell that does, or that begins with an apostrophe, gets an
 * apostrophe in front; reading takes one away. Cells that are numbers may be negative. */
#ifndef LAPEL_TRADE_CSV_H
#define LAPEL_TRADE_CSV_H

#include "text.h"

#include <stdint.h>

/* Rows being written, one after another. All zero is none. */
struct csv_rows {
	struct text text; /* the caller takes from it, cuts it and finishes it */
	int cells;	  /* of the row at hand */
};

void csv_add_text(struct csv_rows *rows, const char *cell);
/* Of digits, a point and a sign; anything else is written as text. */
void csv_add_number(struct csv_rows *rows, const char *cell);
void csv_end_row(struct csv_rows *rows);

enum { CSV_CELLS_MAX = 512, CSV_ROW_MAX = 256 * 1024 };

/* What is read, row by row, from bytes as they come. */
struct csv_reader {
	int64_t line;	   /* where the row at hand begins, from 1 */
	int count;	   /* its cells, once it is whole */
	const char *wrong; /* after CSV_WRONG: what is wrong with it, and what to do */
	/* The reader's own. */
	enum csv_place {
		CSV_BETWEEN_ROWS,
		CSV_AT_CELL,	  /* nothing of the cell was seen yet */
		CSV_IN_PLAIN,	  /* in a cell without quotes */
		CSV_IN_QUOTED,	  /* in a cell with quotes */
		CSV_AFTER_QUOTE,  /* its end, or the first of two quotes */
		CSV_AFTER_RETURN, /* only a line feed may follow */
		CSV_STUCK
	} place;
	int64_t line_now;
	struct text text; /* the row's cells, each with a zero behind it */
	size_t starts[CSV_CELLS_MAX];
};

enum csv_result {
	CSV_MORE, /* all bytes were taken, and the row goes on */
	CSV_ROW,  /* a row is whole; the bytes after it were not taken */
	CSV_WRONG /* the text is no CSV; nothing more is read */
};

void csv_reader_start(struct csv_reader *reader);
void csv_reader_finish(struct csv_reader *reader);

/* Takes bytes up to the end of the row: how many, in *used. A line feed alone ends a row too; a
 * byte order mark before the first row is passed over. */
enum csv_result csv_read(struct csv_reader *reader, const char *bytes, size_t count, size_t *used);
/* There are no more bytes: CSV_ROW for a last row that had no line end, CSV_MORE when none was
 * begun. */
enum csv_result csv_read_end(struct csv_reader *reader);

/* A cell of the row that is whole, without the apostrophe in front; borrowed until the next read.
 * "" past its end. */
const char *csv_cell(const struct csv_reader *reader, int index);

#endif
