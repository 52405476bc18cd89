/* Calls that write into the item in hand, and what takes back. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

/* An item is made by the first call that writes to it, and worked on again by the next one that
 * does once it was closed. */
static enum item_change
change_by_writing(const struct record *record)
{
	if (record->item == 0)
		return ITEM_OPENED;
	return record->state == ITEM_OPEN ? ITEM_UNCHANGED : ITEM_REOPENED;
}

/* "chest twenty two, was twenty one"; nothing more when the same was said again. */
static void
tell_written(const struct session *session, const struct deed *deed, char *text, size_t size)
{
	const struct record *record = &session->record;
	const struct entry *written = NULL, *before = NULL;
	char phrase[256];
	for (int f = 0; f < deed->flip_count; f++) {
		const struct entry *entry = &record->entries[deed->flips[f].entry];
		if (deed->flips[f].stands && entry->id == 0 && !written)
			written = entry;
		if (!deed->flips[f].stands && !before)
			before = entry;
	}
	session_tell_call(session, &written->said, text, size);
	if (!before || call_same(&before->said, &written->said))
		return;
	bool same_name = before->said.type == written->said.type &&
			 before->said.type != CALL_FLAW &&
			 (before->said.type != CALL_MEASURE ||
			  strcmp(before->said.name, written->said.name) == 0);
	phrase_call(&before->said, same_name ? PHRASE_VALUE : PHRASE_NAMED, phrase, sizeof(phrase));
	session_add(text, size, "", ", was ");
	session_add(text, size, "", phrase);
}

void
session_write_down(struct session *session, const struct call *call)
{
	struct outcome *outcome = &session->outcome;
	struct record *record = &session->record;
	bool withdraws = session->task.withdraws && session->last_wrote;
	bool written =
		withdraws ? record_correct(record, call, session->task.confirmed, &outcome->deed)
			  : record_write(record, call, session->task.confirmed, &outcome->deed);
	if (!written && !record_has_room(record)) {
		session_refuse(session, "this item is full, nothing more fits");
		return;
	}
	if (!written) { /* "flaw none" beside flaws is the only thing left that cannot be written */
		session_refuse(session, "there are flaws, strike them first");
		return;
	}
	outcome->has_deed = true;
	outcome->change = change_by_writing(record);
	session_answer(session, CUE_TAKEN, "%s", "");
	tell_written(session, &outcome->deed, outcome->text, sizeof(outcome->text));
	session_remark(session, call, outcome->text, sizeof(outcome->text));
	if (outcome->change == ITEM_OPENED)
		session_keep_into(session, record, &outcome->deed, outcome->text,
				  sizeof(outcome->text));
	if (call->type == CALL_NOTE || call->other)
		outcome->then = session_note;
}

void
session_write_call(struct session *session, const struct call *call)
{
	struct call part = *call;
	if (session_piece_refused(session, call) || session_doubtful(session, call))
		return;
	if (call->type == CALL_PART)
		record_add_piece(&session->record, &part);
	session_write_down(session, &part);
}

/* What a strike or a restore did to the item's own number. */
static void
number_follows(struct session *session, const struct written *written)
{
	const struct deed *deed = &session->outcome.deed;
	for (int f = 0; f < deed->flip_count; f++) {
		const struct call *said = &session->record.entries[deed->flips[f].entry].said;
		if (said->type == CALL_ITEM && !deed->flips[f].stands)
			session_number_taken_back(session, said->label);
	}
	const struct entry *number = record_slot(&session->record, CALL_ITEM);
	if (number && record_began(&session->record, deed) == number)
		session_number_given(session, number->said.label);
}

/* After record_strike_* or record_restore. */
static void
taken_back(struct session *session, enum cue cue)
{
	struct outcome *outcome = &session->outcome;
	outcome->has_deed = true;
	outcome->change = change_by_writing(&session->record);
	session_answer(session, cue, "%s", "");
	session_tell_deed(session, &session->record, &outcome->deed, outcome->text,
			  sizeof(outcome->text));
	outcome->then = number_follows;
}

void
session_strike_that(struct session *session)
{
	if (record_strike_last(&session->record, &session->outcome.deed))
		taken_back(session, CUE_STRUCK);
	else
		session_refuse(session, "nothing to strike");
}

void
session_strike(struct session *session)
{
	const struct call *call = &session->task.call;
	struct deed *deed = &session->outcome.deed;
	if (strcmp(call->name, "flaw") == 0) {
		if (record_strike_flaw(&session->record, call, deed))
			taken_back(session, CUE_STRUCK);
		else
			session_refuse(session, "there is no such flaw to strike");
	} else if (record_strike_measure(&session->record, call->name, deed)) {
		taken_back(session, CUE_STRUCK);
	} else {
		session_refuse(session, "there is no %s to strike", call->name);
	}
}

void
session_restore(struct session *session)
{
	if (record_restore(&session->record, &session->outcome.deed))
		taken_back(session, CUE_TAKEN);
	else
		session_refuse(session, "nothing was struck");
}
