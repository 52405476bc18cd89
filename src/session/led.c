/* The station leads: it names the next missing measure, and a bare value answers. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

/* The next wanted measure that has no reading and was not skipped; -1: there is none. */
static int
next_to_ask(const struct session *session)
{
	if (session->asked_kind < 0)
		return -1;
	const struct term *kind =
		vocabulary_term(session->vocabulary, LIST_KIND, session->asked_kind);
	for (int i = 0; i < kind->wanted_count; i++) {
		const struct term *measure =
			vocabulary_term(session->vocabulary, LIST_MEASURE, kind->wanted[i]);
		if (!session->skipped[i] &&
		    !record_measured(&session->record, session_piece(session), measure->name))
			return kind->wanted[i];
	}
	return -1;
}

/* What was skipped for one kind is asked for when it turns out to be another. */
static void
ask_for_kind(struct session *session)
{
	const struct entry *entry = record_slot(&session->record, CALL_KIND);
	const char *piece = session_piece(session);
	const char *name = piece[0] ? piece : entry ? entry->said.name : "";
	int kind = vocabulary_find(session->vocabulary, LIST_KIND, name);
	if (kind != session->asked_kind)
		memset(session->skipped, 0, sizeof(session->skipped));
	session->asked_kind = kind;
}

static void
lead(struct session *session, const struct written *written)
{
	session->led = true;
	session->ask_due = true;
	memset(session->skipped, 0, sizeof(session->skipped));
}

static void
follow(struct session *session, const struct written *written)
{
	session->led = false;
	session->asked = -1;
}

void
session_ask_me(struct session *session, bool led)
{
	bool kind = record_slot(&session->record, CALL_KIND) != NULL;
	if (led)
		session_answer(session, CUE_NONE, "%s", kind ? "" : "say the kind, then I ask");
	else
		session_answer(session, CUE_NONE, "you lead");
	session->outcome.then = led ? lead : follow;
}

static void
skip(struct session *session, const struct written *written)
{
	const struct term *kind =
		vocabulary_term(session->vocabulary, LIST_KIND, session->asked_kind);
	for (int i = 0; i < kind->wanted_count; i++)
		session->skipped[i] |= kind->wanted[i] == session->asked;
}

void
session_skip(struct session *session)
{
	session_answer(session, CUE_NONE, "%s", "");
	session->outcome.then = skip;
}

/* Asks for the next measure if another one is due, or the last asking was cut short. */
void
session_ask(struct session *session)
{
	char text[128];
	int before = session->asked;
	ask_for_kind(session);
	session->asked = session->led ? next_to_ask(session) : -1;
	if (!session->led || (session->asked == before && !session->ask_due))
		return;
	session->ask_due = false;
	if (session->asked >= 0) {
		const struct term *term =
			vocabulary_term(session->vocabulary, LIST_MEASURE, session->asked);
		snprintf(text, sizeof(text), "%s?", term->name);
		session_say_question(session, CUE_NONE, text);
	} else if (before >= 0) {
		session_say(session, CUE_NONE, "that is all");
	}
}
