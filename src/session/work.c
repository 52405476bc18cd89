/* One task after another: settled, decided, stored, answered. */
#include "session_state.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* How often what noise cut short is said again. */
enum { NOISE_MAX = 3 };

void
session_answer(struct session *session, enum cue cue, const char *format, ...)
{
	struct outcome *outcome = &session->outcome;
	va_list arguments;
	outcome->verdict = VERDICT_TAKEN;
	outcome->cue = cue;
	va_start(arguments, format);
	vsnprintf(outcome->text, sizeof(outcome->text), format, arguments);
	va_end(arguments);
}

void
session_refuse(struct session *session, const char *format, ...)
{
	struct outcome *outcome = &session->outcome;
	va_list arguments;
	outcome->verdict = VERDICT_REFUSED;
	outcome->cue = CUE_REFUSED;
	va_start(arguments, format);
	vsnprintf(outcome->text, sizeof(outcome->text), format, arguments);
	va_end(arguments);
}

static bool
is_order(const struct call *call, enum order order)
{
	return call->type == CALL_ORDER && call->order == order;
}

static void
answer_without_question(struct session *session)
{
	if (session->task.drops)
		session_question_drop(session);
	else if (session_question_stands(session) && !session->task.call.correction) {
		bool barred = session->questions[0].barred;
		session_refuse(session, barred ? "say it again" : "there is no second");
		session_question_again(session);
	} else if (session->task.call.correction)
		session_answer(session, CUE_NONE, "nothing was written");
	else
		session_refuse(session, "nothing was asked");
}

static void
decide_meaning(struct session *session, const struct record *found)
{
	const struct call *call = &session->task.call;
	switch (call->type) {
	case CALL_KIND:
	case CALL_MEASURE:
	case CALL_FLAW:
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
	case CALL_NOTE:
		session_write_call(session, call);
		break;
	case CALL_ITEM:
		session_number(session, found);
		break;
	case CALL_KEEP:
		session_keep(session);
		break;
	case CALL_ORDER:
		session_order(session, found);
		break;
	case CALL_ANSWER:
		answer_without_question(session);
		break;
	case CALL_TYPES:
		session_refuse(session, "say that again");
		break;
	}
}

/* What the task comes to; or, when something has to be found first, nothing yet. */
static void
decide(struct session *session, const struct record *found)
{
	const struct task *task = &session->task;
	struct outcome *outcome = &session->outcome;
	outcome->verdict = VERDICT_TAKEN;
	outcome->cue = CUE_NONE;
	outcome->text[0] = '\0';
	outcome->has_deed = outcome->moves = false;
	outcome->change = outcome->from_change = ITEM_UNCHANGED;
	outcome->settles = 0;
	outcome->then = NULL;

	if (task->ends_note) {
		/* It does nothing more. */
	} else if (task->lost) {
		session_refuse(session, "a piece of that was lost, say it again");
		outcome->cue = CUE_TROUBLE;
	} else if (session->paused && !is_order(&task->call, ORDER_RESUME)) {
		session_refuse(session, "paused");
	} else if (task->heard == VERDICT_REFUSED ||
		   (session->paused && task->heard == VERDICT_DOUBTED)) {
		session_refuse(session, "%s", "");
	} else if (task->unclear) {
		char value[128];
		phrase_call(&task->call, PHRASE_VALUE, value, sizeof(value));
		session_refuse(session, "%s of what?", value);
	} else if (task->heard == VERDICT_DOUBTED && !task->confirmed &&
		   !session_number_expected(session, &task->call)) {
		if (task->call.type == CALL_ANSWER) {
			session_refuse(session, "say that again");
			session_question_again(session);
		} else {
			session_doubt(session, NULL);
		}
	} else {
		decide_meaning(session, found);
	}
	/* What was answered but cannot be done is not asked again, and is left to the desk. */
	if (task->settles && outcome->verdict != VERDICT_REFUSED)
		outcome->settles = session->questions[task->question].call;
}

static void
store(struct session *session)
{
	const struct task *task = &session->task;
	const struct outcome *outcome = &session->outcome;
	struct write *write = &session->write;
	const struct record *record = outcome->moves ? &session->found : &session->record;

	write->token = ++session->tokens;
	write->utterance = task->utterance;
	write->item = record->item;
	write->at_ms = task->at_ms;
	write->source = task->source;
	write->verdict = outcome->verdict;
	write->confidence = task->confidence;
	write->has_call = task->has_call;
	write->said = task->call;
	snprintf(write->text, sizeof(write->text), "%s", task->text);
	write->change = outcome->change;
	write->has_deed = outcome->has_deed;
	if (outcome->has_deed)
		write->deed = outcome->deed;
	write->settles = outcome->settles;
	write->record = record;
	write->moved_from = outcome->moves ? session->record.item : 0;
	write->from_change = outcome->from_change;
	write->from_record = outcome->moves ? &session->record : NULL;
	if (outcome->moves)
		write->from_deed = outcome->from_deed;
	session_listen(session); /* what asks comes last: its answer may be fed at once */
	session_effect(session, EFFECT_STORE)->write = write;
	session->waiting = WAITING_STORED;
}

