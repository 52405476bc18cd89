#include "call_json.h"

#include <stdio.h>
#include <string.h>

/* Sets a field where the text says something. */
static void
set_said(json_t *object, const char *key, const char *text)
{
	if (text != NULL && text[0] != '\0')
		json_object_set_new(object, key, json_string(text));
}

static void
set_true(json_t *object, const char *key, bool value)
{
	if (value)
		json_object_set_new(object, key, json_true());
}

static void
set_integer(json_t *object, const char *key, int64_t value)
{
	json_object_set_new(object, key, json_integer(value));
}

/* A name, "other" where it is off the list; null where there is none (a bare value). */
static void
set_name(json_t *object, const char *key, const struct call *call)
{
	const char *name = call->other ? "other" : call->name;
	json_object_set_new(object, key, name[0] == '\0' ? json_null() : json_string(name));
	set_true(object, "other", call->other);
}

static void
set_length(json_t *object, const struct call *call)
{
	char value[32];

	if (!call->has_length)
		return;
	length_value(call->length, value, sizeof value);
	set_said(object, "value", value);
	set_said(object, "unit", length_unit_name(call->length.unit));
	set_integer(object, "um", length_um(call->length));
	set_true(object, "unit_said", call->unit_said);
}

static void
set_place(json_t *object, const struct call *call)
{
	set_said(object, "side", side_name(call->side));
	set_said(object, "face", face_name(call->face));
	set_said(object, "part", call->part);
}

static void
set_flaw(json_t *object, const struct call *call)
{
	if (call->none) {
		set_said(object, "flaw", "none");
		return;
	}
	set_name(object, "flaw", call);
	set_said(object, "size", flaw_size_name(call->size));
	if (call->count > 0)
		set_integer(object, "count", call->count);
	set_length(object, call);
	set_place(object, call);
}

static void
set_cloth(json_t *object, const struct call *call)
{
	if (call->other) {
		set_true(object, "other", true);
		return;
	}
	json_t *fibres = json_array();
	for (int i = 0; i < call->fibre_count; i++) {
		json_t *fibre = json_object();
		set_integer(fibre, "percent", call->fibres[i].percent);
		set_said(fibre, "fibre", call->fibres[i].name);
		set_said(fibre, "section", call->fibres[i].section);
		json_array_append_new(fibres, fibre);
	}
	json_object_set_new(object, "fibres", fibres);
}

static void
set_grade(json_t *object, const struct call *call)
{
	char grade[16];
	int low = call->grade_halves / 2;
	if (call->grade_halves % 2 == 0)
		snprintf(grade, sizeof grade, "%d", low);
	else
		snprintf(grade, sizeof grade, "%d-%d", low, low + 1);
	set_said(object, "grade", grade);
}

static void
set_money(json_t *object, const struct call *call)
{
	set_integer(object, "minor", call->money.minor);
	set_said(object, "currency", call->money.currency);
	if (call->has_second)
		set_integer(object, "or_minor", call->money_second.minor);
}

/* The names as texts; with `inner`, each as an object that has it there, and its minutes. */
static void
set_listed(json_t *object, const char *key, const char *inner, const struct call *call)
{
	json_t *list = json_array();
	for (int i = 0; i < call->listed_count; i++) {
		json_t *one = inner == NULL ? json_string(call->listed[i].name) : json_object();
		if (inner != NULL)
			set_said(one, inner, call->listed[i].name);
		if (inner != NULL && call->listed[i].minutes > 0)
			set_integer(one, "minutes", call->listed[i].minutes);
		json_array_append_new(list, one);
	}
	json_object_set_new(object, key, list);
}

static void
set_mending(json_t *object, const struct call *call)
{
	if (call->other) {
		set_true(object, "other", true);
		return;
	}
	set_listed(object, "mends", "mend", call);
	if (call->money.currency[0] != '\0')
		set_money(object, call);
}

/* "strike flaw left cuff" has the fields of a flaw, with a null name where none was said. */
static void
set_order(json_t *object, const struct call *call)
{
	set_said(object, "order", order_name(call->order));
	set_said(object, "label", call->label);
	set_said(object, "topic", call->topic);
	if (call->order == ORDER_STRIKE && strcmp(call->name, "flaw") == 0) {
		json_object_set_new(object, "flaw",
				    call->flaw[0] == '\0' ? json_null() : json_string(call->flaw));
		set_place(object, call);
	} else {
		set_said(object, call->order == ORDER_STRIKE ? "measure" : "name", call->name);
	}
}

static void
set_kept(json_t *object, const struct call *call)
{
	struct call what = *call;
	if (call->kept == CALL_KEEP) {
		json_object_set_new(object, "what", json_null());
		return;
	}
	what.type = call->kept;
	what.kept = (enum call_type)0;
	what.correction = false;
	json_object_set_new(object, "what", call_to_json(&what));
}

static void
set_fields(json_t *object, const struct call *call)
{
	switch (call->type) {
	case CALL_KIND:
	case CALL_MAKER:
	case CALL_SIZE:
	case CALL_COLOUR:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
		set_name(object, "name", call);
		set_true(object, "spelled", call->spelled);
		break;
	case CALL_CARE:
		set_listed(object, "care", NULL, call);
		break;
	case CALL_MENDING:
		set_mending(object, call);
		break;
	case CALL_PART:
		set_name(object, "name", call);
		set_listed(object, "parts", NULL, call);
		break;
	case CALL_MEASURE:
		set_name(object, "measure", call);
		set_true(object, "none", call->none);
		set_length(object, call);
		break;
	case CALL_FLAW:
		set_flaw(object, call);
		break;
	case CALL_ITEM:
	case CALL_BIN:
		set_said(object, "label", call->label);
		break;
	case CALL_CLOTH:
		set_cloth(object, call);
		break;
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
		set_grade(object, call);
		break;
	case CALL_WEIGHT:
		set_integer(object, "g", call->grams);
		break;
	case CALL_COST:
	case CALL_PRICE:
		set_money(object, call);
		break;
	case CALL_KEEP:
		set_kept(object, call);
		break;
	case CALL_ORDER:
		set_order(object, call);
		break;
	case CALL_ANSWER:
		set_integer(object, "choice", call->choice);
		break;
	case CALL_NOTE:
	case CALL_TYPES:
		break;
	}
}

json_t *
call_to_json(const struct call *call)
{
	json_t *object = json_object();
	set_said(object, "type", call_type_name(call->type));
	set_fields(object, call);
	set_true(object, "correction", call->correction);
	return object;
}
