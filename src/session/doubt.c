/* What was heard well but is doubted by what it says. */
#include "session_state.h"

static bool
off_the_list(struct session *session, const struct call *call)
{
	char text[DOUBT_REASON_MAX];
	if (call->type != CALL_BIN || vocabulary_count(session->vocabulary, LIST_BIN) == 0 ||
	    vocabulary_find(session->vocabulary, LIST_BIN, call->label) >= 0)
		return false;
	phrase_call(call, PHRASE_NAMED, text, sizeof(text));
	session_add(text, sizeof(text), "", " is not on the list: is that right?");
	session->task.has_second = false;
	session_doubt(session, text);
	return true;
}

/* "Two forty": what the price is not known to be until it is asked. */
static bool
two_amounts(struct session *session, const struct call *call)
{
	struct task *task = &session->task;
	if (!call->has_second)
		return false;
	task->has_second = true;
	task->second = task->call;
	task->second.money = task->call.money_second;
	task->second.has_second = task->call.has_second = false;
	session_doubt(session, NULL);
	return true;
}

/* It fits no such garment, or not the tag, or not what else was measured. */
static bool
unlikely(struct session *session, const struct call *call)
{
	struct task *task = &session->task;
	struct doubt doubt;
	struct doubt_view view = {.vocabulary = session->vocabulary,
				  .ranges = session->setting.ranges,
				  .record = &session->record,
				  .before = session->before.item ? &session->before : NULL,
				  .repeats = session->setting.repeats,
				  .wearer = session->setting.wearer};
	if (!view.ranges || !doubt_call(&view, call, &doubt))
		return false;
	task->has_second = doubt.has_second;
	task->second = doubt.second;
	task->barred = doubt.severity == DOUBT_IMPOSSIBLE;
	session_doubt(session, doubt.reason);
	return true;
}

bool
session_doubtful(struct session *session, const struct call *call)
{
	return !session->task.confirmed && (off_the_list(session, call) ||
					    two_amounts(session, call) || unlikely(session, call));
}
