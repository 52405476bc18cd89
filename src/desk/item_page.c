/* One item, with all that is known of it. */
#include "answer.h"
#include "export_form.h"
#include "field.h"
#include "json.h"
#include "matter.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const struct money *
desk_asking(const struct desk *desk, const struct record *record, struct money *asking)
{
	return export_asking(desk->setting.rows, record, asking);
}

static void
add_writeup(struct desk *desk, const struct record *record, json_t *json)
{
	struct money amount;
	const struct money *asking = desk_asking(desk, record, &amount);
	char figures[32], text[48];
	bool written = writeup_write(desk->setting.writeup_form, desk->setting.vocabulary, record,
				     asking, &desk->writeup);
	const struct writeup *writeup = &desk->writeup;
	json_object_set_new(json, "title", json_words(written ? text_chars(&writeup->title) : ""));
	json_object_set_new(json, "description",
			    json_words(written ? text_chars(&writeup->description) : ""));
	json_object_set_new(json, "text", json_words(written ? text_chars(&writeup->text) : ""));
	json_object_set_new(json, "asking", json_null());
	if (asking == NULL)
		return;
	money_format(*asking, figures, sizeof figures);
	snprintf(text, sizeof text, "%s %s", figures, asking->currency);
	json_object_set_new(json, "asking", json_string(text));
}

static json_t *
note_json(struct desk *desk, struct past_calls *calls, const struct entry *entry)
{
	json_t *json = json_object();
	const struct past_call *note = past_calls_find(desk, calls, entry->call);
	int64_t settled_by = note == NULL ? 0 : note->known.settled_by;
	json_object_set_new(json, "call", json_integer(entry->call));
	json_object_set_new(json, "entry", json_integer(entry->id));
	json_object_set_new(json, "at", json_time(note == NULL ? 0 : note->known.at_unix_ms));
	json_object_set_new(json, "note", note == NULL ? json_null() : past_call_note(note));
	const struct past_call *written = past_calls_find(desk, calls, settled_by);
	json_object_set_new(json, "text", json_words(written == NULL ? "" : written->known.text));
	json_object_set_new(json, "written_call", json_integer(settled_by));
	json_object_set_new(json, "who", json_said(written == NULL ? NULL : written->known.who));
	json_object_set_new(json, "written_at",
			    json_time(written == NULL ? 0 : written->known.at_unix_ms));
	return json;
}

static json_t *
notes_json(struct desk *desk, const struct record *record, struct past_calls *calls)
{
	json_t *array = json_array();
	for (int i = 0; i < record->entry_count; i++)
		if (record->entries[i].stands && record->entries[i].said.type == CALL_NOTE)
			json_array_append_new(array, note_json(desk, calls, &record->entries[i]));
	return array;
}

static json_t *
calls_json(const struct past_calls *calls, int count)
{
	json_t *array = json_array();
	for (int i = 0; i < count; i++)
		json_array_append_new(array, past_call_json(calls->rows[i]));
	return array;
}

static json_t *
sketch_address(const struct record *record)
{
	char text[80];
	const struct entry *kind = record_slot(record, CALL_KIND);
	int64_t last = record->deed_count == 0 ? 0 : record->deeds[record->deed_count - 1].call;
	snprintf(text, sizeof text, "/sketch/%lld?v=%lld", (long long)record->item,
		 (long long)last);
	return kind == NULL || kind->said.other ? json_null() : json_string(text);
}

static void
add_slot(const struct record *record, enum call_type type, const char *name, json_t *json)
{
	const struct entry *entry = record_slot(record, type);
	const char *text = entry == NULL		 ? NULL
			   : entry->said.other		 ? "other"
			   : entry->said.name[0] != '\0' ? entry->said.name
							 : entry->said.label;
	json_object_set_new(json, name, json_said(text));
}

json_t *
item_json(struct desk *desk, int64_t item)
{
	static const char *const states[] = {
		[ITEM_OPEN] = "open", [ITEM_DONE] = "done", [ITEM_SET_ASIDE] = "set aside"};
	struct record *record = &desk->record;
	struct review_item known;
	struct past_calls calls;
	enum matter_reason urgency;
	if (item <= 0 || !review_item(desk->review, item, &known) ||
	    !store_load(desk->store, item, record))
		return NULL;
	past_calls_read(desk, item, &calls);
	int own = calls.count;
	json_t *matters = matters_of(desk, record, &calls, &urgency);
	matters_complete(desk, matters, true, record);
	json_t *json = json_object();
	json_object_set_new(json, "item", json_integer(item));
	add_slot(record, CALL_ITEM, "number", json);
	add_slot(record, CALL_BIN, "bin", json);
	add_slot(record, CALL_KIND, "kind", json);
	add_slot(record, CALL_ROUTE, "route", json);
	json_object_set_new(json, "state", json_string(states[record->state]));
	json_object_set_new(json, "opened_at", json_time(known.opened_unix_ms));
	json_object_set_new(json, "closed_at", json_time(known.closed_unix_ms));
	json_object_set_new(json, "looked", json_boolean(matters_looked(&calls)));
	json_object_set_new(json, "reason", json_string(matter_name(urgency)));
	json_object_set_new(json, "before", json_row(known.before));
	json_object_set_new(json, "after", json_row(known.after));
	add_writeup(desk, record, json);
	json_object_set_new(json, "sketch", sketch_address(record));
	json_object_set_new(json, "matters", matters);
	json_object_set_new(json, "fields", fields_json(desk, record, &calls));
	json_object_set_new(json, "notes", notes_json(desk, record, &calls));
	json_object_set_new(json, "calls", calls_json(&calls, own));
	past_calls_finish(&calls);
	return json;
}

enum MHD_Result
item_answer(struct request *request, const char *rest)
{
	bool number =
		rest[0] != '\0' && strlen(rest) <= 18 && rest[strspn(rest, "0123456789")] == '\0';
	json_t *json = number ? item_json(request->desk, strtoll(rest, NULL, 10)) : NULL;
	if (json == NULL)
		return answer_error(request, 404, "there is no such item");
	return answer_json(request, 200, json);
}
