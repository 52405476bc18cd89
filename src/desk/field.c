#include "field.h"

#include "choice.h"
#include "doubting.h"
#include "json.h"
#include "phrase.h"
#include "pieces.h"
#include "reading_order.h"
#include "set_piece.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* In the order in which they are read; the measures and flaws where they stand here. */
static const struct field_type {
	const char *name; /* of the page's field, and its heading */
	const char *type; /* the name of the call's type */
	const char *list; /* where suggestions come from */
} field_types[] = {
	{"number", "item", NULL},
	{"bin", "bin", "bin"},
	{"kind", "kind", "kind"},
	{"part", "part", "kind"},
	{"group", "group", "group"},
	{"maker", "maker", "maker"},
	{"size", "size", "size"},
	{"colour", "colour", "colour"},
	{"cloth", "cloth", "fibre"},
	{"care", "care", "care"},
	{"measure", "measure", NULL},
	{"flaw", "flaw", "flaw"},
	{"mending", "mending", "mending"},
	{"pilling", "pilling", NULL},
	{"colour change", "colour change", NULL},
	{"weight", "weight", NULL},
	{"cost", "cost", NULL},
	{"price", "price", NULL},
	{"parcel", "parcel", "parcel"},
	{"route", "route", "route"},
};

enum { FIELD_TYPES = sizeof field_types / sizeof *field_types };

static const struct field_type *
type_row(enum call_type type)
{
	const char *name = type < CALL_TYPES ? call_type_name(type) : "";
	for (int i = 0; i < FIELD_TYPES; i++)
		if (strcmp(field_types[i].type, name) == 0)
			return &field_types[i];
	return NULL;
}

bool
field_writes(const struct call *call)
{
	return type_row(call->type) != NULL &&
	       (call->type != CALL_MEASURE || call->name[0] != '\0');
}

void
field_name(const struct call *call, int64_t entry, char name[FIELD_NAME_MAX])
{
	const struct field_type *row = type_row(call->type);
	if (row == NULL)
		name[0] = '\0';
	else if (call->type == CALL_MEASURE)
		snprintf(name, FIELD_NAME_MAX, "measure:%s", call->name);
	else if (call->type == CALL_FLAW && entry != 0)
		snprintf(name, FIELD_NAME_MAX, "flaw:%lld", (long long)entry);
	else if (call->type == CALL_FLAW)
		snprintf(name, FIELD_NAME_MAX, "flaw:new");
	else
		snprintf(name, FIELD_NAME_MAX, "%s", row->name);
}

bool
field_parse(const char *name, struct field_place *place)
{
	static const char measure[] = "measure:", flaw[] = "flaw:";
	*place = (struct field_place){.type = CALL_TYPES};
	if (strncmp(name, measure, sizeof measure - 1) == 0) {
		place->type = CALL_MEASURE;
		const char *which = name + sizeof measure - 1;
		snprintf(place->measure, sizeof place->measure, "%s", which);
		return which[0] != '\0' && strlen(which) < sizeof place->measure;
	}
	if (strncmp(name, flaw, sizeof flaw - 1) == 0) {
		char *end;
		place->type = CALL_FLAW;
		if (strcmp(name + sizeof flaw - 1, "new") == 0)
			return true;
		place->flaw = strtoll(name + sizeof flaw - 1, &end, 10);
		return place->flaw > 0 && *end == '\0';
	}
	for (int i = 0; i < FIELD_TYPES; i++)
		if (strcmp(field_types[i].name, name) == 0)
			place->type = call_type_parse(field_types[i].type);
	return place->type != CALL_TYPES && place->type != CALL_MEASURE && place->type != CALL_FLAW;
}

const struct entry *
field_entry(const struct record *record, const struct field_place *place)
{
	if (place->type == CALL_MEASURE)
		return record_reading(record, place->measure);
	if (place->type != CALL_FLAW)
		return record_slot(record, place->type);
	for (int i = 0; i < record->entry_count; i++)
		if (record->entries[i].stands && place->flaw != 0 &&
		    record->entries[i].id == place->flaw)
			return &record->entries[i];
	return NULL;
}

/* How the tape lies: flat (the way round is twice the value), or straight along. */
static json_t *
shape_json(const struct desk *desk, const struct field_place *place)
{
	if (place->type != CALL_MEASURE)
		return json_null();
	return json_string(reading_is_flat(desk->setting.vocabulary, place->measure) ? "flat"
										     : "straight");
}

