#include "calls.h"

#include "call_json.h"
#include "json.h"
#include "phrase.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *
copy_text(const char *text)
{
	return text == NULL ? NULL : strdup(text);
}

static void
read_meaning(struct past_call *call)
{
	const char *meaning = call->known.meaning;
	json_t *json = meaning == NULL ? NULL : json_loads(meaning, 0, NULL);
	call->has_meaning = json != NULL && call_from_json(json, &call->meaning);
	json_decref(json);
}

static bool
take(void *user, const struct review_call *known)
{
	struct past_calls *calls = user;
	if (calls->count == calls->room) {
		int room = 2 * calls->room + 32;
		struct past_call **grown = realloc(calls->rows, sizeof *grown * (size_t)room);
		if (grown == NULL)
			return false;
		calls->rows = grown;
		calls->room = room;
	}
	struct past_call *call = calloc(1, sizeof *call);
	if (call == NULL)
		return false;
	calls->rows[calls->count++] = call;
	call->known = *known;
	call->known.source = copy_text(known->source);
	call->known.verdict = copy_text(known->verdict);
	call->known.text = copy_text(known->text);
	call->known.who = copy_text(known->who);
	call->known.type = copy_text(known->type);
	call->known.meaning = copy_text(known->meaning);
	read_meaning(call);
	return true;
}

bool
past_calls_read(struct desk *desk, int64_t item, struct past_calls *calls)
{
	*calls = (struct past_calls){.count = 0};
	return review_calls_of(desk->review, item, PAST_CALLS_MAX, take, calls);
}

bool
past_calls_read_loose(struct desk *desk, struct past_calls *calls)
{
	*calls = (struct past_calls){.count = 0};
	return review_loose(desk->review, 50, take, calls);
}

void
past_calls_finish(struct past_calls *calls)
{
	for (int i = 0; i < calls->count; i++) {
		const struct review_call *known = &calls->rows[i]->known;
		const char *texts[] = {known->source, known->verdict, known->text,
				       known->who,    known->type,    known->meaning};
		for (size_t k = 0; k < sizeof texts / sizeof *texts; k++)
			free((void *)(uintptr_t)texts[k]);
		free(calls->rows[i]);
	}
	free(calls->rows);
	*calls = (struct past_calls){.count = 0};
}

const struct past_call *
past_calls_find(struct desk *desk, struct past_calls *calls, int64_t call)
{
	for (int i = 0; i < calls->count; i++)
		if (calls->rows[i]->known.call == call)
			return calls->rows[i];
	if (call == 0 || !review_call(desk->review, call, take, calls))
		return NULL;
	return calls->rows[calls->count - 1];
}

static json_t *
address(const char *folder, int64_t call, bool there)
{
	char text[64];
	snprintf(text, sizeof text, "/%s/%lld", folder, (long long)call);
	return there ? json_string(text) : json_null();
}

json_t *
past_call_sound(const struct past_call *call)
{
	return address("sound", call->known.call, call->known.has_sound);
}

json_t *
past_call_note(const struct past_call *call)
{
	return address("note", call->known.call, call->known.has_note);
}

json_t *
past_call_json(const struct past_call *call)
{
	const struct review_call *known = &call->known;
	char written[512] = "";
	json_t *json = json_object();
	if (call->has_meaning)
		phrase_written(&call->meaning, written, sizeof written);
	json_object_set_new(json, "call", json_integer(known->call));
	json_object_set_new(json, "at", json_time(known->at_unix_ms));
	json_object_set_new(json, "at_ms", json_integer(known->at_ms));
	json_object_set_new(json, "source", json_words(known->source));
	json_object_set_new(json, "who", json_said(known->who));
	json_object_set_new(json, "verdict", json_words(known->verdict));
	json_object_set_new(json, "confidence",
			    known->has_confidence ? json_real(known->confidence) : json_null());
	json_object_set_new(json, "text", json_words(known->text));
	json_object_set_new(json, "written", json_said(written));
	json_object_set_new(json, "sound", past_call_sound(call));
	json_object_set_new(json, "note", past_call_note(call));
	json_object_set_new(json, "settled", json_boolean(known->settled_by != 0));
	json_object_set_new(json, "undone", json_boolean(known->undone));
	return json;
}

bool
past_call_by_desk(const struct past_call *call)
{
	return call->known.source != NULL && strcmp(call->known.source, "desk") == 0;
}

bool
past_call_looks(const struct past_call *call)
{
	return past_call_by_desk(call) && call->has_meaning && call->meaning.type == CALL_ANSWER &&
	       call->known.settles == 0 && !call->known.undone;
}
