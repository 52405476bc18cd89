/* A call from the JSON object that call_json.c makes of it. Whatever a field holds that no call can
 * (a text too long, a grade of 7, a length of "x") makes the whole object no call. */
#include "call_json.h"

#include <string.h>

/* Copies a text field; an absent or null one is empty. False when it is no text or too long. */
static bool
get_text(const json_t *object, const char *key, char *text, size_t size)
{
	const json_t *value = json_object_get(object, key);
	text[0] = '\0';
	if (value == NULL || json_is_null(value))
		return true;
	if (!json_is_string(value) || json_string_length(value) >= size ||
	    strlen(json_string_value(value)) != json_string_length(value))
		return false;
	strcpy(text, json_string_value(value));
	return true;
}

static bool
get_filled(const json_t *object, const char *key, char *text, size_t size)
{
	return get_text(object, key, text, size) && text[0] != '\0';
}

static bool
get_integer(const json_t *object, const char *key, int64_t least, int64_t most, int64_t *value)
{
	const json_t *field = json_object_get(object, key);
	if (!json_is_integer(field))
		return false;
	*value = json_integer_value(field);
	return *value >= least && *value <= most;
}

static bool
get_flag(const json_t *object, const char *key)
{
	return json_is_true(json_object_get(object, key));
}

/* `optional`: a bare value has no name. */
static bool
get_name(const json_t *object, const char *key, bool optional, struct call *call)
{
	if (!get_text(object, key, call->name, sizeof call->name))
		return false;
	call->other = get_flag(object, "other");
	if (call->other)
		call->name[0] = '\0';
	return optional || call->other || call->name[0] != '\0';
}

static bool
get_length(const json_t *object, struct call *call)
{
	char value[32], unit_name[8];
	enum length_unit unit;

	call->has_length = json_object_get(object, "value") != NULL &&
			   !json_is_null(json_object_get(object, "value"));
	if (!call->has_length)
		return true;
	call->unit_said = get_flag(object, "unit_said");
	return get_filled(object, "value", value, sizeof value) &&
	       get_filled(object, "unit", unit_name, sizeof unit_name) &&
	       length_unit_parse(unit_name, &unit) && length_parse(value, unit, &call->length);
}

static bool
get_place(const json_t *object, struct call *call)
{
	char side[16], face[16];

	if (!get_text(object, "side", side, sizeof side) ||
	    !get_text(object, "face", face, sizeof face) ||
	    !get_text(object, "part", call->part, sizeof call->part))
		return false;
	call->side = side_parse(side);
	call->face = face_parse(face);
	return (side[0] == '\0' || call->side != SIDE_UNSAID) &&
	       (face[0] == '\0' || call->face != FACE_UNSAID);
}

static bool
get_measure(const json_t *object, struct call *call)
{
	call->none = get_flag(object, "none");
	return get_name(object, "measure", true, call) && get_length(object, call) &&
	       call->none != call->has_length;
}

static bool
get_flaw(const json_t *object, struct call *call)
{
	char size[16];
	int64_t count;

	if (!get_name(object, "flaw", false, call))
		return false;
	if (strcmp(call->name, "none") == 0) {
		call->name[0] = '\0';
		call->none = true;
		return true;
	}
	if (!get_text(object, "size", size, sizeof size))
		return false;
	call->size = flaw_size_parse(size);
	if (json_object_get(object, "count") != NULL) {
		if (!get_integer(object, "count", 2, 99, &count))
			return false;
		call->count = (int)count;
	}
	return (size[0] == '\0' || call->size != SIZE_UNSAID) && get_length(object, call) &&
	       get_place(object, call);
}

static bool
get_cloth(const json_t *object, struct call *call)
{
	const json_t *fibres = json_object_get(object, "fibres");

	call->other = get_flag(object, "other");
	if (call->other)
		return true;
	size_t count = json_array_size(fibres);
	if (count == 0 || count > CALL_FIBRES_MAX)
		return false;
	for (size_t i = 0; i < count; i++) {
		const json_t *row = json_array_get(fibres, i);
		struct fibre *fibre = &call->fibres[i];
		int64_t percent;
		if (!get_integer(row, "percent", 1, 100, &percent) ||
		    !get_filled(row, "fibre", fibre->name, sizeof fibre->name) ||
		    !get_text(row, "section", fibre->section, sizeof fibre->section))
			return false;
		fibre->percent = (int)percent;
	}
	call->fibre_count = (int)count;
	return true;
}

/* "5", or "3-4". */
static bool
get_grade(const json_t *object, struct call *call)
{
	char grade[8];

	if (!get_filled(object, "grade", grade, sizeof grade) || grade[0] < '1' || grade[0] > '5')
		return false;
	call->grade_halves = 2 * (grade[0] - '0');
	if (grade[1] == '\0')
		return true;
	call->grade_halves++;
	return grade[1] == '-' && grade[2] == grade[0] + 1 && grade[2] <= '5' && grade[3] == '\0';
}