static json_t *
shown_json(const struct call *said)
{
	struct text text = {.chars = NULL};
	typed_show(said, &text);
	json_t *json = json_words(text_chars(&text));
	text_finish(&text);
	return json;
}

static bool
same_field(const struct call *said, int64_t entry, const struct field_place *place)
{
	if (said->type != place->type)
		return false;
	if (place->type == CALL_MEASURE)
		return strcmp(said->name, place->measure) == 0;
	return place->type != CALL_FLAW || (place->flaw != 0 && entry == place->flaw);
}

static const char *
act_name(enum deed_type type)
{
	static const char *const names[] = {[DEED_WROTE] = "wrote",
					    [DEED_STRUCK] = "struck",
					    [DEED_RESTORED] = "restored",
					    [DEED_MOVED] = "moved"};
	return names[type];
}

/* One line of the history: what stood in the field after the deed, "" for nothing. */
static json_t *
history_line(struct desk *desk, struct past_calls *calls, const struct deed *deed,
	     const struct call *after)
{
	const struct past_call *call = past_calls_find(desk, calls, deed->call);
	char value[512] = "";
	json_t *json = json_object();
	if (after != NULL)
		typed_write(&desk->typed, after, value, sizeof value);
	json_object_set_new(json, "at", json_time(call == NULL ? 0 : call->known.at_unix_ms));
	json_object_set_new(json, "who", json_said(call == NULL ? NULL : call->known.who));
	json_object_set_new(json, "source", json_words(call == NULL ? "" : call->known.source));
	json_object_set_new(json, "act", json_words(act_name(deed->type)));
	json_object_set_new(json, "value", json_words(value));
	json_object_set_new(json, "call", json_integer(deed->call));
	json_object_set_new(json, "text", json_words(call == NULL ? "" : call->known.text));
	return json;
}

static json_t *
history_json(struct desk *desk, const struct record *record, struct past_calls *calls,
	     const struct field_place *place)
{
	json_t *array = json_array();
	for (int d = 0; d < record->deed_count; d++) {
		const struct deed *deed = &record->deeds[d];
		const struct call *after = NULL;
		bool concerns = false;
		for (int f = 0; f < deed->flip_count; f++) {
			const struct entry *entry = &record->entries[deed->flips[f].entry];
			if (!same_field(&entry->said, entry->id, place))
				continue;
			concerns = true;
			after = deed->flips[f].stands ? &entry->said : after;
		}
		if (concerns)
			json_array_insert_new(array, 0, history_line(desk, calls, deed, after));
	}
	return array;
}

/* What was heard, what else it may have been, and whether it is doubtful. */
static void
add_evidence(struct desk *desk, const struct record *record, struct past_calls *calls,
	     const struct entry *entry, json_t *json)
{
	const struct past_call *call =
		entry == NULL ? NULL : past_calls_find(desk, calls, entry->call);
	struct choice *choices = calloc(CHOICES_MAX, sizeof *choices);
	struct doubt doubt;
	int count = call == NULL || choices == NULL ? 0 : choices_of(desk, record, call, choices);
	bool doubtful =
		entry != NULL && !entry->confirmed && doubting(desk, record, &entry->said, &doubt);
	json_object_set_new(json, "doubt", json_said(doubtful ? doubt.reason : NULL));
	json_object_set_new(json, "heard", call == NULL ? json_null() : past_call_json(call));
	json_object_set_new(json, "choices", choices_json(desk, choices, count));
	free(choices);
}

json_t *
field_json(struct desk *desk, const struct record *record, struct past_calls *calls,
	   const struct field_place *place)
{
	const struct entry *entry = field_entry(record, place);
	const struct field_type *row = type_row(place->type);
	struct call named = {.type = place->type};
	char name[FIELD_NAME_MAX], value[512] = "";
	memcpy(named.name, place->measure, sizeof named.name);
	field_name(&named, place->flaw, name);
	if (entry != NULL)
		typed_write(&desk->typed, &entry->said, value, sizeof value);
	json_t *json = json_object();
	json_object_set_new(json, "field", json_words(name));
	json_object_set_new(json, "type", json_words(row->name));
	json_object_set_new(json, "name",
			    json_words(place->type == CALL_MEASURE ? place->measure : row->name));
	json_object_set_new(json, "shape", shape_json(desk, place));
	json_object_set_new(json, "value", json_words(value));
	json_object_set_new(json, "written",
			    entry == NULL ? json_string("") : shown_json(&entry->said));
	json_object_set_new(json, "entry", json_integer(entry == NULL ? 0 : entry->id));
	json_object_set_new(json, "call", json_integer(entry == NULL ? 0 : entry->call));
	json_object_set_new(json, "confirmed", json_boolean(entry != NULL && entry->confirmed));
	json_object_set_new(json, "other", json_boolean(entry != NULL && entry->said.other));
	json_object_set_new(json, "list", json_said(row->list));
	json_object_set_new(json, "history", history_json(desk, record, calls, place));
	add_evidence(desk, record, calls, entry, json);
	return json;
}

