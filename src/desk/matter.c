#include "matter.h"

#include "choice.h"
#include "doubting.h"
#include "field.h"
#include "json.h"
#include "phrase.h"
#include "pieces.h"
#include "set_piece.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
	const char *name;
	const char *can[5]; /* what may be done about it */
} reasons[MATTERS] = {
	[MATTER_DOUBT] = {"doubt", {"confirm", "choose", "correct", "strike"}},
	[MATTER_CONFIRMED] = {"confirmed", {"confirm", "choose", "correct", "strike"}},
	[MATTER_IMPLAUSIBLE] = {"implausible", {"confirm", "choose", "correct", "strike"}},
	[MATTER_MISSING] = {"missing", {"correct"}},
	[MATTER_NOTE] = {"note", {"write-out", "strike"}},
	[MATTER_WORD] = {"word", {"learn", "correct", "strike"}},
	[MATTER_REFUSED] = {"refused", {"confirm", "choose", "correct", "strike"}},
	[MATTER_REST] = {"rest", {NULL}},
	[MATTER_LOOKED] = {"looked", {NULL}},
};

const char *
matter_name(enum matter_reason reason)
{
	return reason >= MATTER_DOUBT && reason < MATTERS ? reasons[reason].name : "rest";
}

enum matter_reason
matter_parse(const char *name)
{
	int reason = MATTER_DOUBT;
	while (reason < MATTERS && strcmp(reasons[reason].name, name) != 0)
		reason++;
	return (enum matter_reason)reason;
}

static json_t *
can_json(enum matter_reason reason, bool writes)
{
	json_t *array = json_array();
	for (int i = 0; i < 5 && reasons[reason].can[i] != NULL; i++) {
		const char *can = reasons[reason].can[i];
		/* What makes no call of its own can only be heard, and dismissed. */
		if (writes || strcmp(can, "strike") == 0 || strcmp(can, "write-out") == 0)
			json_array_append_new(array, json_string(can));
	}
	return array;
}

static json_t *
matter_json(enum matter_reason reason, const struct call *said, int64_t entry,
	    const struct past_call *call, const char *question)
{
	char field[FIELD_NAME_MAX] = "", written[512] = "";
	json_t *json = json_object();
	bool writes = said != NULL && field_writes(said);
	if (writes)
		field_name(said, entry, field);
	if (said != NULL && reason != MATTER_MISSING)
		phrase_written(said, written, sizeof written);
	json_object_set_new(json, "reason", json_string(matter_name(reason)));
	json_object_set_new(json, "field", json_said(field));
	json_object_set_new(json, "call", json_row(call == NULL ? 0 : call->known.call));
	json_object_set_new(json, "entry", json_row(entry));
	json_object_set_new(json, "question", json_words(question));
	json_object_set_new(json, "written", json_said(written));
	json_object_set_new(json, "text", json_said(call == NULL ? NULL : call->known.text));
	json_object_set_new(json, "confidence",
			    call != NULL && call->known.has_confidence
				    ? json_real(call->known.confidence)
				    : json_null());
	json_object_set_new(json, "at", json_time(call == NULL ? 0 : call->known.at_unix_ms));
	json_object_set_new(json, "can", can_json(reason, writes));
	return json;
}

/* Of what was doubted: why, by what it says; else what else it may have been. */
static void
question_of(struct desk *desk, const struct record *record, const struct past_call *call,
	    char *question, size_t size)
{
	struct doubt doubt;
	char written[256];
	if (!call->has_meaning) {
		snprintf(question, size, "close to a call, but none: \"%s\"", call->known.text);
		return;
	}
	if (doubting(desk, record, &call->meaning, &doubt)) {
		snprintf(question, size, "%s", doubt.reason);
		return;
	}
	struct choice *choices = calloc(CHOICES_MAX, sizeof *choices);
	int count = choices == NULL ? 0 : choices_of(desk, NULL, call, choices);
	phrase_written(&call->meaning, written, sizeof written);
	if (count > 0)
		snprintf(question, size, "%s, or %s?", written, choices[0].written);
	else
		snprintf(question, size, "%s?", written);
	free(choices);
}

