/* Texts: what is in hand, what was done, what is missing. */
#include "session_state.h"

#include "set_piece.h"

#include <stdio.h>
#include <string.h>

void
session_add(char *text, size_t size, const char *gap, const char *more)
{
	size_t used = strlen(text), gap_length = used > 0 ? strlen(gap) : 0;
	if (used + gap_length + strlen(more) + 1 > size)
		return; /* better whole words and too few */
	if (gap_length > 0)
		memcpy(text + used, gap, gap_length + 1);
	strcpy(text + used + gap_length, more);
}

void
session_tell_call(const struct session *session, const struct call *call, char *text, size_t size)
{
	static const enum phrase_detail details[] = {
		[READ_BACK_TERSE] = PHRASE_VALUE,
		[READ_BACK_NORMAL] = PHRASE_NAMED,
		[READ_BACK_FULL] = PHRASE_FULL,
	};
	enum phrase_detail detail = details[session->setting.read_back];
	if (call->type != CALL_MEASURE && detail == PHRASE_FULL)
		detail = PHRASE_NAMED;
	if (session->task.as_asked && detail == PHRASE_NAMED)
		detail = PHRASE_VALUE; /* the station has just said its name */
	if (call->none || call->other)
		detail = PHRASE_NAMED; /* "none" alone says too little */
	phrase_call(call, detail, text, size);
}

void
session_tell_item(const struct session *session, const struct record *record, char *text,
		  size_t size)
{
	char phrase[256];
	const struct entry *number = record_slot(record, CALL_ITEM);
	const struct entry *kind = record_slot(record, CALL_KIND);
	if (number) {
		phrase_call(&number->said, PHRASE_NAMED, phrase, sizeof(phrase));
		session_add(text, size, " ", phrase);
	} else {
		session_add(text, size, " ", "an item without a number");
	}
	if (kind) {
		phrase_call(&kind->said, PHRASE_VALUE, phrase, sizeof(phrase));
		session_add(text, size, ", ", phrase);
	}
}

/* "chest, length", or of a piece "jacket chest, jacket length"; `told` counts on. */
static bool
add_missing(const struct session *session, const int *missing, int count, const char *piece,
	    int *told, char *text, size_t size)
{
	char name[2 * CALL_NAME_MAX];
	for (int i = 0; i < count; i++) {
		piece_join(piece,
			   vocabulary_term(session->vocabulary, LIST_MEASURE, missing[i])->name,
			   name, sizeof(name));
		session_add(text, size, (*told)++ == 0 ? " " : ", ", name);
	}
	return count > 0;
}

bool
session_tell_missing(const struct session *session, const struct record *record, char *text,
		     size_t size)
{
	const struct entry *kind = record_slot(record, CALL_KIND);
	const struct entry *part = record_slot(record, CALL_PART);
	int index = kind ? vocabulary_find(session->vocabulary, LIST_KIND, kind->said.name) : -1;
	int missing[TERM_MEASURES_MAX], told = 0;
	if (!kind_is_set(session->vocabulary, index)) {
		int count = record_missing(record, session->vocabulary, missing);
		return add_missing(session, missing, count, "", &told, text, size);
	}
	if (!part) {
		session_add(text, size, " ", "its parts");
		return true;
	}
	for (int i = 0; i < part->said.listed_count; i++) {
		const char *piece = part->said.listed[i].name;
		int count = record_missing_of(record, session->vocabulary, piece, missing);
		add_missing(session, missing, count, piece, &told, text, size);
	}
	return told > 0;
}

static void
add_count(char *text, size_t size, int count, const char *one, const char *many)
{
	char number[64], phrase[128];
	if (count == 0)
		return;
	number_say(count, number, sizeof(number));
	snprintf(phrase, sizeof(phrase), "%s %s", number, count == 1 ? one : many);
	session_add(text, size, ", ", phrase);
}

void
session_tell_where(const struct session *session, char *text, size_t size)
{
	const struct record *record = &session->record;
	char phrase[256];
	int measures = 0, notes = 0;
	if (record->item == 0) {
		session_add(text, size, ", ", "nothing is in hand");
	} else {
		session_tell_item(session, record, text, size);
		for (int i = 0; i < record->entry_count; i++) {
			const struct entry *entry = &record->entries[i];
			measures += entry->stands && entry->said.type == CALL_MEASURE;
			notes += entry->stands && entry->said.type == CALL_NOTE;
		}
		const struct entry *bin = record_slot(record, CALL_BIN);
		if (bin) {
			phrase_call(&bin->said, PHRASE_NAMED, phrase, sizeof(phrase));
			session_add(text, size, ", ", phrase);
		}
		if (record_empty(record))
			session_add(text, size, ", ", "nothing was said of it");
		add_count(text, size, measures, "measure", "measures");
		add_count(text, size, record_flaw_count(record), "flaw", "flaws");
		add_count(text, size, notes, "note", "notes");
		char missing[EFFECT_TEXT_MAX] = "missing";
		if (session_tell_missing(session, record, missing, sizeof(missing)))
			session_add(text, size, ", ", missing);
	}
	if (!record_slot(record, CALL_ITEM) && session_number_after(session->last_number, phrase)) {
		char label[128], next[160];
		label_say(phrase, label, sizeof(label));
		snprintf(next, sizeof(next), "the next number is %s", label);
		session_add(text, size, ", ", next);
	}
	session_kept_text(session, text, size);
}

void
session_tell_all(const struct session *session, char *text, size_t size)
{
	const struct record *record = &session->record;
	int left = 0;
	session_tell_item(session, record, text, size);
	for (int i = 0; i < record->entry_count; i++) {
		char phrase[256];
		const struct entry *entry = &record->entries[i];
		if (!entry->stands || entry->said.type == CALL_ITEM ||
		    entry->said.type == CALL_KIND)
			continue;
		phrase_call(&entry->said, PHRASE_NAMED, phrase, sizeof(phrase));
		if (strlen(text) + strlen(phrase) + 40 > size)
			left++;
		else
			session_add(text, size, ", ", phrase);
	}
	add_count(text, size, left, "more", "more");
}

static void
add_flipped(const struct session *session, const struct record *record, const struct deed *deed,
	    bool began, enum phrase_detail detail, char *text, size_t size)
{
	bool first = true;
	for (int f = 0; f < deed->flip_count; f++) {
		char phrase[256];
		int entry = deed->flips[f].entry;
		if (deed->flips[f].stands != began || record->entries[entry].stands != began)
			continue;
		phrase_call(&record->entries[entry].said, detail, phrase, sizeof(phrase));
		session_add(text, size, first ? " " : ", ", phrase);
		first = false;
	}
}

void
session_tell_deed(const struct session *session, const struct record *record,
		  const struct deed *deed, char *text, size_t size)
{
	bool restored = deed->type == DEED_RESTORED;
	const struct entry *other =
		restored ? record_ended(record, deed) : record_began(record, deed);
	session_add(text, size, " ", restored ? "restored" : "struck");
	add_flipped(session, record, deed, restored, PHRASE_NAMED, text, size);
	if (!other)
		return;
	session_add(text, size, "", restored ? ", was" : ", back to");
	add_flipped(session, record, deed, !restored, PHRASE_VALUE, text, size);
}
