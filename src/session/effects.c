/* What goes out. */
#include "session_state.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

struct effect *
session_effect(struct session *session, enum effect_type type)
{
	assert(session->effect_count < EFFECTS_MAX);
	struct effect *effect = &session->effects[session->effect_count++];
	effect->type = type;
	effect->cue = CUE_NONE;
	effect->place = PLACE_ITEM;
	effect->find = FIND_LABEL;
	effect->verdict = VERDICT_TAKEN;
	effect->token = 0;
	effect->item = effect->call = 0;
	effect->label[0] = effect->name[0] = effect->text[0] = '\0';
	effect->write = NULL;
	return effect;
}

void
session_say_question(struct session *session, enum cue cue, const char *text)
{
	struct effect *effect = session_effect(session, EFFECT_SAY);
	effect->cue = cue;
	snprintf(effect->text, sizeof(effect->text), "%s", text);
	session->speaking = true;
}

/* So that it does not go unheard when it is cut short. */
static void
notice(struct session *session, enum cue cue, const char *text)
{
	if (session->notice[0] == '\0' || cue == CUE_TROUBLE)
		session->notice_cue = cue;
	if (!strstr(session->notice, text))
		session_add(session->notice, sizeof(session->notice), "; ", text);
}

void
session_say(struct session *session, enum cue cue, const char *text)
{
	session_say_question(session, cue, text);
	if (text[0] == '\0')
		return;
	if (cue == CUE_TROUBLE)
		notice(session, cue, text);
	if (session->said_afresh)
		session->last_said[0] = '\0';
	session->said_afresh = false;
	session_add(session->last_said, sizeof(session->last_said), ", ", text);
}

void
session_say_notice(struct session *session, enum cue cue, const char *text)
{
	session_say(session, cue, text);
	notice(session, cue, text);
}

void
session_reply(struct session *session, enum cue cue, const char *text)
{
	if (cue == CUE_NONE && text[0] == '\0')
		return;
	if (session->has_reply && session->reply_cue != cue)
		session_reply_end(session);
	if (!session->has_reply)
		session->reply[0] = '\0';
	session->has_reply = true;
	session->reply_cue = cue;
	session_add(session->reply, sizeof(session->reply), ", ", text);
}

void
session_reply_end(struct session *session)
{
	if (session->has_reply)
		session_say(session, session->reply_cue, session->reply);
	session->has_reply = false;
}

void
session_hush(struct session *session)
{
	if (!session->speaking)
		return;
	session_effect(session, EFFECT_HUSH);
	session->speaking = false;
	session_question_cut(session);
	session->ask_due |= session->asked >= 0;
	if (session->notice[0] == '\0')
		return;
	if (session->owed[0] == '\0' || session->notice_cue == CUE_TROUBLE)
		session->owed_cue = session->notice_cue;
	session_add(session->owed, sizeof(session->owed), "; ", session->notice);
	session->notice[0] = '\0';
}

void
session_find(struct session *session, enum find find, int64_t item, const char *label)
{
	session_listen(session);
	struct effect *effect = session_effect(session, EFFECT_FIND);
	effect->find = find;
	effect->item = item;
	snprintf(effect->label, sizeof(effect->label), "%s", label);
	session->waiting = WAITING_FOUND;
}

static enum place
place_now(const struct session *session, const char **name)
{
	*name = "";
	if (session->paused)
		return PLACE_PAUSED;
	if (session->noting == NOTING) {
		*name = session->note_name;
		return PLACE_NOTE;
	}
	if (session_question_stands(session)) {
		const struct call *first = &session->questions[0].first;
		*name = first->type == CALL_MEASURE ? first->name : "";
		return PLACE_QUESTION;
	}
	if (session->asked >= 0) {
		*name = vocabulary_term(session->vocabulary, LIST_MEASURE, session->asked)->name;
		return PLACE_ASKED;
	}
	return PLACE_ITEM;
}

void
session_listen(struct session *session)
{
	const char *name;
	enum place place = place_now(session, &name);
	if (session->place_told && place == session->place &&
	    strcmp(name, session->place_name) == 0)
		return;
	session->place_told = true;
	session->place = place;
	snprintf(session->place_name, sizeof(session->place_name), "%s", name);
	bool note = place == PLACE_NOTE;
	struct effect *effect = session_effect(session, note ? EFFECT_NOTE : EFFECT_LISTEN);
	effect->place = place;
	snprintf(effect->name, sizeof(effect->name), "%s", name);
	if (note) {
		effect->token = session->note_token;
		effect->call = session->note_call;
		effect->item = session->record.item;
	}
}