/* What is said in a pause is nobody's business, and what follows "note" is the note. */
static bool
unheard(const struct session *session)
{
	const struct task *task = &session->task;
	if (task->source != SOURCE_VOICE)
		return false;
	return session->noting == NOTING ||
	       (session->paused && !is_order(&task->call, ORDER_RESUME));
}

static void
utterance_ends(struct session *session)
{
	if (!session->task.last)
		return;
	session_reply_end(session);
	if (session->line_count == 0)
		session_settle(session, true);
}

void
session_work(struct session *session)
{
	while (session->waiting == WAITING_NOTHING && session_line_next(session, &session->task)) {
		if (unheard(session)) {
			utterance_ends(session);
			continue;
		}
		session->said_afresh |= session->task.first;
		session_task_settle(session);
		decide(session, NULL);
		if (session->waiting == WAITING_NOTHING)
			store(session);
	}
}

void
session_found(struct session *session, const struct record *found)
{
	if (session->waiting != WAITING_FOUND)
		return;
	session->waiting = WAITING_NOTHING;
	if (found)
		record_copy(&session->found, found);
	else
		record_init(&session->found);
	decide(session, &session->found);
	if (session->waiting == WAITING_NOTHING)
		store(session);
}

static void
state_follows(struct session *session, struct record *record, enum item_change change)
{
	switch (change) {
	case ITEM_UNCHANGED:
		break;
	case ITEM_OPENED:
	case ITEM_REOPENED:
		record->state = ITEM_OPEN;
		break;
	case ITEM_CLOSED:
		record->state = ITEM_DONE;
		break;
	case ITEM_PUT_ASIDE:
		record->state = ITEM_SET_ASIDE;
		break;
	}
	if (change != ITEM_UNCHANGED)
		session_unfinished_follows(session, record);
}

static void
done(struct session *session, const struct written *written)
{
	struct outcome *outcome = &session->outcome;
	struct record *record = outcome->moves ? &session->found : &session->record;
	if (outcome->has_deed) {
		record->item = written->item;
		record_stored(record, written->call, written->first_entry);
	}
	state_follows(session, record, outcome->change);
	if (outcome->moves) {
		record_stored(&session->record, written->call, 0);
		state_follows(session, &session->record, outcome->from_change);
	}
	if (outcome->verdict != VERDICT_REFUSED && !is_order(&session->task.call, ORDER_NEXT))
		session->warned = false;
	session->last_wrote = outcome->has_deed && outcome->deed.type == DEED_WROTE;
	if (session->task.settles)
		session_question_remove(session, session->task.question);
	if (outcome->then)
		outcome->then(session, written);
	session_reply(session, outcome->cue, outcome->text);
}

/* As if it had never been said; but it is said that it was not written. */
static void
undone(struct session *session, const struct written *written)
{
	struct outcome *outcome = &session->outcome;
	char text[EFFECT_TEXT_MAX];
	if (outcome->has_deed)
		record_unstored(outcome->moves ? &session->found : &session->record);
	if (outcome->moves)
		record_unstored(&session->record);
	outcome->verdict = VERDICT_REFUSED;
	session->last_wrote = false;
	text[0] = '\0';
	if (outcome->has_deed)
		phrase_call(&session->task.call, PHRASE_NAMED, text, sizeof(text));
	session_add(text, sizeof(text), " ", "not written: ");
	session_add(text, sizeof(text), "", written->why_not);
	session_reply(session, CUE_TROUBLE, text);
}

void
session_stored(struct session *session, const struct written *written)
{
	if (session->waiting != WAITING_STORED || written->token != session->write.token)
		return;
	session->waiting = WAITING_NOTHING;
	struct effect *effect = session_effect(session, EFFECT_ANSWER);
	effect->token = written->token;
	if (session->task.has_call)
		phrase_written(&session->task.call, effect->text, sizeof(effect->text));
	if (written->stored) {
		effect->item = written->item;
		effect->call = written->call;
		done(session, written);
	} else {
		undone(session, written);
	}
	effect->verdict = session->outcome.verdict;
	utterance_ends(session);
}

/* What noise cut short is said again a few times, but a radio must not make a parrot of us. */
void
session_settle(struct session *session, bool answered)
{
	session->noise = answered ? 0 : session->noise + 1;
	if (session->noise > NOISE_MAX || session->noting != NOTING_NOTHING)
		return;
	if (session->owed[0]) {
		char owed[EFFECT_TEXT_MAX];
		snprintf(owed, sizeof(owed), "%s", session->owed);
		session->owed[0] = '\0';
		session_say_notice(session, session->owed_cue, owed);
	}
	if (session->paused)
		return;
	if (session->question_count > 0)
		session_question_ask(session);
	else
		session_ask(session);
}
