/* Which item is in hand.
 *
 *   nothing --(a call writes)--> an item --next, set aside--> nothing
 *   an item --previous, open item--> an earlier item --next, set aside--> back to the first
 *
 * Leaving for an earlier item leaves the one in hand open; it is come back to. An earlier item is
 * only looked at until something is written: then it is open again, and closed when it is left. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

void
session_take_up(struct session *session, const struct record *record)
{
	record_copy(&session->record, record);
	session->since = record->deed_count;
	session->warned = false;
	session->asked = -1;
	session->ask_due = true;
	memset(session->skipped, 0, sizeof(session->skipped));
}

static void
put_down(struct session *session)
{
	static const struct record nothing;
	session_take_up(session, &nothing);
	session->revisited = false;
}

/* What becomes of the item in hand when it is left for another. */
static enum item_change
change_by_leaving(const struct session *session, const struct record *record)
{
	int missing[TERM_MEASURES_MAX];
	if (record->item == 0 || !session->revisited || record->state != ITEM_OPEN)
		return ITEM_UNCHANGED;
	return record_empty(record) || record_missing(record, session->vocabulary, missing)
		       ? ITEM_PUT_ASIDE
		       : ITEM_CLOSED;
}

/* Takes up what was found: as an earlier item, or again after it was left for one. */
static void
visit(struct session *session, const struct written *written)
{
	bool back = session->return_to != 0 && session->found.item == session->return_to;
	if (!back && session->record.item != 0 && !session->revisited)
		session->return_to = session->record.item;
	if (back)
		session->return_to = 0;
	session->revisited = !back;
	session_questions_to_desk(session);
	session_take_up(session, &session->found);
}

static void
leave(struct session *session, const struct written *written)
{
	if (session->outcome.change != ITEM_UNCHANGED)
		record_copy(&session->before, &session->record);
	session_questions_to_desk(session);
	if (session->return_to == 0)
		put_down(session);
	else
		session_take_up(session, &session->found);
	session->return_to = 0;
	session->revisited = false;
}

/* The item that was left for an earlier one must be found before that is left. False when it is
 * being looked for. */
static bool
way_back_known(struct session *session, const struct record *found)
{
	if (session->return_to == 0 || found)
		return true;
	session_find(session, FIND_ITEM, session->return_to, "");
	return false;
}

static void
tell_way_back(struct session *session)
{
	char *text = session->outcome.text;
	if (session->return_to == 0)
		return;
	session_add(text, sizeof(session->outcome.text), "", ", back to");
	session_tell_item(session, &session->found, text, sizeof(session->outcome.text));
}

static void
warn(struct session *session, const struct written *written)
{
	session->warned = true;
	session_question_again(session); /* so that it is asked again */
}

static void
not_yet(struct session *session)
{
	char text[EFFECT_TEXT_MAX] = "";
	if (session->question_count > 0)
		session_add(text, sizeof(text), "", "a question stands");
	char missing[EFFECT_TEXT_MAX] = "missing";
	if (session_tell_missing(session, &session->record, missing, sizeof(missing)))
		session_add(text, sizeof(text), ", ", missing);
	session_answer(session, CUE_NONE, "%s", text);
	session->outcome.then = warn;
}

void
session_next(struct session *session, const struct record *found)
{
	const struct record *record = &session->record;
	bool looked_at = session->revisited && record->state != ITEM_OPEN;
	char text[EFFECT_TEXT_MAX] = "", missing[EFFECT_TEXT_MAX] = "";
	bool lacks = session_tell_missing(session, record, missing, sizeof(missing));

	if (session->task.is_gesture && session->asked >= 0) {
		session_skip(session);
		return;
	}
	if (!looked_at && (record->item == 0 || record_empty(record))) {
		session_tell_where(session, text, sizeof(text));
		session_answer(session, CUE_NONE, "%s", text);
		return;
	}
	if (!looked_at && !session->warned && (lacks || session->question_count > 0)) {
		not_yet(session);
		return;
	}
	if (!way_back_known(session, found))
		return;
	session_tell_item(session, record, text, sizeof(text));
	if (looked_at)
		session_add(text, sizeof(text), ", ", "as it was");
	else
		session_add(text, sizeof(text), ", ", lacks ? "set aside, missing" : "done");
	if (lacks && !looked_at)
		session_add(text, sizeof(text), " ", missing);
	session_answer(session, CUE_TAKEN, "%s", text);
	tell_way_back(session);
	if (!looked_at)
		session->outcome.change = lacks ? ITEM_PUT_ASIDE : ITEM_CLOSED;
	session->outcome.then = leave;
}

void
session_set_aside(struct session *session, const struct record *found)
{
	char text[EFFECT_TEXT_MAX] = "", missing[EFFECT_TEXT_MAX] = "missing";
	if (session->record.item == 0) {
		session_refuse(session, "nothing is in hand to set aside");
		return;
	}
	if (!way_back_known(session, found))
		return;
	session_tell_item(session, &session->record, text, sizeof(text));
	session_add(text, sizeof(text), ", ", "set aside");
	if (session_tell_missing(session, &session->record, missing, sizeof(missing)))
		session_add(text, sizeof(text), ", ", missing);
	session_answer(session, CUE_TAKEN, "%s", text);
	tell_way_back(session);
	session->outcome.change = ITEM_PUT_ASIDE;
	session->outcome.then = leave;
}

