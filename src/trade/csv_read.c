/* The reading half of csv.h: one byte moves it from one place to the next. */
#include "csv.h"

#include <string.h>

static const char byte_order_mark[] = "\xEF\xBB\xBF";

void
csv_reader_start(struct csv_reader *reader)
{
	memset(reader, 0, sizeof *reader);
	reader->line = reader->line_now = 1;
}

void
csv_reader_finish(struct csv_reader *reader)
{
	text_finish(&reader->text);
}

static enum csv_result
stuck(struct csv_reader *reader, const char *wrong)
{
	reader->wrong = wrong;
	reader->place = CSV_STUCK;
	return CSV_WRONG;
}

static void
begin_row(struct csv_reader *reader)
{
	text_cut(&reader->text, 0);
	reader->count = 0;
	reader->starts[0] = 0;
	reader->line = reader->line_now;
	reader->place = CSV_AT_CELL;
}

/* The cell at hand is whole. */
static void
end_cell(struct csv_reader *reader)
{
	text_add_bytes(&reader->text, "", 1);
	reader->count++;
	if (reader->count < CSV_CELLS_MAX)
		reader->starts[reader->count] = reader->text.length;
	reader->place = CSV_AT_CELL;
}

static enum csv_result
end_row(struct csv_reader *reader)
{
	end_cell(reader);
	reader->place = CSV_BETWEEN_ROWS;
	return CSV_ROW;
}

/* Nothing but a byte order mark stands before the first cell of all. */
static bool
only_mark_so_far(const struct csv_reader *reader)
{
	return reader->line == 1 && reader->count == 0 && reader->text.length == 3 &&
	       memcmp(reader->text.chars, byte_order_mark, 3) == 0;
}

static enum csv_result
take_quote(struct csv_reader *reader)
{
	if (reader->place == CSV_IN_QUOTED) {
		reader->place = CSV_AFTER_QUOTE;
		return CSV_MORE;
	}
	if (reader->place == CSV_AFTER_QUOTE) {
		text_add(&reader->text, "\"");
		reader->place = CSV_IN_QUOTED;
		return CSV_MORE;
	}
	if (reader->place == CSV_IN_PLAIN && !only_mark_so_far(reader))
		return stuck(reader, "a quote stands inside a cell that does not begin with one: "
				     "put the cell in quotes, and double the quote inside");
	reader->place = CSV_IN_QUOTED;
	return CSV_MORE;
}

/* A byte outside quotes. */
static enum csv_result
take_plain(struct csv_reader *reader, char byte)
{
	if (byte == ',') {
		end_cell(reader);
		return reader->count < CSV_CELLS_MAX ? CSV_MORE
						     : stuck(reader, "there are too many cells");
	}
	if (byte == '\n')
		return end_row(reader);
	if (byte == '\r') {
		reader->place = CSV_AFTER_RETURN;
		return CSV_MORE;
	}
	if (reader->place == CSV_AFTER_QUOTE)
		return stuck(reader, "something follows the quote that ends a cell: double a quote "
				     "that is part of the text");
	text_add_bytes(&reader->text, &byte, 1);
	reader->place = CSV_IN_PLAIN;
	return CSV_MORE;
}

static enum csv_result
take_byte(struct csv_reader *reader, char byte)
{
	if (reader->place == CSV_BETWEEN_ROWS)
		begin_row(reader);
	reader->line_now += byte == '\n';
	if (byte == '\0')
		return stuck(reader, "a zero byte stands in it: this is no text file");
	if (reader->place == CSV_AFTER_RETURN)
		return byte == '\n' ? end_row(reader)
				    : stuck(reader, "a carriage return stands alone: lines end in "
						    "a line feed, with or without one before it");
	if (byte == '"')
		return take_quote(reader);
	if (reader->place != CSV_IN_QUOTED)
		return take_plain(reader, byte);
	text_add_bytes(&reader->text, &byte, 1);
	return CSV_MORE;
}

enum csv_result
csv_read(struct csv_reader *reader, const char *bytes, size_t count, size_t *used)
{
	enum csv_result result = reader->place == CSV_STUCK ? CSV_WRONG : CSV_MORE;

	*used = 0;
	while (result == CSV_MORE && *used < count) {
		result = take_byte(reader, bytes[(*used)++]);
		if (reader->text.failed)
			result = stuck(reader, "there is no memory left to read it");
		else if (reader->text.length > CSV_ROW_MAX)
			result = stuck(reader, "the row is too long: is a quote missing?");
	}
	return result;
}

enum csv_result
csv_read_end(struct csv_reader *reader)
{
	switch (reader->place) {
	case CSV_BETWEEN_ROWS:
		return CSV_MORE;
	case CSV_AT_CELL:
	case CSV_IN_PLAIN:
	case CSV_AFTER_QUOTE:
	case CSV_AFTER_RETURN:
		return end_row(reader);
	case CSV_IN_QUOTED:
		return stuck(reader, "the quote that opens a cell is never closed");
	case CSV_STUCK:
		break;
	}
	return CSV_WRONG;
}

const char *
csv_cell(const struct csv_reader *reader, int index)
{
	if (index < 0 || index >= reader->count)
		return "";
	const char *cell = reader->text.chars + reader->starts[index];
	if (index == 0 && reader->line == 1 && strncmp(cell, byte_order_mark, 3) == 0)
		cell += 3;
	return cell[0] == '\'' ? cell + 1 : cell;
}
