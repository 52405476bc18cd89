/* Two meanings as a question about what differs. */
#include "phrase.h"
#include "phrase_part.h"

#include <string.h>

enum { FIELD_TEXT_MAX = 160, WHOLE_TEXT_MAX = 640 };

static void
say_order(const struct call *call, struct line *line)
{
	if (call->type == CALL_ORDER)
		line_add(line, order_name(call->order));
}

static void
say_name(const struct call *call, struct line *line)
{
	if (call->type == CALL_SIZE || (call->type == CALL_KEEP && call->kept == CALL_SIZE))
		phrase_size(call->name, line);
	else
		line_add(line, call->name);
	if (call->other)
		line_add(line, "other");
}

static void
say_length(const struct call *call, struct line *line)
{
	phrase_length(call, false, line);
}

static void
say_unit(const struct call *call, struct line *line)
{
	if (call->has_length)
		line_add(line, call->length.unit == LENGTH_INCH ? "inches" : "centimetres");
}

static void
say_size(const struct call *call, struct line *line)
{
	line_add(line, flaw_size_name(call->size));
}

static void
say_side(const struct call *call, struct line *line)
{
	line_add(line, side_name(call->side));
}

static void
say_face(const struct call *call, struct line *line)
{
	line_add(line, face_name(call->face));
}

static void
say_part(const struct call *call, struct line *line)
{
	line_add(line, call->part);
}

static void
say_label(const struct call *call, struct line *line)
{
	if (call->label[0] != '\0')
		phrase_label(call->label, line);
}

static void
say_count(const struct call *call, struct line *line)
{
	phrase_count(call->count, line);
}

static void
say_listed(const struct call *call, struct line *line)
{
	if (call->type != CALL_PART)
		phrase_listed(call, line);
}

static void
say_struck_flaw(const struct call *call, struct line *line)
{
	line_add(line, call->flaw);
}

static void
say_topic(const struct call *call, struct line *line)
{
	line_add(line, call->topic);
}

static void
say_money(const struct call *call, struct line *line)
{
	if (call->money.currency[0] != '\0')
		phrase_money(call->money, line);
}

static void
say_grade(const struct call *call, struct line *line)
{
	if (call->grade_halves > 0)
		phrase_grade(call->grade_halves, line);
}

static void
say_weight(const struct call *call, struct line *line)
{
	if (call->grams > 0)
		phrase_weight(call->grams, line);
}

static void
say_answer(const struct call *call, struct line *line)
{
	if (call->type == CALL_ANSWER)
		line_add(line, phrase_answer(call->choice));
}

/* What a call may be told apart by. A field that a call does not have is silent. */
static void (*const fields[])(const struct call *, struct line *) = {
	say_order, say_name,   say_length, say_unit,	    say_size,	say_side,
	say_face,  say_part,   say_label,  say_struck_flaw, say_topic,	say_money,
	say_grade, say_weight, say_answer, say_count,	    say_listed,
};

/* The differences between two calls: how many, and the last one in words. */
struct difference {
	int count;
	bool unit, name, lacking;
	char first[FIELD_TEXT_MAX], second[FIELD_TEXT_MAX];
};

static void
difference_add(struct difference *difference, const char *first, const char *second)
{
	if (strcmp(first, second) == 0)
		return;
	difference->count++;
	difference->lacking |= first[0] == '\0' || second[0] == '\0';
	memcpy(difference->first, first, FIELD_TEXT_MAX);
	memcpy(difference->second, second, FIELD_TEXT_MAX);
}

static void
compare_fields(const struct call *first, const struct call *second, struct difference *difference)
{
	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
		char one[FIELD_TEXT_MAX] = "", other[FIELD_TEXT_MAX] = "";
		struct line line = line_start(one, sizeof one);
		/* where one has no length, it is not the unit that is in doubt */
		if (fields[i] == say_unit && first->has_length != second->has_length)
			continue;
		fields[i](first, &line);
		line = line_start(other, sizeof other);
		fields[i](second, &line);
		int before = difference->count;
		difference_add(difference, one, other);
		difference->unit |= fields[i] == say_unit && difference->count > before;
		difference->name |= fields[i] == say_name && difference->count > before;
	}
}

static void
compare_cloth(const struct call *first, const struct call *second, struct difference *difference)
{
	if (first->fibre_count != second->fibre_count) {
		difference->count++;
		difference->lacking = true;
		return;
	}
	for (int i = 0; i < first->fibre_count; i++) {
		const struct fibre *one = &first->fibres[i], *other = &second->fibres[i];
		char here[FIELD_TEXT_MAX] = "", there[FIELD_TEXT_MAX] = "";
		struct line line = line_start(here, sizeof here);
		phrase_percent(one, &line);
		line = line_start(there, sizeof there);
		phrase_percent(other, &line);
		difference_add(difference, here, there);
		line = line_start(here, sizeof here);
		line_add(&line, one->section);
		line_add(&line, one->name);
		line = line_start(there, sizeof there);
		line_add(&line, other->section);
		line_add(&line, other->name);
		difference_add(difference, here, there);
	}
}

void
phrase_question(const struct call *first, const struct call *second, char *text, size_t size)
{
	struct line line = line_start(text, size);
	struct difference difference = {0};
	char one[WHOLE_TEXT_MAX], other[WHOLE_TEXT_MAX];

	compare_fields(first, second, &difference);
	compare_cloth(first, second, &difference);
	/* The name of a measure is what its value stands on: without it the value says nothing. */
	bool names_only =
		difference.name && (first->type == CALL_MEASURE || first->type == CALL_ORDER);
	bool one_field = first->type == second->type && first->kept == second->kept &&
			 difference.count == 1 && !difference.lacking && !names_only;
	if (one_field) {
		line_add(&line, difference.first);
		line_add(&line, "or");
		line_add(&line, difference.second);
		line_join(&line, "?");
		return;
	}
	enum phrase_detail detail = difference.unit ? PHRASE_FULL : PHRASE_NAMED;
	phrase_call(first, detail, one, sizeof one);
	phrase_call(second, detail, other, sizeof other);
	line_add(&line, one);
	if (strcmp(one, other) != 0) {
		line_join(&line, ",");
		line_add(&line, "or");
		line_add(&line, other);
	}
	line_join(&line, "?");
}
