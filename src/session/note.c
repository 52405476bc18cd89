/* Notes and off-list words: the call is stored at once, its sound is kept while it is spoken. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

/* How long the keeping of the sound may take until it counts as not kept. */
enum { KEEPING_PATIENCE_MS = 10000 };

void
session_note(struct session *session, const struct written *written)
{
	const struct call *call = &session->task.call;
	if (session->stopping)
		return; /* no sound will come */
	session->noting = NOTING;
	session->note_by_limit = false;
	session->note_call = written->call;
	session->note_token = written->token;
	session->note_deadline_ms = session->now_ms + session->setting.note_ms;
	snprintf(session->note_name, sizeof(session->note_name), "%s", call_type_name(call->type));
	session_listen(session); /* at once: a gesture that waits in line may end it again */
}

void
session_note_end(struct session *session, bool by_limit)
{
	session->noting = NOTING_ENDS;
	session->note_by_limit = by_limit;
	session->note_deadline_ms = session->now_ms + KEEPING_PATIENCE_MS;
}

void
session_note_due(struct session *session)
{
	static const struct written unanswered = {.why_not = "the recorder does not answer"};
	if (session->noting == NOTING_NOTHING || session->now_ms < session->note_deadline_ms)
		return;
	if (session->noting == NOTING)
		session_note_end(session, true);
	else
		session_noted(session, session->note_token, &unanswered);
}

void
session_noted(struct session *session, uint64_t token, const struct written *written)
{
	char text[EFFECT_TEXT_MAX];
	if (session->noting == NOTING_NOTHING)
		return;
	bool by_limit = session->note_by_limit ||
			(session->noting == NOTING && session->now_ms >= session->note_deadline_ms);
	if (token == 0 || token == session->note_token)
		session->noting = NOTING_NOTHING; /* else the next one is under way already */
	session->said_afresh = true;
	if (written && !written->stored) {
		snprintf(text, sizeof(text), "%s not kept: %s", session->note_name,
			 written->why_not);
		session_say(session, CUE_TROUBLE, text);
	} else {
		snprintf(text, sizeof(text), "%s%s kept for the desk",
			 by_limit ? "the time is up, " : "", session->note_name);
		session_say(session, CUE_TAKEN, text);
	}
	if (session->waiting == WAITING_NOTHING)
		session_settle(session, true);
}
