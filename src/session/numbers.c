/* Item numbers: each is used once, and they follow one another. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

/* The number after this one, as wide: "0099" is followed by "0100", "99" by "100". False when it is
 * no string of digits, or the next one is too long. */
bool
session_number_after(const char *number, char next[LABEL_MAX])
{
	size_t length = strlen(number);
	if (length == 0 || length + 2 > LABEL_MAX || strspn(number, "0123456789") != length)
		return false;
	memcpy(next, number, length + 1);
	for (size_t i = length; i > 0; i--) {
		if (next[i - 1] != '9') {
			next[i - 1]++;
			return true;
		}
		next[i - 1] = '0';
	}
	memmove(next + 1, next, length + 1);
	next[0] = '1';
	return true;
}

void
session_number_given(struct session *session, const char *label)
{
	char next[LABEL_MAX];
	if (!session_number_after(label, next) || strcmp(label, session->last_number) == 0)
		return;
	memcpy(session->number_before, session->last_number, LABEL_MAX);
	snprintf(session->last_number, sizeof(session->last_number), "%s", label);
}

void
session_number_taken_back(struct session *session, const char *label)
{
	if (strcmp(label, session->last_number) == 0)
		memcpy(session->last_number, session->number_before, LABEL_MAX);
}

static void
number_given(struct session *session, const struct written *written)
{
	session_number_given(session, session->task.call.label);
}

/* The number that this item's should follow: the last one given, unless that is this item's own,
 * which a new one replaces. Empty: any will do. */
static const char *
number_to_follow(const struct session *session)
{
	const struct entry *number = record_slot(&session->record, CALL_ITEM);
	bool own = number && strcmp(number->said.label, session->last_number) == 0;
	return own ? session->number_before : session->last_number;
}

/* The very number that was to come, for a garment that has none: what was heard by halves is then
 * believed, as anybody would who keeps count. */
bool
session_number_expected(const struct session *session, const struct call *call)
{
	char next[LABEL_MAX];
	return call->type == CALL_ITEM && !call->correction && !call->kept &&
	       !record_slot(&session->record, CALL_ITEM) &&
	       session_number_after(session->last_number, next) && strcmp(next, call->label) == 0;
}

/* Looks for the next free number after the last one, one find a step. True when it is known: in
 * task.candidate, which is empty when there is none. */
static bool
next_free(struct session *session, const struct record *found)
{
	struct task *task = &session->task;
	char next[LABEL_MAX];
	bool tried = task->find_steps > 1;
	if (tried && (!found || found->item == 0 || found->item == session->record.item))
		return true;
	const char *last = tried ? task->candidate : number_to_follow(session);
	if (!session_number_after(last, next) || task->find_steps == FIND_STEPS_MAX) {
		task->candidate[0] = '\0';
		return true;
	}
	snprintf(task->candidate, sizeof(task->candidate), "%s", next);
	if (!task->is_taken && strcmp(next, task->call.label) == 0)
		return true; /* all between are taken */
	task->find_steps++;
	session_find(session, FIND_LABEL, 0, next);
	return false;
}

/* Another number for a garment that has one and was measured under it: more likely the next garment
 * is in hand, and "next" was forgotten. A number said with a "no" before it is a correction. */
static bool
renumbers(const struct session *session, const struct entry *now)
{
	const struct task *task = &session->task;
	if (!now || task->confirmed || task->call.correction ||
	    strcmp(now->said.label, task->call.label) == 0)
		return false;
	for (int i = 0; i < session->record.entry_count; i++) {
		const struct entry *entry = &session->record.entries[i];
		if (entry->stands &&
		    (entry->said.type == CALL_MEASURE || entry->said.type == CALL_FLAW))
			return true;
	}
	return false;
}

/* "item LABEL": first whether another item has it, then whether it is meant for this one, then
 * whether it is out of turn. */
void
session_number(struct session *session, const struct record *found)
{
	struct task *task = &session->task;
	const struct entry *now = record_slot(&session->record, CALL_ITEM);
	char label[128], next[128], text[320];
	if (!found) {
		task->find_steps = 1;
		session_find(session, FIND_LABEL, 0, task->call.label);
		return;
	}
	if (task->find_steps == 1)
		task->is_taken = found->item != 0 && found->item != session->record.item;
	if (!task->is_taken && renumbers(session, now)) {
		char has[128];
		label_say(now->said.label, has, sizeof(has));
		label_say(task->call.label, label, sizeof(label));
		snprintf(text, sizeof(text), "item %s is in hand: is it to be %s?", has, label);
		task->has_second = false;
		session_doubt(session, text);
		return;
	}
	bool in_turn = number_to_follow(session)[0] == '\0' || task->confirmed ||
		       (now && strcmp(now->said.label, task->call.label) == 0);
	if ((task->is_taken || !in_turn) && !next_free(session, found))
		return;
	label_say(task->call.label, label, sizeof(label));
	label_say(task->candidate, next, sizeof(next));
	if (task->is_taken) {
		if (next[0])
			session_refuse(session, "%s is taken, %s is free", label, next);
		else
			session_refuse(session, "%s is taken", label);
		return;
	}
	if (!in_turn && strcmp(task->candidate, task->call.label) != 0) {
		snprintf(text, sizeof(text), "%s is out of turn%s%s: is that right?", label,
			 next[0] ? ", next is " : "", next);
		task->has_second = false;
		session_doubt(session, text);
		return;
	}
	session_write_down(session, &task->call);
	if (session->outcome.has_deed)
		session->outcome.then = number_given;
}
