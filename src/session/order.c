/* Orders: what steers. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

static void
pause_begins(struct session *session, const struct written *written)
{
	session->paused = true;
}

static void
pause_ends(struct session *session, const struct written *written)
{
	session->paused = false;
	session_question_again(session);
	session->ask_due = true;
}

static void
resume(struct session *session)
{
	if (!session->paused) {
		session_answer(session, CUE_NONE, "listening");
		return;
	}
	session_answer(session, CUE_RESUMED, "listening");
	session->outcome.then = pause_ends;
}

static void
pause_now(struct session *session)
{
	session_answer(session, CUE_PAUSED, "paused");
	session->outcome.then = pause_begins;
}

/* The question or the measure that stands is asked again too. */
static void
ask_again(struct session *session, const struct written *written)
{
	session_question_again(session);
	session->ask_due = true;
}

static void
repeat(struct session *session)
{
	if (session->last_said[0])
		session_answer(session, CUE_NONE, "%s", session->last_said);
	else if (session->question_count == 0 && session->asked < 0)
		session_answer(session, CUE_NONE, "nothing was said yet");
	session->outcome.then = ask_again;
}

static void
missing(struct session *session)
{
	char text[EFFECT_TEXT_MAX] = "missing", unfinished[EFFECT_TEXT_MAX] = "nothing is in hand";
	session_tell_unfinished(session, unfinished, sizeof(unfinished));
	if (session->record.item == 0)
		session_answer(session, CUE_NONE, "%s", unfinished);
	else if (!record_slot(&session->record, CALL_KIND))
		session_answer(session, CUE_NONE, "the kind is missing");
	else if (session_tell_missing(session, &session->record, text, sizeof(text)))
		session_answer(session, CUE_NONE, "%s", text);
	else
		session_answer(session, CUE_NONE, "nothing is missing");
}

static void
hand_over(struct session *session)
{
	session_answer(session, CUE_TAKEN, "handed over to %s", session->task.call.name);
}

static void
tell(struct session *session, void (*teller)(const struct session *, char *, size_t))
{
	char text[EFFECT_TEXT_MAX] = "";
	teller(session, text, sizeof(text));
	session_answer(session, CUE_NONE, "%s", text);
}

static void
help(struct session *session)
{
	char text[EFFECT_TEXT_MAX] = "";
	session_tell_help(session, session->task.call.topic, text, sizeof(text));
	session_answer(session, CUE_NONE, "%s", text);
}

void
session_order(struct session *session, const struct record *found)
{
	switch (session->task.call.order) {
	case ORDER_NEXT:
		session_next(session, found);
		break;
	case ORDER_PREVIOUS:
		session_previous(session, found);
		break;
	case ORDER_REPEAT:
		repeat(session);
		break;
	case ORDER_STRIKE_THAT:
		session_strike_that(session);
		break;
	case ORDER_STRIKE:
		session_strike(session);
		break;
	case ORDER_RESTORE:
		session_restore(session);
		break;
	case ORDER_READ_IT_ALL:
		if (session->record.item == 0)
			tell(session, session_tell_where);
		else
			tell(session, session_tell_all);
		break;
	case ORDER_WHAT_IS_MISSING:
		missing(session);
		break;
	case ORDER_WHERE_AM_I:
		tell(session, session_tell_where);
		break;
	case ORDER_OPEN_ITEM:
		session_open(session, found);
		break;
	case ORDER_SET_ASIDE:
		session_set_aside(session, found);
		break;
	case ORDER_BELONG_TO:
		session_belong(session, found);
		break;
	case ORDER_ASK_ME:
		session_ask_me(session, true);
		break;
	case ORDER_STOP_ASKING:
		session_ask_me(session, false);
		break;
	case ORDER_PAUSE:
		pause_now(session);
		break;
	case ORDER_RESUME:
		resume(session);
		break;
	case ORDER_HELP:
		help(session);
		break;
	case ORDER_HAND_OVER:
		hand_over(session);
		break;
	case ORDERS:
		session_refuse(session, "say that again");
		break;
	}
}