static void
add_measure(struct desk *desk, const struct record *record, struct past_calls *calls,
	    const char *measure, bool wanted, json_t *array)
{
	struct field_place place = {.type = CALL_MEASURE};
	snprintf(place.measure, sizeof place.measure, "%s", measure);
	json_t *json = field_json(desk, record, calls, &place);
	json_object_set_new(json, "missing",
			    json_boolean(wanted && record_reading(record, measure) == NULL));
	json_object_set_new(json, "wanted", json_boolean(wanted));
	json_array_append_new(array, json);
}

/* The name of a measure that a piece calls for, by its place; too long a one is cut. */
static void
name_wanted(const struct vocabulary *vocabulary, const struct piece *piece, int index,
	    char name[CALL_NAME_MAX])
{
	int measure = piece->kind->wanted[index];
	piece_join(piece->name, vocabulary_term(vocabulary, LIST_MEASURE, measure)->name, name,
		   CALL_NAME_MAX);
}

static bool
is_wanted(const struct vocabulary *vocabulary, const struct piece *pieces, int count,
	  const char *measure)
{
	char name[CALL_NAME_MAX];
	for (int p = 0; p < count; p++) {
		for (int w = 0; w < pieces[p].kind->wanted_count; w++) {
			name_wanted(vocabulary, &pieces[p], w, name);
			if (strcmp(name, measure) == 0)
				return true;
		}
	}
	return false;
}

/* Those that the kind calls for, or the kinds of a set's pieces, measured or not, in the order of
 * asking; then what else was. */
static void
add_measures(struct desk *desk, const struct record *record, struct past_calls *calls,
	     json_t *array)
{
	const struct vocabulary *vocabulary = desk->setting.vocabulary;
	const struct entry *readings[RECORD_ENTRIES_MAX];
	struct piece pieces[CALL_LISTED_MAX];
	char name[CALL_NAME_MAX];
	int piece_count = pieces_of(vocabulary, record, pieces);
	int count = reading_order(record, vocabulary, readings);
	for (int p = 0; p < piece_count; p++) {
		const struct term *kind = pieces[p].kind;
		for (int w = 0; w < kind->wanted_count; w++) {
			const char *measure =
				vocabulary_term(vocabulary, LIST_MEASURE, kind->wanted[w])->name;
			name_wanted(vocabulary, &pieces[p], w, name);
			/* One side of it may have been measured in its place. */
			if (!record_measured(record, pieces[p].name, measure) ||
			    record_reading(record, name) != NULL)
				add_measure(desk, record, calls, name, true, array);
		}
	}
	for (int i = 0; i < count; i++)
		if (!is_wanted(vocabulary, pieces, piece_count, readings[i]->said.name))
			add_measure(desk, record, calls, readings[i]->said.name, false, array);
}

static void
add_flaws(struct desk *desk, const struct record *record, struct past_calls *calls, json_t *array)
{
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		struct field_place place = {.type = CALL_FLAW, .flaw = entry->id};
		if (entry->stands && entry->said.type == CALL_FLAW)
			json_array_append_new(array, field_json(desk, record, calls, &place));
	}
}

json_t *
fields_json(struct desk *desk, const struct record *record, struct past_calls *calls)
{
	json_t *array = json_array();
	for (int i = 0; i < FIELD_TYPES; i++) {
		struct field_place place = {.type = call_type_parse(field_types[i].type)};
		if (place.type == CALL_TYPES)
			continue; /* nothing of the kind can be said */
		if (place.type == CALL_PART && field_entry(record, &place) == NULL &&
		    !pieces_of_set(desk->setting.vocabulary, record))
			continue;
		if (place.type == CALL_MEASURE)
			add_measures(desk, record, calls, array);
		else if (place.type == CALL_FLAW)
			add_flaws(desk, record, calls, array);
		else
			json_array_append_new(array, field_json(desk, record, calls, &place));
	}
	return array;
}