json_t *
matter_of_call(struct desk *desk, const struct record *record, const struct past_call *call)
{
	char question[DOUBT_REASON_MAX];
	bool doubted = strcmp(call->known.verdict, "doubted") == 0;
	question_of(desk, record, call, question, sizeof question);
	return matter_json(doubted ? MATTER_DOUBT : MATTER_REFUSED,
			   call->has_meaning ? &call->meaning : NULL, 0, call, question);
}

/* What the station refused though it was a call, an order that could not be followed, is no matter
 * of the desk's; nor is what was heard in a pause. */
static bool
needs_look(const struct past_call *call)
{
	bool order = call->has_meaning && !field_writes(&call->meaning);
	return strcmp(call->known.verdict, "taken") != 0 && !order && call->known.settled_by == 0 &&
	       !past_call_by_desk(call) && call->known.utterance != 0;
}

/* What a standing entry gives rise to; NULL when nothing. */
static json_t *
matter_of_entry(struct desk *desk, const struct record *record, struct past_calls *calls,
		const struct entry *entry, bool looked, enum matter_reason *reason)
{
	const struct past_call *call = past_calls_find(desk, calls, entry->call);
	bool settled = call != NULL && call->known.settled_by != 0;
	char question[DOUBT_REASON_MAX], written[256];
	struct doubt doubt;
	phrase_written(&entry->said, written, sizeof written);
	if (entry->said.type == CALL_NOTE && !settled) {
		*reason = MATTER_NOTE;
		return matter_json(*reason, &entry->said, entry->id, call,
				   "a note, to be written out");
	}
	if (entry->said.other && !settled) {
		*reason = MATTER_WORD;
		snprintf(question, sizeof question, "a %s that is on no list: what was said?",
			 call_type_name(entry->said.type));
		return matter_json(*reason, &entry->said, entry->id, call, question);
	}
	if (settled || looked || !field_writes(&entry->said))
		return NULL;
	if (entry->confirmed) {
		if (call != NULL && past_call_by_desk(call))
			return NULL; /* by somebody who saw all of it */
		*reason = MATTER_CONFIRMED;
		snprintf(question, sizeof question, "%s: doubted, and said to be so", written);
		return matter_json(*reason, &entry->said, entry->id, call, question);
	}
	/* A kind or a size at odds with a measure is the measure's matter. */
	if ((entry->said.type != CALL_MEASURE && entry->said.type != CALL_BIN) ||
	    !doubting(desk, record, &entry->said, &doubt))
		return NULL;
	*reason = MATTER_IMPLAUSIBLE;
	return matter_json(*reason, &entry->said, entry->id, call, doubt.reason);
}

/* What was said again later, or typed, and stands: the question is answered by it. */
static bool
overtaken(const struct record *record, const struct past_call *call)
{
	const struct entry *entry = NULL;
	if (call->has_meaning && call->meaning.type == CALL_MEASURE)
		entry = record_reading(record, call->meaning.name);
	else if (call->has_meaning && call->meaning.type != CALL_FLAW)
		entry = record_slot(record, call->meaning.type);
	return entry != NULL && entry->call > call->known.call;
}

bool
matters_looked(const struct past_calls *calls)
{
	bool looked = false;
	for (int i = 0; i < calls->count; i++) {
		if (past_call_looks(calls->rows[i]))
			looked = true;
		else if (!past_call_by_desk(calls->rows[i]))
			looked = false;
	}
	return looked;
}

struct gathering {
	json_t *of_reason[MATTERS];
};

static void
gather(struct gathering *gathering, enum matter_reason reason, json_t *matter)
{
	if (gathering->of_reason[reason] == NULL)
		gathering->of_reason[reason] = json_array();
	json_array_append_new(gathering->of_reason[reason], matter);
}