static void
go_to(struct session *session, const struct record *found)
{
	char text[EFFECT_TEXT_MAX] = "";
	char missing[EFFECT_TEXT_MAX] = "missing";
	session_tell_item(session, found, text, sizeof(text));
	if (session_tell_missing(session, found, missing, sizeof(missing)))
		session_add(text, sizeof(text), ", ", missing);
	session_answer(session, CUE_TAKEN, "%s", text);
	session->outcome.change = change_by_leaving(session, &session->record);
	session->outcome.then = visit;
}

void
session_previous(struct session *session, const struct record *found)
{
	if (!found)
		session_find(session, FIND_BEFORE, session->record.item, "");
	else if (found->item == 0)
		session_refuse(session, "there is no item before");
	else
		go_to(session, found);
}

void
session_open(struct session *session, const struct record *found)
{
	const char *label = session->task.call.label;
	char said[128];
	label_say(label, said, sizeof(said));
	if (!found)
		session_find(session, FIND_LABEL, 0, label);
	else if (found->item == 0)
		session_refuse(session, "there is no item %s", said);
	else if (found->item == session->record.item)
		session_answer(session, CUE_NONE, "item %s is in hand", said);
	else
		go_to(session, found);
}

/* The item that got the entries is in hand from now on. They may be moved on from there, should it
 * have been the wrong one again. */
static void
moved(struct session *session, const struct written *written)
{
	bool is_new = session->outcome.change == ITEM_OPENED;
	int since = session->found.deed_count - 1;
	if (session->outcome.from_change != ITEM_UNCHANGED)
		session->revisited = true; /* it is closed: nothing to come back to */
	visit(session, written);
	if (is_new) {
		session->revisited = session->return_to != 0;
		memcpy(session->number_before, session->last_number, LABEL_MAX);
		snprintf(session->last_number, sizeof(session->last_number), "%s",
			 session->task.call.label);
	}
	session->since = since;
}

static bool
move(struct session *session)
{
	struct outcome *outcome = &session->outcome;
	struct call number = {.type = CALL_ITEM};
	if (!record_move_out(&session->record, session->since, &outcome->from_deed)) {
		session_refuse(session, "nothing was dictated that could move");
		return false;
	}
	bool is_new = session->found.item == 0;
	snprintf(number.label, sizeof(number.label), "%s", session->task.call.label);
	if (!record_move_in(&session->found, &session->record, &outcome->from_deed,
			    &outcome->deed) ||
	    (is_new && !record_keep(&session->found, &number, 0, &outcome->deed))) {
		if (session->found.deed_count > 0 &&
		    session->found.deeds[session->found.deed_count - 1].call == 0)
			record_unstored(&session->found);
		record_unstored(&session->record);
		session_refuse(session, "it does not fit there, nothing was moved");
		return false;
	}
	return true;
}

static bool
out_of_turn(const struct session *session, const char *label)
{
	char next[LABEL_MAX];
	return !session->task.confirmed && session->last_number[0] &&
	       (!session_number_after(session->last_number, next) || strcmp(label, next) != 0);
}

void
session_belong(struct session *session, const struct record *found)
{
	struct outcome *outcome = &session->outcome;
	const char *label = session->task.call.label;
	char said[128], count[64];
	label_say(label, said, sizeof(said));
	if (session->record.item == 0) {
		session_refuse(session, "nothing is in hand");
		return;
	}
	if (!found) {
		session_find(session, FIND_LABEL, 0, label);
		return;
	}
	if (found->item == session->record.item) {
		session_refuse(session, "item %s is in hand", said);
		return;
	}
	if (found->item == 0 && out_of_turn(session, label)) {
		char text[256];
		snprintf(text, sizeof(text), "item %s is new and out of turn: is that right?",
			 said);
		session->task.has_second = false;
		session_doubt(session, text);
		return;
	}
	if (!move(session))
		return;
	int moves = 0;
	for (int f = 0; f < outcome->from_deed.flip_count; f++)
		moves += !outcome->from_deed.flips[f].stands;
	number_say(moves, count, sizeof(count));
	session_answer(session, CUE_TAKEN, "%s moved to %sitem %s", count,
		       found->item == 0 ? "the new " : "", said);
	if (found->item == 0)
		session_keep_into(session, &session->found, &outcome->deed, outcome->text,
				  sizeof(outcome->text));
	outcome->has_deed = outcome->moves = true;
	outcome->change = found->item == 0	      ? ITEM_OPENED
			  : found->state == ITEM_OPEN ? ITEM_UNCHANGED
						      : ITEM_REOPENED;
	outcome->from_change = record_empty(&session->record)
				       ? ITEM_PUT_ASIDE
				       : change_by_leaving(session, &session->record);
	outcome->then = moved;
}