static bool
get_money(const json_t *object, struct call *call)
{
	if (!get_integer(object, "minor", 0, INT64_MAX, &call->money.minor) ||
	    !get_filled(object, "currency", call->money.currency, sizeof call->money.currency))
		return false;
	call->has_second = json_object_get(object, "or_minor") != NULL;
	if (!call->has_second)
		return true;
	memcpy(call->money_second.currency, call->money.currency, sizeof call->money.currency);
	return get_integer(object, "or_minor", 0, INT64_MAX, &call->money_second.minor);
}

/* As set_listed writes it; an absent one is empty. */
static bool
get_listed(const json_t *object, const char *key, const char *inner, struct call *call)
{
	const json_t *list = json_object_get(object, key);
	size_t count = json_array_size(list);
	int64_t minutes;

	if (count > CALL_LISTED_MAX || (list != NULL && !json_is_array(list)))
		return false;
	for (size_t i = 0; i < count; i++) {
		const json_t *one = json_array_get(list, i);
		struct listed *listed = &call->listed[i];
		const json_t *name = inner == NULL ? one : json_object_get(one, inner);
		if (!json_is_string(name) || json_string_length(name) == 0 ||
		    json_string_length(name) >= sizeof listed->name ||
		    strlen(json_string_value(name)) != json_string_length(name))
			return false;
		strcpy(listed->name, json_string_value(name));
		if (inner == NULL || json_object_get(one, "minutes") == NULL)
			continue;
		if (!get_integer(one, "minutes", 1, CALL_MINUTES_MAX, &minutes))
			return false;
		listed->minutes = (int)minutes;
	}
	call->listed_count = (int)count;
	return true;
}

static bool
get_mending(const json_t *object, struct call *call)
{
	call->other = get_flag(object, "other");
	if (call->other)
		return true;
	return get_listed(object, "mends", "mend", call) && call->listed_count > 0 &&
	       (json_object_get(object, "minor") == NULL || get_money(object, call));
}

static bool
get_order(const json_t *object, struct call *call)
{
	char order[32];

	if (!get_filled(object, "order", order, sizeof order))
		return false;
	call->order = order_parse(order);
	if (call->order == ORDERS || !get_text(object, "label", call->label, sizeof call->label) ||
	    !get_text(object, "topic", call->topic, sizeof call->topic))
		return false;
	if (json_object_get(object, "flaw") == NULL)
		return get_text(object, call->order == ORDER_STRIKE ? "measure" : "name",
				call->name, sizeof call->name);
	strcpy(call->name, "flaw");
	return get_text(object, "flaw", call->flaw, sizeof call->flaw) && get_place(object, call);
}

static bool
get_kept(const json_t *object, struct call *call)
{
	const json_t *what = json_object_get(object, "what");

	if (json_is_null(what)) {
		call->kept = CALL_KEEP;
		return true;
	}
	if (!json_is_object(what) || json_object_get(what, "what") != NULL ||
	    !call_from_json(what, call))
		return false;
	call->kept = call->type;
	call->type = CALL_KEEP;
	return call->kept != CALL_KEEP;
}

static bool
get_fields(const json_t *object, struct call *call)
{
	int64_t number = 0;
	bool good;

	switch (call->type) {
	case CALL_KIND:
	case CALL_SIZE:
	case CALL_COLOUR:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
		return get_name(object, "name", false, call);
	case CALL_MAKER:
		call->spelled = get_flag(object, "spelled");
		return get_name(object, "name", false, call);
	case CALL_CARE:
		return get_listed(object, "care", NULL, call) && call->listed_count > 0;
	case CALL_MENDING:
		return get_mending(object, call);
	case CALL_PART:
		return get_name(object, "name", false, call) &&
		       get_listed(object, "parts", NULL, call);
	case CALL_MEASURE:
		return get_measure(object, call);
	case CALL_FLAW:
		return get_flaw(object, call);
	case CALL_ITEM:
	case CALL_BIN:
		return get_filled(object, "label", call->label, sizeof call->label);
	case CALL_CLOTH:
		return get_cloth(object, call);
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
		return get_grade(object, call);
	case CALL_WEIGHT:
		good = get_integer(object, "g", 0, INT32_MAX, &number);
		call->grams = (int32_t)number;
		return good;
	case CALL_COST:
	case CALL_PRICE:
		return get_money(object, call);
	case CALL_KEEP:
		return get_kept(object, call);
	case CALL_ORDER:
		return get_order(object, call);
	case CALL_ANSWER:
		good = get_integer(object, "choice", 0, 2, &number);
		call->choice = (int)number;
		return good;
	case CALL_NOTE:
		return true;
	case CALL_TYPES:
		break;
	}
	return false;
}

bool
call_from_json(const json_t *json, struct call *call)
{
	char type[24];

	memset(call, 0, sizeof *call);
	if (!json_is_object(json) || !get_filled(json, "type", type, sizeof type))
		return false;
	call->type = call_type_parse(type);
	if (!get_fields(json, call))
		return false;
	call->correction = get_flag(json, "correction");
	return true;
}
