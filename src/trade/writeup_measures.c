/* The table of measures of a write-up. Each line can be read by itself, where columns do not stay
 * one below another. */
#include "writeup_part.h"

#include "length_convert.h"
#include "reading_order.h"

#include <stdio.h>

struct row {
	const struct entry *reading;
	bool round; /* the way round, of what was measured flat */
	bool flat;
};

static struct length
row_length(const struct row *row)
{
	struct length said = row->reading->said.length;
	return row->round ? length_doubled(said) : said;
}

static int
name_text(const struct row *row, char *text, size_t size)
{
	const char *how = row->round ? ", all round" : row->flat ? ", laid flat" : "";
	return snprintf(text, size, "%s%s", row->reading->said.name, how);
}

static int
value_text(const struct row *row, enum length_unit unit, char *text, size_t size)
{
	char value[32];
	length_value(length_converted(row_length(row), unit), value, sizeof value);
	return snprintf(text, size, "%s %s", value, length_unit_name(unit));
}

static int
wider(int width, int other)
{
	return other > width ? other : width;
}

static void
write_row(const struct row *row, int name_width, int inches_width, struct text *to)
{
	char name[CALL_NAME_MAX + 16], inches[48], centimetres[48];

	name_text(row, name, sizeof name);
	text_add_format(to, "%-*s  ", name_width, name);
	if (row->reading->said.none) {
		text_add(to, "none: the garment has no such point");
	} else {
		value_text(row, LENGTH_INCH, inches, sizeof inches);
		value_text(row, LENGTH_CENTIMETRE, centimetres, sizeof centimetres);
		text_add_format(to, "%-*s  %s", inches_width, inches, centimetres);
	}
	/* Of what was measured: the way round is only worked out. */
	if (row->reading->confirmed && !row->round)
		text_add(to, "  confirmed");
	text_add(to, "\n");
}

/* What was not measured but worked out, and how. */
static void
write_reckoning(bool has_round, bool has_inches, bool has_centimetres, struct text *to)
{
	if (has_round)
		text_add(to, "All round is twice the width laid flat. ");
	if (has_inches && has_centimetres)
		text_add(to, "Measured in inches or centimetres; what is converted is rounded, to "
			     "the nearest 0.1 cm or 1/8 in.");
	else if (has_inches)
		text_add(to, "Measured in inches; centimetres are rounded to the nearest 0.1.");
	else if (has_centimetres)
		text_add(to, "Measured in centimetres; inches are rounded to the nearest 1/8.");
	else
		text_cut(to, to->length - 1);
}

static int
make_rows(const struct record *record, const struct vocabulary *vocabulary, struct row *rows)
{
	const struct entry *readings[RECORD_ENTRIES_MAX];
	int count = reading_order(record, vocabulary, readings);
	int row_count = 0;

	for (int i = 0; i < count; i++) {
		const struct call *said = &readings[i]->said;
		bool flat = said->has_length && reading_is_flat(vocabulary, said->name);
		rows[row_count++] = (struct row){readings[i], false, flat};
		if (flat)
			rows[row_count++] = (struct row){readings[i], true, flat};
	}
	return row_count;
}

void
write_measures(const struct record *record, const struct vocabulary *vocabulary, struct text *to)
{
	struct row rows[2 * RECORD_ENTRIES_MAX];
	int count = make_rows(record, vocabulary, rows);
	int name_width = 0, inches_width = 0;
	bool has_round = false, has_inches = false, has_centimetres = false;
	char text[CALL_NAME_MAX + 16];

	for (int i = 0; i < count; i++) {
		const struct call *said = &rows[i].reading->said;
		name_width = wider(name_width, name_text(&rows[i], text, sizeof text));
		if (!said->has_length)
			continue;
		inches_width =
			wider(inches_width, value_text(&rows[i], LENGTH_INCH, text, sizeof text));
		has_round = has_round || rows[i].round;
		has_inches = has_inches || said->length.unit == LENGTH_INCH;
		has_centimetres = has_centimetres || said->length.unit == LENGTH_CENTIMETRE;
	}
	for (int i = 0; i < count; i++)
		write_row(&rows[i], name_width, inches_width, to);
	if (count > 0)
		write_reckoning(has_round, has_inches, has_centimetres, to);
}
