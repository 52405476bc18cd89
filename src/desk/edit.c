#include "edit.h"

#include "answer.h"
#include "json.h"
#include "phrase.h"
#include "pieces.h"
#include "record_undo.h"
#include "set_piece.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

bool
edit_refuse(struct edit *edit, unsigned status, const char *format, ...)
{
	char sentence[800];
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	edit->status = status;
	json_decref(edit->answer);
	edit->answer = json_object();
	json_object_set_new(edit->answer, "error", json_words(sentence));
	return false;
}

/* "mara", or what is known of who said it. */
static const char *
speaker(const struct past_call *call)
{
	if (call != NULL && call->known.who != NULL)
		return call->known.who;
	return call != NULL && past_call_by_desk(call) ? "somebody at the desk" : "the station";
}

bool
edit_conflict(struct edit *edit, const struct field_place *place, const struct entry *entry)
{
	char value[512];
	if (entry == NULL) {
		edit_refuse(edit, 409, "it was taken back meanwhile, and nothing stands there now");
	} else {
		const struct past_call *call =
			past_calls_find(edit->desk, &edit->calls, entry->call);
		phrase_written(&entry->said, value, sizeof value);
		edit_refuse(edit, 409, "%s made it %s meanwhile", speaker(call), value);
	}
	json_object_set_new(edit->answer, "conflict", json_true());
	json_object_set_new(edit->answer, "field",
			    place == NULL
				    ? json_null()
				    : field_json(edit->desk, edit->record, &edit->calls, place));
	edit->wants_item = true;
	return false;
}

bool
edit_settled(struct edit *edit, const struct past_call *call)
{
	const struct past_call *settling =
		past_calls_find(edit->desk, &edit->calls, call->known.settled_by);
	edit_refuse(edit, 409, "%s has answered this meanwhile: %s", speaker(settling),
		    settling == NULL ? "" : settling->known.text);
	json_object_set_new(edit->answer, "conflict", json_true());
	json_object_set_new(edit->answer, "field", json_null());
	edit->wants_item = true;
	return false;
}

bool
edit_doubted(struct edit *edit, const struct doubt *doubt)
{
	char written[512], value[512];
	json_t *second = json_null();
	edit_refuse(edit, 422, "%s", doubt->reason);
	json_object_set_new(edit->answer, "doubt", json_true());
	json_object_set_new(
		edit->answer, "severity",
		json_string(doubt->severity == DOUBT_IMPOSSIBLE ? "impossible" : "ask"));
	if (doubt->has_second) {
		phrase_written(&doubt->second, written, sizeof written);
		typed_write(&edit->desk->typed, &doubt->second, value, sizeof value);
		second = json_object();
		json_object_set_new(second, "value", json_words(value));
		json_object_set_new(second, "choice", json_words(written));
	}
	json_object_set_new(edit->answer, "second", second);
	return false;
}

bool
edit_load(struct edit *edit, int64_t item)
{
	if (item <= 0 || !store_load(edit->desk->store, item, edit->record))
		return edit_refuse(edit, 404, "there is no such item");
	edit->write.item = item;
	return true;
}

const struct past_call *
edit_call(struct edit *edit, const char *member)
{
	int64_t number = json_member_number(edit->body, member, 0);
	const struct past_call *call = past_calls_find(edit->desk, &edit->calls, number);
	if (call == NULL)
		edit_refuse(edit, 404, "there is no such call");
	return call;
}

static void
tell_written(struct edit *edit, const struct call *call)
{
	const struct deed *deed = &edit->write.deed;
	const struct call *before = NULL;
	char was[512];
	phrase_written(call, edit->said, sizeof edit->said / 2);
	for (int f = 0; f < deed->flip_count; f++)
		if (!deed->flips[f].stands && before == NULL)
			before = &edit->record->entries[deed->flips[f].entry].said;
	if (before == NULL || call_same(before, call))
		return;
	phrase_written(before, was, sizeof was);
	size_t length = strlen(edit->said);
	snprintf(edit->said + length, sizeof edit->said - length, ", was %s", was);
}

/* Of a set each measure is of one of its pieces, and nothing else has pieces. */
static bool
has_its_piece(struct edit *edit, const struct call *call)
{
	const struct vocabulary *vocabulary = edit->desk->setting.vocabulary;
	const char *rest;
	bool set = pieces_of_set(vocabulary, edit->record);
	if (call->type == CALL_PART && !set && record_slot(edit->record, CALL_KIND) != NULL)
		return edit_refuse(edit, 422, "only a set has parts: its kind is another");
	if (call->type == CALL_MEASURE && set && piece_of(vocabulary, call->name, &rest) < 0)
		return edit_refuse(edit, 422, "of which part of the set is this?");
	return true;
}

/* A piece that was said joins those that were said before; one that it replaces goes. */
static void
join_pieces(const struct record *record, const struct entry *replaced, struct call *part)
{
	int kept = 0;
	record_add_piece(record, part);
	for (int i = 0; i < part->listed_count; i++)
		if (replaced == NULL || strcmp(part->name, part->listed[i].name) == 0 ||
		    strcmp(replaced->said.name, part->listed[i].name) != 0)
			part->listed[kept++] = part->listed[i];
	part->listed_count = kept;
}

