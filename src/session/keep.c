/* Facts that hold for every item from here on. */
#include "session_state.h"

#include <stdio.h>
#include <string.h>

static int
kept_index(const struct session *session, enum call_type type)
{
	int i = 0;
	while (i < session->kept_count && session->kept[i].type != type)
		i++;
	return i;
}

static void
keep_nothing(struct session *session, const struct written *written)
{
	session->kept_count = 0;
}

static struct call
fact_of(const struct call *keep)
{
	struct call fact = *keep;
	fact.type = keep->kept;
	fact.correction = false;
	return fact;
}

static void
keep_this(struct session *session, const struct written *written)
{
	struct call fact = fact_of(&session->task.call);
	int i = kept_index(session, fact.type);
	session->kept[i] = fact;
	session->kept_calls[i] = written->call;
	if (i == session->kept_count)
		session->kept_count++;
}

static bool
may_be_kept(enum call_type type)
{
	switch (type) {
	case CALL_KIND:
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
		return true;
	case CALL_MENDING:
	case CALL_PART:
	case CALL_MEASURE:
	case CALL_FLAW:
	case CALL_ITEM:
	case CALL_NOTE:
	case CALL_KEEP:
	case CALL_ORDER:
	case CALL_ANSWER:
	case CALL_TYPES:
		return false;
	}
	return false;
}

/* The item in hand gets the fact too, unless something else was said of it. */
void
session_keep(struct session *session)
{
	struct outcome *outcome = &session->outcome;
	const struct call *call = &session->task.call;
	struct call fact = fact_of(call);
	char phrase[256];
	if (call->kept == CALL_KEEP) {
		session_answer(session, CUE_TAKEN, "nothing is kept");
		outcome->then = keep_nothing;
		return;
	}
	if (!may_be_kept(call->kept) || call->other) {
		session_refuse(session, "that cannot be kept");
		return;
	}
	if (session_doubtful(session, &fact))
		return;
	phrase_call(&fact, PHRASE_NAMED, phrase, sizeof(phrase));
	session_answer(session, CUE_TAKEN, "%s from here on", phrase);
	outcome->then = keep_this;
	if (session->record.item == 0 || record_slot(&session->record, fact.type))
		return;
	outcome->has_deed =
		record_write(&session->record, &fact, session->task.confirmed, &outcome->deed);
	if (outcome->has_deed && session->record.state != ITEM_OPEN)
		outcome->change = ITEM_REOPENED;
}

void
session_keep_into(const struct session *session, struct record *record, struct deed *deed,
		  char *text, size_t size)
{
	for (int i = 0; i < session->kept_count; i++) {
		char phrase[256];
		if (!record_keep(record, &session->kept[i], session->kept_calls[i], deed))
			continue;
		phrase_call(&session->kept[i], PHRASE_NAMED, phrase, sizeof(phrase));
		session_add(text, size, ", ", phrase);
	}
}

void
session_kept_text(const struct session *session, char *text, size_t size)
{
	for (int i = 0; i < session->kept_count; i++) {
		char phrase[256];
		phrase_call(&session->kept[i], PHRASE_NAMED, phrase, sizeof(phrase));
		session_add(text, size, ", ", i == 0 ? "from here on" : phrase);
		if (i == 0)
			session_add(text, size, " ", phrase);
	}
}
