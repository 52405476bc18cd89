/* Calls as words to be said. */
#include "phrase.h"

#include "label.h"
#include "line.h"
#include "number.h"
#include "phrase_part.h"
#include "size_spoken.h"
#include "spelling.h"
#include "weight.h"

#include <string.h>

enum { PART_MAX = 128 };

void
phrase_length(const struct call *call, bool unit_too, struct line *line)
{
	char said[PART_MAX];

	if (call->none)
		line_add(line, "none");
	if (!call->has_length)
		return;
	length_say(call->length, said, sizeof said);
	line_add(line, said);
	if (unit_too)
		line_add(line, length_unit_say(call->length));
}

void
phrase_label(const char *label, struct line *line)
{
	char said[PART_MAX];
	label_say(label, said, sizeof said);
	line_add(line, said);
}

void
phrase_size(const char *size, struct line *line)
{
	char said[2 * PART_MAX];
	size_say(size, said, sizeof said);
	line_add(line, said);
}

void
phrase_count(int count, struct line *line)
{
	char said[PART_MAX];
	if (count == 0)
		return;
	number_say(count, said, sizeof said);
	line_add(line, "times");
	line_add(line, said);
}

void
phrase_listed(const struct call *call, struct line *line)
{
	char said[PART_MAX];
	for (int i = 0; i < call->listed_count; i++) {
		line_add(line, call->listed[i].name);
		if (call->listed[i].minutes == 0)
			continue;
		number_say(call->listed[i].minutes, said, sizeof said);
		line_add(line, said);
		line_add(line, call->listed[i].minutes == 1 ? "minute" : "minutes");
	}
}

void
phrase_percent(const struct fibre *fibre, struct line *line)
{
	char said[PART_MAX];
	number_say(fibre->percent, said, sizeof said);
	line_add(line, said);
	line_add(line, "percent");
}

void
phrase_grade(int grade_halves, struct line *line)
{
	char said[PART_MAX];
	number_say(grade_halves / 2, said, sizeof said);
	line_add(line, said);
	if (grade_halves % 2 == 0)
		return;
	number_say(grade_halves / 2 + 1, said, sizeof said);
	line_add(line, "to");
	line_add(line, said);
}

void
phrase_weight(int32_t grams, struct line *line)
{
	char said[PART_MAX];
	weight_say(grams, said, sizeof said);
	line_add(line, said);
}

void
phrase_money(struct money money, struct line *line)
{
	char said[PART_MAX];
	money_say(money, said, sizeof said);
	line_add(line, said);
}

const char *
phrase_answer(int choice)
{
	static const char *const answers[] = {"no", "first", "second"};
	return answers[choice >= 0 && choice <= 2 ? choice : 0];
}

void
phrase_place(const struct call *call, struct line *line)
{
	line_add(line, side_name(call->side));
	line_add(line, face_name(call->face));
	line_add(line, call->part);
}

static void
add_cloth(const struct call *call, struct line *line)
{
	const char *section = "";
	for (int i = 0; i < call->fibre_count; i++) {
		const struct fibre *fibre = &call->fibres[i];
		if (strcmp(section, fibre->section) != 0)
			line_add(line, fibre->section);
		section = fibre->section;
		phrase_percent(fibre, line);
		line_add(line, fibre->name);
	}
}

static void
add_flaw(const struct call *call, bool unit_too, struct line *line)
{
	if (call->none) {
		line_add(line, "none");
		return;
	}
	line_add(line, flaw_size_name(call->size));
	line_add(line, call->other ? "other" : call->name);
	phrase_count(call->count, line);
	phrase_length(call, unit_too, line);
	phrase_place(call, line);
}

static void
add_maker(const struct call *call, struct line *line)
{
	char said[8 * CALL_NAME_MAX];
	if (!call->spelled) {
		line_add(line, call->name);
		return;
	}
	spelling_say(call->name, said, sizeof said);
	line_add(line, "spell");
	line_add(line, said);
}

static void
add_mending(const struct call *call, struct line *line)
{
	phrase_listed(call, line);
	if (call->money.currency[0] == '\0')
		return;
	line_add(line, "materials");
	phrase_money(call->money, line);
}

static void
add_order(const struct call *call, struct line *line)
{
	line_add(line, order_name(call->order));
	line_add(line, call->name);
	line_add(line, call->flaw);
	phrase_place(call, line);
	line_add(line, call->topic);
	if (call->label[0] != '\0')
		phrase_label(call->label, line);
}

static void
add_value(const struct call *call, enum call_type type, bool unit_too, struct line *line)
{
	if (call->other && type != CALL_FLAW) {
		line_add(line, "other");
		return;
	}
	switch (type) {
	case CALL_KIND:
	case CALL_COLOUR:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
	case CALL_PART:
		line_add(line, call->name);
		break;
	case CALL_MAKER:
		add_maker(call, line);
		break;
	case CALL_SIZE: /* listed, a label such as "32x30", or an age */
		phrase_size(call->name, line);
		break;
	case CALL_CARE:
		phrase_listed(call, line);
		break;
	case CALL_MENDING:
		add_mending(call, line);
		break;
	case CALL_MEASURE:
		phrase_length(call, unit_too, line);
		break;
	case CALL_FLAW:
		add_flaw(call, unit_too, line);
		break;
	case CALL_ITEM:
	case CALL_BIN:
		phrase_label(call->label, line);
		break;
	case CALL_CLOTH:
		add_cloth(call, line);
		break;
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
		phrase_grade(call->grade_halves, line);
		break;
	case CALL_WEIGHT:
		phrase_weight(call->grams, line);
		break;
	case CALL_COST:
	case CALL_PRICE:
		phrase_money(call->money, line);
		break;
	case CALL_NOTE:
		line_add(line, "note");
		break;
	case CALL_KEEP:
		line_add(line, "nothing");
		break;
	case CALL_ORDER:
		add_order(call, line);
		break;
	case CALL_ANSWER:
		line_add(line, phrase_answer(call->choice));
		break;
	case CALL_TYPES:
		break;
	}
}

/* The word before the value; none where the value says it all. */
static const char *
opening(const struct call *call, enum call_type type)
{
	switch (type) {
	case CALL_MEASURE:
		return call->name;
	case CALL_NOTE:
	case CALL_KEEP:
	case CALL_ORDER:
	case CALL_ANSWER:
	case CALL_TYPES:
		return "";
	case CALL_KIND:
	case CALL_FLAW:
	case CALL_ITEM:
	case CALL_BIN:
	case CALL_MAKER:
	case CALL_SIZE:
	case CALL_COLOUR:
	case CALL_CLOTH:
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
	case CALL_WEIGHT:
	case CALL_COST:
	case CALL_PRICE:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
	case CALL_CARE:
	case CALL_MENDING:
	case CALL_PART:
		break;
	}
	return call_type_name(type);
}

void
phrase_call(const struct call *call, enum phrase_detail detail, char *text, size_t size)
{
	struct line line = line_start(text, size);
	enum call_type type = call->type;
	bool unit_too = detail == PHRASE_FULL || (detail == PHRASE_NAMED && call->unit_said);

	if (type == CALL_KEEP) {
		type = call->kept;
		if (detail != PHRASE_VALUE)
			line_add(&line, "keep");
	}
	if (detail != PHRASE_VALUE)
		line_add(&line, opening(call, type));
	add_value(call, type, unit_too, &line);
}
