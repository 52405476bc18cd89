#include "csv.h"

#include <string.h>

/* What opens a formula: the signs of CWE-1236, and the wide forms of them that keyboards for
 * Chinese and Japanese have (from memory). */
static const char *const openings[] = {
	"=", "+", "-", "@", "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};

/* Past blanks, which do not keep a formula from being one; the no-break space is C2 A0. */
static const char *
skip_blanks(const char *at)
{
	for (;;) {
		if (*at == ' ' || *at == '\t')
			at++;
		else if (strncmp(at, "\xC2\xA0", 2) == 0)
			at += 2;
		else
			return at;
	}
}

/* Whether a spreadsheet could take the cell, or a line of it, for a formula. A tab or a carriage
 * return in front is on the list of CWE-1236 itself. */
static bool
is_risky(const char *cell)
{
	if (*cell == '\t' || *cell == '\r')
		return true;
	for (;;) {
		const char *line = skip_blanks(cell);
		for (size_t i = 0; i < sizeof openings / sizeof *openings; i++)
			if (strncmp(line, openings[i], strlen(openings[i])) == 0)
				return true;
		cell += strcspn(cell, "\r\n");
		if (*cell == '\0')
			return false;
		cell++;
	}
}

static void
begin_cell(struct csv_rows *rows)
{
	if (rows->cells++ > 0)
		text_add(&rows->text, ",");
}

void
csv_add_text(struct csv_rows *rows, const char *cell)
{
	bool guarded = cell[0] == '\'' || is_risky(cell);

	begin_cell(rows);
	if (!guarded && cell[strcspn(cell, "\",\r\n")] == '\0') {
		text_add(&rows->text, cell);
		return;
	}
	text_add(&rows->text, guarded ? "\"'" : "\"");
	while (*cell != '\0') {
		size_t length = strcspn(cell, "\"");
		text_add_bytes(&rows->text, cell, length);
		cell += length;
		if (*cell == '"') {
			text_add(&rows->text, "\"\"");
			cell++;
		}
	}
	text_add(&rows->text, "\"");
}

static bool
is_number(const char *cell)
{
	static const char digits[] = "0123456789";
	const char *at = cell[0] == '-' ? cell + 1 : cell;
	size_t whole = strspn(at, digits);
	if (whole == 0)
		return false;
	at += whole;
	if (*at == '.') {
		size_t decimals = strspn(at + 1, digits);
		if (decimals == 0)
			return false;
		at += 1 + decimals;
	}
	return *at == '\0';
}

void
csv_add_number(struct csv_rows *rows, const char *cell)
{
	if (!is_number(cell)) {
		csv_add_text(rows, cell);
		return;
	}
	begin_cell(rows);
	text_add(&rows->text, cell);
}

void
csv_end_row(struct csv_rows *rows)
{
	text_add(&rows->text, "\r\n");
	rows->cells = 0;
}
