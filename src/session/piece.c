/* Sets: what is said of the piece in hand is written under its name, "jacket chest". */
#include "session_state.h"

#include "set_piece.h"

#include <stdio.h>

static bool
holds_a_set(const struct session *session, bool unless_said)
{
	const struct entry *kind = record_slot(&session->record, CALL_KIND);
	if (!kind)
		return unless_said;
	return kind_is_set(session->vocabulary,
			   vocabulary_find(session->vocabulary, LIST_KIND, kind->said.name));
}

const char *
session_piece(const struct session *session)
{
	return holds_a_set(session, true) ? record_piece(&session->record) : "";
}

/* A name that stands under no piece yet goes under the one in hand; too long a one stays. */
static void
put_under(const struct session *session, const char *piece, char *name, size_t size)
{
	const char *rest;
	char joined[CALL_NAME_MAX];
	if (piece_of(session->vocabulary, name, &rest) < 0 &&
	    piece_join(piece, name, joined, sizeof(joined) < size ? sizeof(joined) : size))
		snprintf(name, size, "%s", joined);
}

void
session_piece_settle(const struct session *session, struct call *call)
{
	const char *piece = session_piece(session);
	bool strikes = call->type == CALL_ORDER && call->order == ORDER_STRIKE;
	bool placed =
		call->part[0] != '\0' || call->side != SIDE_UNSAID || call->face != FACE_UNSAID;
	if (piece[0] == '\0')
		return;
	if (call->type == CALL_MEASURE && call->name[0] != '\0')
		put_under(session, piece, call->name, sizeof(call->name));
	else if (strikes && call->name[0] != '\0' && !placed && call->flaw[0] == '\0' &&
		 vocabulary_find(session->vocabulary, LIST_MEASURE, call->name) >= 0)
		put_under(session, piece, call->name, sizeof(call->name));
	else if ((call->type == CALL_FLAW && !call->none) || (strikes && call->part[0] != '\0'))
		put_under(session, piece, call->part, sizeof(call->part));
}

bool
session_piece_refused(struct session *session, const struct call *call)
{
	const char *rest;
	if (call->type == CALL_PART && !holds_a_set(session, true)) {
		session_refuse(session, "only a set has parts: say kind set first");
		return true;
	}
	if (call->type == CALL_MEASURE && holds_a_set(session, false) &&
	    piece_of(session->vocabulary, call->name, &rest) < 0) {
		session_refuse(session, "of which part? say part, and its kind");
		return true;
	}
	return false;
}
