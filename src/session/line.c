/* What comes in: calls wait in line while the store is at work on the one before. The line is
 * bounded; what does not fit whole is refused aloud and not stored. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

static struct task *
line_add(struct session *session)
{
	int end = (session->line_start + session->line_count++) % LINE_TASKS_MAX;
	memset(&session->line[end], 0, sizeof(session->line[end]));
	return &session->line[end];
}

bool
session_line_next(struct session *session, struct task *task)
{
	if (session->line_count == 0)
		return false;
	*task = session->line[session->line_start];
	session->line_start = (session->line_start + 1) % LINE_TASKS_MAX;
	session->line_count--;
	return true;
}

static void
line_full(struct session *session)
{
	session_say(session, CUE_TROUBLE, "say that again");
}

/* The words of one call of several; all of them when they are not told apart. */
static void
words_of(const struct heard *heard, const struct call *call, char *text, size_t size)
{
	struct words words;
	int end = call->first_word + call->word_count;
	if (heard->call_count < 2 || call->word_count == 0 || !words_split(&words, heard->text) ||
	    end > words.count) {
		snprintf(text, size, "%s", heard->text);
		return;
	}
	text[0] = '\0';
	for (int i = call->first_word; i < end; i++)
		session_add(text, size, " ", words.word[i]);
}

static bool
opens_with_no(const char *text)
{
	return strncmp(text, "no ", 3) == 0;
}

void
session_heard(struct session *session, const struct heard *heard)
{
	bool refused = heard->verdict == VERDICT_REFUSED || heard->call_count == 0;
	int count = heard->call_count > 0 ? heard->call_count : 1;
	bool lost = heard->start_ms <= session->lost_ms && session->lost_ms >= 0;

	if (session->noting == NOTING || (refused && !heard->near)) {
		/* Not for us: no sound, no trace. But what it cut short is said again. */
		if (session->waiting == WAITING_NOTHING && session->line_count == 0)
			session_settle(session, false);
		return;
	}
	if (session->line_count + count > LINE_TASKS_MAX) {
		line_full(session);
		return;
	}
	for (int i = 0; i < count; i++) {
		struct task *task = line_add(session);
		task->source = heard->utterance != 0 ? SOURCE_VOICE : SOURCE_PEDAL;
		task->utterance = heard->utterance;
		task->at_ms = heard->start_ms;
		task->first = i == 0;
		task->last = i == count - 1;
		task->lost = lost;
		task->heard = refused ? VERDICT_REFUSED : heard->calls[i].verdict;
		task->confidence = heard->confidence;
		snprintf(task->text, sizeof(task->text), "%s", heard->text);
		if (heard->call_count == 0)
			continue;
		const struct heard_call *call = &heard->calls[i];
		task->has_call = true;
		task->call = call->call;
		task->has_second = call->has_second;
		if (call->has_second)
			task->second = call->second;
		task->confidence = call->confidence;
		task->withdraws = i == 0 && call->call.correction && opens_with_no(heard->text);
		words_of(heard, &call->call, task->text, sizeof(task->text));
	}
}

static const char *const gesture_names[] = {"tap", "double tap", "hold", "long hold"};

void
session_gesture(struct session *session, enum gesture gesture)
{
	bool ends_note = session->noting == NOTING;
	if (ends_note)
		session_note_end(session, false);
	if (session->line_count == LINE_TASKS_MAX) {
		line_full(session);
		return;
	}
	struct task *task = line_add(session);
	task->source = SOURCE_PEDAL;
	task->at_ms = session->now_ms;
	task->first = task->last = true;
	task->ends_note = ends_note;
	task->is_gesture = true;
	task->gesture = gesture;
	task->heard = VERDICT_TAKEN;
	task->confidence = 1;
	snprintf(task->text, sizeof(task->text), "%s", gesture_names[gesture]);
}
