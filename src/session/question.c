/* Doubts, and the questions about them: one at a time, in order.
 *
 *   WAITS --asked--> ASKED --speech or pedal--> CUT --asked again, after the answer--> ASKED
 *                      |                         |
 *                      +-- answered: removed     +
 *                      +-- doubt_ms after the first asking: kept for the desk, and said to be
 *
 * The time begins anew when somebody has to do with the question: asks for it again, answers it
 * unclearly, pauses. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

bool
session_question_stands(const struct session *session)
{
	return session->question_count > 0 && session->questions[0].state != QUESTION_WAITS;
}

void
session_question_remove(struct session *session, int index)
{
	session->question_count--;
	memmove(&session->questions[index], &session->questions[index + 1],
		sizeof(session->questions[0]) * (size_t)(session->question_count - index));
}

/* "chest thirteen or thirty", for saying what became of the question. */
static void
matter(const struct question *question, char *text, size_t size)
{
	const struct call *first = &question->first, *second = &question->second;
	char phrase[256];
	phrase_call(first, PHRASE_NAMED, text, size);
	if (!question->has_second)
		return;
	bool one_name = first->type == second->type &&
			(first->type != CALL_MEASURE || strcmp(first->name, second->name) == 0);
	bool value = one_name && first->type != CALL_FLAW && first->type != CALL_ORDER;
	phrase_call(second, value ? PHRASE_VALUE : PHRASE_NAMED, phrase, sizeof(phrase));
	session_add(text, size, "", " or ");
	session_add(text, size, "", phrase);
}

/* The doubted call is stored: it is asked about once those before it are answered. One that is
 * said again and doubted again takes the place of the first. */
static void
add(struct session *session, const struct written *written)
{
	const struct task *task = &session->task;
	if (session->question_count == QUESTIONS_MAX) {
		char text[EFFECT_TEXT_MAX] = "kept for the desk:";
		phrase_call(&task->call, PHRASE_NAMED, session->doubt_text,
			    sizeof(session->doubt_text));
		session_add(text, sizeof(text), " ", session->doubt_text);
		session_reply(session, CUE_NONE, text);
		return;
	}
	int at = task->settles ? task->question : session->question_count;
	struct question *question = &session->questions[at];
	memmove(question + 1, question,
		sizeof(*question) * (size_t)(session->question_count++ - at));
	question->state = QUESTION_WAITS;
	question->call = written->call;
	question->first = task->call;
	question->has_second = task->has_second;
	if (task->has_second)
		question->second = task->second;
	question->barred = task->barred;
	question->deadline_ms = INT64_MAX;
	snprintf(question->text, sizeof(question->text), "%s", session->doubt_text);
	session_question_again(
		session); /* no call goes without an answer: the first is asked again */
}

void
session_doubt(struct session *session, const char *text)
{
	struct task *task = &session->task;
	char *doubt = session->doubt_text;
	size_t size = sizeof(session->doubt_text);
	if (text) {
		snprintf(doubt, size, "%s", text);
	} else if (task->has_second) {
		phrase_question(&task->call, &task->second, doubt, size);
	} else {
		phrase_call(&task->call, PHRASE_NAMED, doubt, size);
		session_add(doubt, size, "", "?");
	}
	session->outcome.verdict = VERDICT_DOUBTED;
	session->outcome.then = add;
}

void
session_question_drop(struct session *session)
{
	char text[256];
	matter(&session->questions[0], text, sizeof(text));
	session_answer(session, CUE_STRUCK, "dropped: %s", text);
}

void
session_questions_to_desk(struct session *session)
{
	while (session->question_count > 0) {
		char what[256], text[300];
		matter(&session->questions[0], what, sizeof(what));
		snprintf(text, sizeof(text), "kept for the desk: %s", what);
		session_reply(session, CUE_NONE, text);
		session_question_remove(session, 0);
	}
}

void
session_question_ask(struct session *session)
{
	struct question *question = &session->questions[0];
	if (session->question_count == 0 || question->state == QUESTION_ASKED)
		return;
	/* Neither noise nor calls that pass it by lengthen a doubt, or it would be asked for ever.
	 */
	if (question->deadline_ms == INT64_MAX)
		question->deadline_ms = session->now_ms + session->setting.doubt_ms;
	if (session->now_ms >= session_question_deadline_ms(session))
		return; /* it is given up next */
	question->state = QUESTION_ASKED;
	session_say_question(session, CUE_DOUBTED, question->text);
}

void
session_question_cut(struct session *session)
{
	if (session->question_count > 0 && session->questions[0].state == QUESTION_ASKED)
		session->questions[0].state = QUESTION_CUT;
}

int64_t
session_question_deadline_ms(const struct session *session)
{
	int64_t deadline = session->questions[0].deadline_ms;
	int64_t heard_out = session->speech_ms + SPEECH_PATIENCE_MS;
	return session->speech_ms >= 0 && heard_out > deadline ? heard_out : deadline;
}

void
session_question_again(struct session *session)
{
	session_question_cut(session);
	if (session_question_stands(session))
		session->questions[0].deadline_ms = INT64_MAX;
}

bool
session_question_due(struct session *session)
{
	if (!session_question_stands(session) ||
	    session->now_ms < session_question_deadline_ms(session))
		return false;
	char what[256], text[300];
	matter(&session->questions[0], what, sizeof(what));
	snprintf(text, sizeof(text), "kept for the desk: %s", what);
	session_question_remove(session, 0);
	session->said_afresh = true;
	session_say_notice(session, CUE_NONE, text);
	return true;
}
