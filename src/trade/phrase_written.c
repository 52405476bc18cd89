/* Calls as text to be read: digits, signs of units, names with their capitals. */
#include "phrase.h"
#include "phrase_part.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { PART_MAX = 128 };

static void
write_length(const struct call *call, struct line *line)
{
	char value[PART_MAX];

	if (call->none)
		line_add(line, "none");
	if (!call->has_length)
		return;
	length_value(call->length, value, sizeof value);
	line_add(line, value);
	line_add(line, length_unit_name(call->length.unit));
}

/* "orlscombe and daughters" as a name: Orlscombe and Daughters. */
static void
write_maker(const char *name, struct line *line)
{
	char title[CALL_NAME_MAX];
	snprintf(title, sizeof title, "%s", name);
	for (char *word = title; word != NULL && *word != '\0';) {
		if (strncmp(word, "and ", 4) != 0 && strncmp(word, "of ", 3) != 0 &&
		    strncmp(word, "the ", 4) != 0)
			*word = (char)toupper((unsigned char)*word);
		word = strchr(word, ' ');
		word = word == NULL ? NULL : word + 1;
	}
	line_add(line, title);
}

static void
write_flaw(const struct call *call, struct line *line)
{
	char times[32];
	line_join(line, ":");
	if (call->none) {
		line_add(line, "none");
		return;
	}
	line_add(line, flaw_size_name(call->size));
	line_add(line, call->other ? "other" : call->name);
	if (call->count > 0) {
		snprintf(times, sizeof times, "times %d", call->count);
		line_add(line, times);
	}
	write_length(call, line);
	if (call->side == SIDE_UNSAID && call->face == FACE_UNSAID && call->part[0] == '\0')
		return;
	line_join(line, ",");
	phrase_place(call, line);
}

static void
write_cloth(const struct call *call, struct line *line)
{
	const char *section = "";
	for (int i = 0; i < call->fibre_count; i++) {
		const struct fibre *fibre = &call->fibres[i];
		char share[PART_MAX];
		if (i > 0)
			line_join(line, ",");
		if (strcmp(section, fibre->section) != 0)
			line_add(line, fibre->section);
		section = fibre->section;
		snprintf(share, sizeof share, "%d %% %s", fibre->percent, fibre->name);
		line_add(line, share);
	}
}

static void
write_money(const struct money *money, struct line *line)
{
	char amount[PART_MAX];
	money_format(*money, amount, sizeof amount);
	line_add(line, amount);
	line_add(line, money->currency);
}

/* "wash thirty, do not bleach"; "new zip 30 minutes, materials 4.50 USD". */
static void
write_listed(const struct call *call, struct line *line)
{
	char minutes[32];
	for (int i = 0; i < call->listed_count; i++) {
		if (i > 0)
			line_join(line, ",");
		line_add(line, call->listed[i].name);
		if (call->listed[i].minutes == 0)
			continue;
		snprintf(minutes, sizeof minutes, "%d minute%s", call->listed[i].minutes,
			 call->listed[i].minutes == 1 ? "" : "s");
		line_add(line, minutes);
	}
	if (call->money.currency[0] == '\0')
		return;
	line_join(line, ",");
	line_add(line, "materials");
	write_money(&call->money, line);
}

static void
write_grade(int grade_halves, struct line *line)
{
	char grade[PART_MAX];
	int low = grade_halves / 2;
	if (grade_halves % 2 == 0)
		snprintf(grade, sizeof grade, "%d", low);
	else
		snprintf(grade, sizeof grade, "%d-%d", low, low + 1);
	line_add(line, grade);
}

static void
write_order(const struct call *call, struct line *line)
{
	line_add(line, order_name(call->order));
	line_add(line, call->name);
	line_add(line, call->flaw);
	phrase_place(call, line);
	line_add(line, call->topic);
	line_add(line, call->label);
}

static void
write_call(const struct call *call, enum call_type type, struct line *line)
{
	char weight[PART_MAX];

	if (type != CALL_MEASURE && type != CALL_ORDER && type != CALL_ANSWER && type != CALL_KEEP)
		line_add(line, call_type_name(type));
	if (call->other && type != CALL_FLAW) {
		line_add(line, "other");
		return;
	}
	switch (type) {
	case CALL_MEASURE:
		line_add(line, call->name);
		write_length(call, line);
		break;
	case CALL_MAKER:
		write_maker(call->name, line);
		break;
	case CALL_KIND:
	case CALL_SIZE:
	case CALL_COLOUR:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
	case CALL_PART:
		line_add(line, call->name);
		break;
	case CALL_CARE:
	case CALL_MENDING:
		write_listed(call, line);
		break;
	case CALL_FLAW:
		write_flaw(call, line);
		break;
	case CALL_ITEM:
	case CALL_BIN:
		line_add(line, call->label);
		break;
	case CALL_CLOTH:
		write_cloth(call, line);
		break;
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
		write_grade(call->grade_halves, line);
		break;
	case CALL_WEIGHT:
		snprintf(weight, sizeof weight, "%d g", (int)call->grams);
		line_add(line, weight);
		break;
	case CALL_COST:
	case CALL_PRICE:
		write_money(&call->money, line);
		break;
	case CALL_KEEP:
		line_add(line, "nothing");
		break;
	case CALL_ORDER:
		write_order(call, line);
		break;
	case CALL_ANSWER:
		line_add(line, phrase_answer(call->choice));
		break;
	case CALL_NOTE:
	case CALL_TYPES:
		break;
	}
}

void
phrase_written(const struct call *call, char *text, size_t size)
{
	struct line line = line_start(text, size);

	if (call->type == CALL_KEEP)
		line_add(&line, "keep");
	write_call(call, call->type == CALL_KEEP ? call->kept : call->type, &line);
}
