/* What a task means here and now: a gesture becomes an order, an answer the call that it chose, a
 * bare value gets its measure. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

static void
gesture_means(struct session *session, struct task *task)
{
	task->has_call = true;
	task->call.type = CALL_ORDER;
	switch (task->gesture) {
	case GESTURE_TAP:
		task->call.order = ORDER_NEXT;
		if (session_question_stands(session)) {
			task->call.type = CALL_ANSWER;
			task->call.choice = 1;
		}
		break;
	case GESTURE_DOUBLE_TAP:
		task->call.order = ORDER_REPEAT;
		break;
	case GESTURE_HOLD:
		task->call.order = ORDER_STRIKE_THAT;
		break;
	case GESTURE_LONG_HOLD:
		task->call.order = session->paused ? ORDER_RESUME : ORDER_PAUSE;
		break;
	}
}

static void
chosen(struct task *task, const struct call *call)
{
	task->call = *call;
	task->confirmed = true;
	task->settles = true;
	task->heard = VERDICT_TAKEN;
}

/* "First", "second", "no", "strike that". False when it is no answer of this kind. */
static bool
answer_chooses(struct task *task, const struct question *question)
{
	const struct call *call = &task->call;
	if (task->heard == VERDICT_DOUBTED)
		return false;
	if (call->type == CALL_ORDER && call->order == ORDER_STRIKE_THAT) {
		task->drops = task->settles = true;
		task->call = (struct call){.type = CALL_ANSWER, .choice = 0};
		return true;
	}
	if (call->type != CALL_ANSWER || call->correction)
		return false;
	if (call->choice == 0)
		task->drops = task->settles = true;
	else if (call->choice == 1 && !question->barred)
		chosen(task, &question->first);
	else if (question->has_second)
		chosen(task, &question->second);
	return true;
}

/* Whether `call` is about the same thing as the doubted one, so that it takes its place. */
static bool
same_matter(const struct call *call, const struct call *doubted)
{
	if (call->type != doubted->type || call->kept != doubted->kept)
		return false;
	switch (call->type) {
	case CALL_MEASURE:
		return strcmp(call->name, doubted->name) == 0;
	case CALL_FLAW:
		return strcmp(call->name, doubted->name) == 0;
	case CALL_ORDER:
		return call->order == doubted->order;
	case CALL_NOTE:
	case CALL_ANSWER:
	case CALL_TYPES:
		return false;
	case CALL_KIND:
	case CALL_ITEM:
	case CALL_BIN:
	case CALL_MAKER:
	case CALL_SIZE:
	case CALL_COLOUR:
	case CALL_CLOTH:
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
	case CALL_WEIGHT:
	case CALL_COST:
	case CALL_PRICE:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
	case CALL_CARE:
	case CALL_MENDING:
	case CALL_PART:
	case CALL_KEEP:
		return true;
	}
	return false;
}

/* A bare value said while a measure is in doubt is that measure's; where the doubt is which measure
 * was meant, it is the one with this value. */
static void
name_from_question(struct task *task, const struct question *question)
{
	struct call as_second = task->call;
	const char *name = question->first.name;
	if (question->first.type != CALL_MEASURE)
		return;
	if (question->has_second && question->second.type == CALL_MEASURE) {
		snprintf(as_second.name, sizeof(as_second.name), "%s", question->second.name);
		if (call_same(&as_second, &question->second))
			name = question->second.name;
	}
	snprintf(task->call.name, sizeof(task->call.name), "%s", name);
	if (task->has_second && task->second.name[0] == '\0')
		snprintf(task->second.name, sizeof(task->second.name), "%s", name);
}

static bool
bare(const struct call *call)
{
	return call->type == CALL_MEASURE && call->name[0] == '\0';
}

static bool
answer_says_again(struct task *task, const struct question *question)
{
	bool first = call_same(&task->call, &question->first);
	bool second = question->has_second && call_same(&task->call, &question->second);
	bool matter = same_matter(&task->call, &question->first) ||
		      (question->has_second && same_matter(&task->call, &question->second));
	if (!first && !second && !matter)
		return false;
	task->settles = true;
	if (task->heard == VERDICT_TAKEN)
		task->confirmed = first || second;
	return true;
}

/* Which question the task answers, if any: mostly the one that stands, but one that waits can be
 * said again too. */
static void
answer(struct session *session, struct task *task)
{
	task->question = 0;
	if (!session_question_stands(session) || answer_chooses(task, &session->questions[0]))
		return;
	if (bare(&task->call))
		name_from_question(task, &session->questions[0]);
	while (task->question < session->question_count &&
	       !answer_says_again(task, &session->questions[task->question]))
		task->question++;
}

/* The measure that was written last, or struck since, for "no, twenty two"; NULL when there is
 * none. */
static const char *
last_measure(const struct record *record)
{
	for (int i = record->deed_count - 1; i >= 0; i--) {
		const struct deed *deed = &record->deeds[i];
		bool struck = deed->type == DEED_STRUCK;
		const struct entry *entry =
			struck ? record_ended(record, deed) : record_began(record, deed);
		if (entry && entry->said.type == CALL_MEASURE && (entry->stands || struck))
			return entry->said.name;
	}
	return NULL;
}

static void
name_bare(struct session *session, struct task *task)
{
	const char *name = NULL;
	if (task->call.correction) {
		name = last_measure(&session->record);
		task->withdraws = false; /* what was said since stays */
	}
	if (!name && session->asked >= 0) {
		name = vocabulary_term(session->vocabulary, LIST_MEASURE, session->asked)->name;
		task->as_asked = true;
	}
	if (!name) {
		task->unclear = true;
		return;
	}
	snprintf(task->call.name, sizeof(task->call.name), "%s", name);
	if (task->has_second && bare(&task->second))
		snprintf(task->second.name, sizeof(task->second.name), "%s", name);
}

static void
settle_pieces(const struct session *session, struct task *task)
{
	session_piece_settle(session, &task->call);
	if (task->has_second)
		session_piece_settle(session, &task->second);
}

void
session_task_settle(struct session *session)
{
	struct task *task = &session->task;
	if (task->is_gesture && session->noting == NOTING) {
		session_note_end(session, false);
		task->ends_note = true;
	}
	if (task->ends_note || task->lost)
		return;
	if (task->is_gesture)
		gesture_means(session, task);
	if (!task->has_call || task->heard == VERDICT_REFUSED || session->paused)
		return;
	settle_pieces(session, task);
	answer(session, task);
	if (bare(&task->call))
		name_bare(session, task);
	settle_pieces(session, task);
}
