#include "choice.h"

#include "doubting.h"
#include "field.h"
#include "json.h"
#include "meaning.h"
#include "phrase.h"
#include "pieces.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* It was said of the piece of a set that was in hand, as what was understood was. */
static void
put_under_piece(const struct vocabulary *vocabulary, const struct call *understood,
		struct call *meant)
{
	const char *beside = understood->type == CALL_MEASURE ? understood->name : understood->part;
	if (meant->type == CALL_MEASURE)
		pieces_put_under(vocabulary, beside, meant->name, sizeof meant->name);
	else if (meant->type == CALL_FLAW && !meant->none)
		pieces_put_under(vocabulary, beside, meant->part, sizeof meant->part);
}

/* What a reading of the whole utterance says in place of one of its calls. */
static bool
read_choice(struct desk *desk, const char *text, const struct past_call *call,
	    const struct utterance_place *place, struct call *meant)
{
	struct words words;
	struct meaning meaning;
	struct meaning_setting setting = {.unit = desk->typed.unit};
	memcpy(setting.currency, desk->typed.currency, sizeof setting.currency);
	if (!words_split(&words, text) ||
	    !meaning_read(desk->setting.vocabulary, &setting, &words, &meaning) ||
	    meaning.count != place->count || place->index >= meaning.count)
		return false;
	*meant = meaning.calls[place->index];
	/* A bare value was said of the measure that was asked for. */
	if (meant->type == CALL_MEASURE && meant->name[0] == '\0')
		memcpy(meant->name, call->meaning.name, sizeof meant->name);
	put_under_piece(desk->setting.vocabulary, &call->meaning, meant);
	return field_writes(meant);
}

static bool
is_new(const struct past_call *call, const struct choice *choices, int count,
       const struct call *meant)
{
	if (call->has_meaning && call_same(&call->meaning, meant))
		return false;
	for (int i = 0; i < count; i++)
		if (call_same(&choices[i].call, meant))
			return false;
	return true;
}

static int
read_choices(struct desk *desk, const struct past_call *call, const json_t *readings,
	     const struct utterance_place *place, struct choice *choices)
{
	int count = 0;
	for (size_t i = 0; i < json_array_size(readings) && count < CHOICES_MAX - 1; i++) {
		const json_t *reading = json_array_get(readings, i);
		const char *words = json_member_text(reading, "text");
		struct choice *choice = &choices[count];
		if (words == NULL || !read_choice(desk, words, call, place, &choice->call) ||
		    !is_new(call, choices, count, &choice->call))
			continue;
		phrase_written(&choice->call, choice->written, sizeof choice->written);
		snprintf(choice->text, sizeof choice->text, "%s", words);
		choice->confidence = json_number_value(json_object_get(reading, "confidence"));
		count++;
	}
	return count;
}

/* "Inches or centimetres?" */
static int
add_other_unit(struct desk *desk, const struct record *record, const struct past_call *call,
	       struct choice *choices, int count)
{
	struct doubt doubt;
	struct choice *choice = &choices[count];
	if (record == NULL || !call->has_meaning ||
	    !doubting(desk, record, &call->meaning, &doubt) || !doubt.has_second ||
	    !is_new(call, choices, count, &doubt.second))
		return count;
	*choice = (struct choice){.call = doubt.second};
	phrase_written(&choice->call, choice->written, sizeof choice->written);
	return count + 1;
}

int
choices_of(struct desk *desk, const struct record *record, const struct past_call *call,
	   struct choice *choices)
{
	struct utterance_place place;
	char *text = call->known.utterance == 0
			     ? NULL
			     : review_alternatives(desk->review, call->known.call);
	json_t *readings = text == NULL ? NULL : json_loads(text, 0, NULL);
	free(text);
	int count = json_array_size(readings) > 0 &&
				    review_place(desk->review, call->known.call, &place)
			    ? read_choices(desk, call, readings, &place, choices)
			    : 0;
	json_decref(readings);
	return add_other_unit(desk, record, call, choices, count);
}

json_t *
choices_json(struct desk *desk, const struct choice *choices, int count)
{
	json_t *array = json_array();
	for (int i = 0; i < count; i++) {
		const struct choice *choice = &choices[i];
		char field[FIELD_NAME_MAX], value[512];
		field_name(&choice->call, 0, field);
		typed_write(&desk->typed, &choice->call, value, sizeof value);
		json_t *json = json_object();
		json_object_set_new(json, "choice", json_words(choice->written));
		json_object_set_new(json, "text", json_words(choice->text));
		json_object_set_new(json, "confidence", json_real(choice->confidence));
		json_object_set_new(json, "field", json_words(field));
		json_object_set_new(json, "value", json_words(value));
		json_array_append_new(array, json);
	}
	return array;
}