static void
gather_missing(struct desk *desk, const struct record *record, struct gathering *gathering)
{
	const struct vocabulary *vocabulary = desk->setting.vocabulary;
	struct piece pieces[CALL_LISTED_MAX];
	int count = pieces_of(vocabulary, record, pieces);
	for (int p = 0; p < count; p++) {
		const struct term *kind = pieces[p].kind;
		for (int w = 0; w < kind->wanted_count; w++) {
			struct call measure = {.type = CALL_MEASURE};
			char question[CALL_NAME_MAX + 32];
			const char *name =
				vocabulary_term(vocabulary, LIST_MEASURE, kind->wanted[w])->name;
			if (record_measured(record, pieces[p].name, name))
				continue;
			piece_join(pieces[p].name, name, measure.name, sizeof measure.name);
			snprintf(question, sizeof question, "%s was not measured", measure.name);
			gather(gathering, MATTER_MISSING,
			       matter_json(MATTER_MISSING, &measure, 0, NULL, question));
		}
	}
}

json_t *
matters_of(struct desk *desk, const struct record *record, struct past_calls *calls,
	   enum matter_reason *urgency)
{
	struct gathering gathering = {.of_reason = {NULL}};
	bool looked = matters_looked(calls);
	int count = calls->count; /* more may be fetched on the way, of other items */
	for (int i = 0; i < count; i++) {
		const struct past_call *call = calls->rows[i];
		bool doubted = strcmp(call->known.verdict, "doubted") == 0;
		if (needs_look(call) && !overtaken(record, call) && (doubted || !looked))
			gather(&gathering, doubted ? MATTER_DOUBT : MATTER_REFUSED,
			       matter_of_call(desk, record, call));
	}
	for (int i = 0; i < record->entry_count; i++) {
		enum matter_reason reason;
		if (!record->entries[i].stands)
			continue;
		json_t *matter =
			matter_of_entry(desk, record, calls, &record->entries[i], looked, &reason);
		if (matter != NULL)
			gather(&gathering, reason, matter);
	}
	/* Of an item in hand at the station the measures are still to come. */
	if (!looked && record->state != ITEM_OPEN)
		gather_missing(desk, record, &gathering);
	json_t *all = json_array();
	*urgency = looked ? MATTER_LOOKED : MATTER_REST;
	for (int reason = MATTER_REFUSED; reason >= MATTER_DOUBT; reason--)
		if (gathering.of_reason[reason] != NULL)
			*urgency = (enum matter_reason)reason;
	for (int reason = MATTER_DOUBT; reason < MATTERS; reason++) {
		if (gathering.of_reason[reason] != NULL)
			json_array_extend(all, gathering.of_reason[reason]);
		json_decref(gathering.of_reason[reason]);
	}
	return all;
}

static void
complete(struct desk *desk, struct past_calls *calls, json_t *matter, bool with_choices,
	 const struct record *record)
{
	int64_t number = json_member_number(matter, "call", 0);
	const struct past_call *call = past_calls_find(desk, calls, number);
	json_object_set_new(matter, "sound", call == NULL ? json_null() : past_call_sound(call));
	json_object_set_new(matter, "note", call == NULL ? json_null() : past_call_note(call));
	if (!with_choices)
		return;
	struct choice *choices = calloc(CHOICES_MAX, sizeof *choices);
	int count = call == NULL || choices == NULL ? 0 : choices_of(desk, record, call, choices);
	json_object_set_new(matter, "choices", choices_json(desk, choices, count));
	free(choices);
}

void
matters_complete(struct desk *desk, json_t *matters, bool choices, const struct record *record)
{
	struct past_calls calls = {.count = 0};
	for (size_t i = 0; i < json_array_size(matters); i++)
		complete(desk, &calls, json_array_get(matters, i), choices, record);
	past_calls_finish(&calls);
}
