#include "typed.h"

#include "csv_column.h"
#include "meaning.h"
#include "writeup_part.h"

#include <stdio.h>
#include <string.h>

static const struct csv_column *
column_of(enum call_type type)
{
	for (int i = 0; i < CSV_FIXED_COLUMNS; i++)
		if (csv_columns[i].type == type && type != CALL_TYPES)
			return &csv_columns[i];
	return NULL;
}

/* Without the blanks around it; false when it is longer than any value. */
static bool
trim(const char *typed, char *text, size_t size)
{
	typed += strspn(typed, " \t");
	size_t length = strlen(typed);
	while (length > 0 && (typed[length - 1] == ' ' || typed[length - 1] == '\t'))
		length--;
	if (length >= size)
		return false;
	memcpy(text, typed, length);
	text[length] = '\0';
	return true;
}

/* Whether it can be said as a measure's name. */
static bool
is_measure(const struct typed_setting *setting, const char *name)
{
	struct meaning_setting as = {.unit = setting->unit};
	char said[CALL_NAME_MAX + 16];
	struct words words;
	struct meaning meaning;

	memcpy(as.currency, setting->currency, sizeof as.currency);
	snprintf(said, sizeof said, "%s twenty", name);
	return name[0] != '\0' && words_split(&words, said) &&
	       meaning_read(setting->vocabulary, &as, &words, &meaning) && meaning.count == 1 &&
	       meaning.calls[0].type == CALL_MEASURE && strcmp(meaning.calls[0].name, name) == 0;
}

bool
typed_read(const struct typed_setting *setting, enum call_type type, const char *measure,
	   const char *typed, struct call *call, struct problem *problem)
{
	struct cell_setting cells = {.vocabulary = setting->vocabulary, .unit = setting->unit};
	const struct csv_column *column = column_of(type);
	char text[CSV_CELL_MAX];

	memcpy(cells.currency, setting->currency, sizeof cells.currency);
	if (type != CALL_MEASURE && column == NULL)
		return problem_say(problem, "there is no field for a %s", call_type_name(type));
	if (!trim(typed, text, sizeof text))
		return problem_say(problem, "%s: what was typed is too long",
				   type == CALL_MEASURE ? measure : column->name);
	if (text[0] == '\0')
		return problem_say(problem, "%s: nothing was typed",
				   type == CALL_MEASURE ? measure : column->name);
	if (type != CALL_MEASURE)
		return csv_cell_read(&cells, column, text, call, problem);
	if (!is_measure(setting, measure))
		return problem_say(problem, "\"%.60s\" is not on the list of measures", measure);
	return csv_measure_read(&cells, measure, text, "", call, problem);
}

static void
write_length(const struct typed_setting *setting, const struct call *call, char *text, size_t size)
{
	char value[32];
	if (call->none) {
		snprintf(text, size, "none");
		return;
	}
	length_value(call->length, value, sizeof value);
	bool unit_too = call->length.unit != setting->unit;
	snprintf(text, size, "%s%s%s", value, unit_too ? " " : "",
		 unit_too ? length_unit_name(call->length.unit) : "");
}

static void
write_money(const struct typed_setting *setting, const struct money *money, char *text, size_t size)
{
	char amount[32];
	money_format(*money, amount, sizeof amount);
	bool currency_too = strcmp(money->currency, setting->currency) != 0;
	snprintf(text, size, "%s%s%s", amount, currency_too ? " " : "",
		 currency_too ? money->currency : "");
}

/* "jacket, trousers": the pieces of a set, the one in hand last. */
static void
write_pieces(const struct call *part, struct text *to)
{
	if (part->listed_count == 0)
		text_add(to, part->name);
	for (int i = 0; i < part->listed_count; i++)
		text_add_format(to, "%s%s", i == 0 ? "" : ", ", part->listed[i].name);
}

void
typed_write(const struct typed_setting *setting, const struct call *call, char *text, size_t size)
{
	const struct csv_column *column = column_of(call->type);
	struct text value = {.chars = NULL};

	text[0] = '\0';
	if (call->type == CALL_MEASURE) {
		write_length(setting, call, text, size);
		return;
	}
	if (column == NULL)
		return;
	if (call->other && call->type != CALL_FLAW) {
		snprintf(text, size, "other");
		return;
	}
	if (column->way == CSV_OF_LABEL) {
		snprintf(text, size, "%s", call->label);
	} else if (column->way == CSV_OF_NAME) {
		snprintf(text, size, "%s", call->name);
	} else if (column->way == CSV_OF_MONEY) {
		write_money(setting, &call->money, text, size);
	} else {
		if (column->way == CSV_OF_PARTS)
			write_pieces(call, &value);
		else
			write_value(call, &value);
		snprintf(text, size, "%s", text_chars(&value));
		text_finish(&value);
	}
}

void
typed_show(const struct call *call, struct text *to)
{
	const struct csv_column *column = column_of(call->type);

	if (call->type == CALL_MEASURE && call->none)
		text_add(to, "none");
	else if (call->type == CALL_MEASURE)
		write_both_units(call->length, to);
	else if (column == NULL)
		return;
	else if (column->way == CSV_OF_LABEL)
		text_add(to, call->label);
	else if (column->way == CSV_OF_NAME)
		text_add(to, call->other ? "other" : call->name);
	else if (column->way == CSV_OF_PARTS)
		write_pieces(call, to);
	else
		write_value(call, to);
}
