#include "session_state.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>

/* How long, when the session is to end, the last words may take. */
enum { STOP_PATIENCE_MS = 10000 };

const struct session_setting session_usual = {
	.unit = LENGTH_INCH,
	.read_back = READ_BACK_NORMAL,
	.doubt_ms = 20000,
	.note_ms = 60000,
};

struct session *
session_create(const struct vocabulary *vocabulary, const struct session_setting *setting)
{
	struct session *session = calloc(1, sizeof(*session));
	if (!session)
		return NULL;
	session->vocabulary = vocabulary;
	session->setting = *setting;
	session->asked = session->asked_kind = -1;
	session->lost_ms = session->speech_ms = -1;
	session->stop_deadline_ms = INT64_MAX;
	record_init(&session->record);
	record_init(&session->found);
	record_init(&session->before);
	return session;
}

void
session_destroy(struct session *session)
{
	free(session);
}

static void
started(struct session *session, const struct event *event)
{
	char text[EFFECT_TEXT_MAX] = "";
	if (event->last_number)
		snprintf(session->last_number, sizeof(session->last_number), "%s",
			 event->last_number);
	if (event->found && event->found->item != 0) {
		session_take_up(session, event->found);
		session->revisited = false;
		const struct entry *number = record_slot(event->found, CALL_ITEM);
		if (number && !event->last_number)
			snprintf(session->last_number, sizeof(session->last_number), "%s",
				 number->said.label);
		session_add(text, sizeof(text), "", "going on with");
		session_tell_item(session, &session->record, text, sizeof(text));
		session_say(session, CUE_NONE, text);
	}
	session_settle(session, true);
}

/* What is due at this time and waits for nothing else. */
static void
due(struct session *session)
{
	if (session->waiting != WAITING_NOTHING)
		return;
	session_note_due(session);
	if (!session->paused && session_question_due(session))
		session_settle(session, true);
}

static void
end_if_done(struct session *session)
{
	bool quiet = !session->speaking && session->noting == NOTING_NOTHING;
	if (!session->stopping || session->ended || session->waiting != WAITING_NOTHING ||
	    session->line_count > 0)
		return;
	if (!quiet && session->now_ms < session->stop_deadline_ms)
		return;
	session->ended = true;
	session_effect(session, EFFECT_ENDED);
}

static void
take(struct session *session, const struct event *event)
{
	switch (event->type) {
	case EVENT_STARTED:
		started(session, event);
		break;
	case EVENT_SPEECH:
		session->speech_ms = event->at_ms;
		session_hush(session);
		break;
	case EVENT_PEDAL_DOWN:
		session_hush(session);
		break;
	case EVENT_HEARD:
		session->speech_ms = -1;
		session_heard(session, event->heard);
		break;
	case EVENT_NOTED:
		session_noted(session, event->token, event->written);
		break;
	case EVENT_PEDAL_HELD:
		session_say(session, CUE_HELD, "");
		break;
	case EVENT_GESTURE:
		session_gesture(session, event->gesture);
		break;
	case EVENT_STORED:
		session_stored(session, event->written);
		break;
	case EVENT_FOUND:
		session_found(session, event->found);
		break;
	case EVENT_SPOKEN:
		session->speaking = false;
		session->notice[0] = '\0';
		break;
	case EVENT_TIME:
		break;
	case EVENT_SOUND_LOST:
		session->lost_ms = event->at_ms;
		break;
	case EVENT_STOPPING:
		session->stopping = true;
		session->stop_deadline_ms = event->at_ms + STOP_PATIENCE_MS;
		if (session->noting == NOTING)
			session_note_end(session, false);
		break;
	}
}

void
session_feed(struct session *session, const struct event *event)
{
	assert(session->effect_at == session->effect_count);
	session->effect_at = session->effect_count = 0;
	if (session->ended)
		return;
	if (event->at_ms > session->now_ms)
		session->now_ms = event->at_ms;
	take(session, event);
	session_work(session);
	due(session);
	session_listen(session);
	end_if_done(session);
}

bool
session_next_effect(struct session *session, struct effect *effect)
{
	if (session->effect_at == session->effect_count)
		return false;
	*effect = session->effects[session->effect_at++];
	return true;
}

int64_t
session_deadline_ms(const struct session *session)
{
	int64_t deadline = INT64_MAX;
	if (session->ended || session->waiting != WAITING_NOTHING)
		return deadline;
	if (session->noting != NOTING_NOTHING)
		deadline = session->note_deadline_ms;
	if (session_question_stands(session) && !session->paused &&
	    session_question_deadline_ms(session) < deadline)
		deadline = session_question_deadline_ms(session);
	if (session->stopping && session->stop_deadline_ms < deadline)
		deadline = session->stop_deadline_ms;
	return deadline;
}