bool
edit_write_call(struct edit *edit, const struct call *call, const struct entry *entry,
		bool confirmed)
{
	struct write *write = &edit->write;
	struct record *record = edit->record;
	write->said = *call;
	write->said.correction = false;
	write->said.first_word = write->said.word_count = 0;
	if (!has_its_piece(edit, call))
		return false;
	if (call->type == CALL_PART && call->listed_count == 0)
		join_pieces(record, entry, &write->said);
	bool written = entry != NULL ? record_replace(record, (int)(entry - record->entries),
						      &write->said, confirmed, &write->deed)
				     : record_write(record, &write->said, confirmed, &write->deed);
	if (!written && !record_has_room(record))
		return edit_refuse(edit, 422, "this item is full, nothing more fits");
	if (!written)
		return edit_refuse(edit, 422, "there are flaws: strike them first");
	write->has_deed = true;
	tell_written(edit, &write->said);
	return true;
}

bool
edit_strike_entry(struct edit *edit, const struct entry *entry)
{
	struct write *write = &edit->write;
	char written[512];
	const struct call said = entry->said;
	phrase_written(&said, written, sizeof written);
	write->said = (struct call){.type = CALL_ORDER, .order = ORDER_STRIKE_THAT};
	if (said.type == CALL_MEASURE) {
		write->said.order = ORDER_STRIKE;
		memcpy(write->said.name, said.name, sizeof write->said.name);
	}
	if (!record_strike_entry(edit->record, (int)(entry - edit->record->entries), &write->deed))
		return edit_refuse(edit, 422, "this item is full, nothing more fits");
	write->has_deed = true;
	snprintf(edit->said, sizeof edit->said, "struck: %s", written);
	return true;
}

bool
edit_answer_call(struct edit *edit, int choice, int64_t settles, const char *format, ...)
{
	va_list arguments;
	edit->write.said = (struct call){.type = CALL_ANSWER, .choice = choice};
	edit->write.settles = settles;
	va_start(arguments, format);
	vsnprintf(edit->said, sizeof edit->said, format, arguments);
	va_end(arguments);
	return true;
}

static const struct {
	const char *name;
	edit_action *act;
} actions[] = {
	{"edit", edit_value},	 {"confirm", edit_confirm},	{"choose", edit_choose},
	{"strike", edit_strike}, {"write-out", edit_write_out}, {"learn", edit_learn},
	{"looked", edit_looked}, {"state", edit_state},		{"undo", edit_undo},
};

static edit_action *
action_named(const char *name)
{
	for (size_t i = 0; i < sizeof actions / sizeof *actions; i++)
		if (strcmp(actions[i].name, name) == 0)
			return actions[i].act;
	return NULL;
}

/* The desk's writes are a session of their own, begun with the first of them. */
static bool
begin_session(struct desk *desk, struct problem *problem)
{
	if (desk->session_began_ms != 0)
		return true;
	int64_t now_ms = desk_now_ms();
	if (!store_begin_session(desk->store, now_ms, NULL, problem))
		return false;
	desk->session_began_ms = now_ms;
	return true;
}

/* What stands in the transaction when the action was right. */
static bool
store(struct edit *edit)
{
	struct written written;
	struct write *write = &edit->write;
	write->record = edit->record;
	store_write(edit->desk->store, write, NULL, &written);
	if (!written.stored)
		return edit_refuse(edit, 422, "it was not written: %s", written.why_not);
	edit->answer = json_object();
	json_object_set_new(edit->answer, "call", json_integer(written.call));
	json_object_set_new(edit->answer, "said", json_words(edit->said));
	return true;
}

static double
exact_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void
write_together(struct edit *edit, edit_action *act)
{
	struct desk *desk = edit->desk;
	struct problem problem = {""};
	if (!begin_session(desk, &problem) || !store_begin_together(desk->store, &problem)) {
		edit_refuse(edit, 503, "%s: try again", problem.text);
		return;
	}
	store_speaker(desk->store, json_member_text(edit->body, "who"));
	double began_ms = exact_ms();
	edit->write.at_ms = desk_now_ms() - desk->session_began_ms;
	bool done = act(edit) && store(edit);
	if (!store_end_together(desk->store, done, &problem) && done) {
		edit_refuse(edit, 503, "%s: try again", problem.text);
		done = false;
	}
	if (done) /* so that it can be seen that the station is not held up */
		json_object_set_new(edit->answer, "transaction_ms",
				    json_real(exact_ms() - began_ms));
	edit->status = done ? 200 : edit->status;
	edit->wants_item = edit->wants_item || done;
}

enum MHD_Result
edit_answer(struct request *request, const char *rest)
{
	edit_action *act = action_named(rest);
	if (act == NULL)
		return answer_error(request, 404, "there is no such action");
	json_t *body = request->body == NULL ? NULL
					     : json_loadb(request->body, request->body_size,
							  JSON_REJECT_DUPLICATES, NULL);
	struct edit *edit = json_is_object(body) ? calloc(1, sizeof *edit) : NULL;
	if (edit == NULL) {
		json_decref(body);
		return answer_error(request, 400, "this is no JSON object");
	}
	*edit = (struct edit){.request = request,
			      .desk = request->desk,
			      .body = body,
			      .record = &request->desk->record,
			      .write = {.source = SOURCE_DESK,
					.verdict = VERDICT_TAKEN,
					.confidence = 1,
					.has_call = true,
					.change = ITEM_UNCHANGED}};
	record_init(edit->record);
	write_together(edit, act);
	if (edit->wants_item && edit->write.item != 0) {
		json_t *item = item_json(request->desk, edit->write.item);
		json_object_set_new(edit->answer, "item", item == NULL ? json_null() : item);
	}
	unsigned status = edit->status;
	json_t *answer = edit->answer;
	past_calls_finish(&edit->calls);
	free(edit);
	json_decref(body);
	return answer_json(request, status, answer);
}
