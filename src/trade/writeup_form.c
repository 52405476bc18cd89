/* Reads the user's table of what a write-up says. */
#include "writeup_form.h"

#include "table.h"

#include <stdlib.h>
#include <string.h>

static const char *const section_names[] = {
	[FORM_TITLE] = "title", [FORM_DESCRIPTION] = "description", [FORM_TEXT] = "text"};

enum { SECTIONS = sizeof section_names / sizeof *section_names };

static bool
read_limit(struct writeup_form *form, struct table *table)
{
	int64_t limit;
	if (!table_number(table->columns[1], TITLE_LIMIT_MOST, &limit) || limit < TITLE_LIMIT_LEAST)
		return table_refuse(table, "the limit of a title has to be %d to %d letters",
				    TITLE_LIMIT_LEAST, TITLE_LIMIT_MOST);
	form->title_limit = (int)limit;
	return true;
}

static bool
add_row(struct writeup_form *form, enum form_section section, const char *pattern,
	struct table *table)
{
	if (form->row_count == FORM_ROWS_MAX)
		return table_refuse(table, "more than %d rows", FORM_ROWS_MAX);
	char *copy = strdup(pattern);
	if (copy == NULL)
		return table_refuse(table, "there is no memory left for it");
	form->rows[form->row_count++] = (struct form_row){section, copy};
	return true;
}

static bool
read_spelling(struct writeup_form *form, struct table *table)
{
	if (table->count != 3 || table->columns[1][0] == '\0' || table->columns[2][0] == '\0')
		return table_refuse(table, "spelling has to have a name, and how it is written");
	if (form_spelling(form, table->columns[1]) != NULL)
		return table_refuse(table, "how \"%s\" is written is said already",
				    table->columns[1]);
	if (form->spelling_count == FORM_SPELLINGS_MAX)
		return table_refuse(table, "more than %d spellings", FORM_SPELLINGS_MAX);
	struct form_spelling *spelling = &form->spellings[form->spelling_count++];
	spelling->name = strdup(table->columns[1]);
	spelling->written = strdup(table->columns[2]);
	if (spelling->name == NULL || spelling->written == NULL)
		return table_refuse(table, "there is no memory left for it");
	return true;
}

static bool
read_row(struct writeup_form *form, const struct vocabulary *vocabulary, struct table *table)
{
	struct problem wrong = {""};

	if (strcmp(table->columns[0], "spelling") == 0)
		return read_spelling(form, table);
	if (table->count > 2)
		return table_refuse(table, "a | stands in the words of the row");
	if (strcmp(table->columns[0], "limit") == 0)
		return read_limit(form, table);
	for (int i = 0; i < SECTIONS; i++) {
		if (strcmp(table->columns[0], section_names[i]) != 0)
			continue;
		if (!pattern_check(vocabulary, table->columns[1], i == FORM_TEXT, &wrong))
			return table_refuse(table, "%s", wrong.text);
		return add_row(form, (enum form_section)i, table->columns[1], table);
	}
	return table_refuse(table,
			    "\"%s\" is no row of a write-up: limit, title, description, text "
			    "or spelling",
			    table->columns[0]);
}

const char *
form_spelling(const struct writeup_form *form, const char *name)
{
	for (int i = 0; i < form->spelling_count; i++)
		if (strcmp(form->spellings[i].name, name) == 0)
			return form->spellings[i].written;
	return NULL;
}

struct writeup_form *
writeup_form_read(const struct vocabulary *vocabulary, const char *file, const char *text,
		  struct problem *problem)
{
	struct table table;
	struct writeup_form *form = calloc(1, sizeof *form);

	if (form == NULL) {
		problem_say(problem, "%s: there is no memory left for it", file);
		return NULL;
	}
	form->title_limit = TITLE_LIMIT_USUAL;
	table_start(&table, file, text, problem);
	while (table_next(&table))
		read_row(form, vocabulary, &table);
	if (!table.failed)
		return form;
	writeup_form_destroy(form);
	return NULL;
}

void
writeup_form_tell_how(struct writeup_form *form, writeup_how *how, const void *from)
{
	form->how = how;
	form->how_from = from;
}

void
writeup_form_destroy(struct writeup_form *form)
{
	if (form == NULL)
		return;
	for (int i = 0; i < form->row_count; i++)
		free(form->rows[i].pattern);
	for (int i = 0; i < form->spelling_count; i++) {
		free(form->spellings[i].name);
		free(form->spellings[i].written);
	}
	free(form);
}
