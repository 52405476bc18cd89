#include "table.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void
table_start(struct table *table, const char *file, const char *text, struct problem *problem)
{
	table->file = file;
	table->rest = text;
	table->line = 0;
	table->problem = problem;
	table->failed = false;
	table->count = 0;
}

bool
table_refuse(struct table *table, const char *format, ...)
{
	char what[sizeof table->problem->text];
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(what, sizeof what, format, arguments);
	va_end(arguments);
	table->failed = true;
	return problem_say(table->problem, "%s, line %d: %s", table->file, table->line, what);
}

static bool
blank(char c)
{
	return c == ' ' || c == '\t' || c == '\r';
}

/* Takes blanks off both ends and leaves one space where there were several; in place. */
static char *
tidy(char *text)
{
	char *to = text;
	for (const char *from = text; *from != '\0'; from++) {
		if (!blank(*from))
			*to++ = *from;
		else if (to > text && to[-1] != ' ')
			*to++ = ' ';
	}
	if (to > text && to[-1] == ' ')
		to--;
	*to = '\0';
	return text;
}

static bool
cut(struct table *table)
{
	char *rest = table->text;
	table->count = 0;
	while (rest != NULL) {
		char *column = rest;
		char *end = strchr(rest, '|');
		rest = end == NULL ? NULL : end + 1;
		if (end != NULL)
			*end = '\0';
		if (table->count == TABLE_COLUMNS_MAX)
			return table_refuse(table, "more than %d columns parted by |",
					    TABLE_COLUMNS_MAX);
		table->columns[table->count++] = tidy(column);
	}
	for (int i = table->count; i < TABLE_COLUMNS_MAX; i++)
		table->columns[i] = table->text + strlen(table->text);
	return true;
}

bool
table_next(struct table *table)
{
	while (!table->failed && *table->rest != '\0') {
		size_t length = strcspn(table->rest, "\n");
		size_t said = strcspn(table->rest, "#\n");
		const char *start = table->rest;
		table->rest += length + (start[length] == '\n');
		table->line++;
		if (said >= sizeof table->text)
			return table_refuse(table, "longer than %d letters",
					    (int)sizeof table->text - 1);
		memcpy(table->text, start, said);
		table->text[said] = '\0';
		if (table->text[strspn(table->text, " \t\r")] != '\0')
			return cut(table);
	}
	return false;
}

bool
table_number(const char *text, int64_t most, int64_t *number)
{
	int64_t value = 0;
	if (*text == '\0')
		return false;
	for (; *text != '\0'; text++) {
		if (*text < '0' || *text > '9' || value > (most - (*text - '0')) / 10)
			return false;
		value = 10 * value + (*text - '0');
	}
	*number = value;
	return true;
}
