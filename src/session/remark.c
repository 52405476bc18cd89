/* What is said besides, when something was written down. */
#include "session_state.h"

#include "cloth.h"
#include "mending.h"

#include <stdio.h>
#include <string.h>

/* What a flaw that spreads has to be heeded by. */
static void
add_caution(const struct session *session, const struct call *flaw, char *text, size_t size)
{
	int index = vocabulary_find(session->vocabulary, LIST_FLAW, flaw->name);
	const char *caution =
		index >= 0 ? vocabulary_term(session->vocabulary, LIST_FLAW, index)->text : "";
	if (caution[0])
		session_add(text, size, ": ", caution);
}

static void
add_oddness(const struct call *cloth, char *text, size_t size)
{
	char odd[200];
	if (cloth_odd(cloth, odd, sizeof(odd)))
		session_add(text, size, ", ", odd);
}

/* Whether the mending pays, once both it and the price are known. */
static void
add_mending(const struct session *session, char *text, size_t size)
{
	struct money left;
	char figures[128], said[200];
	if (!mending_left(&session->record, session->setting.mending_hour_minor, &left))
		return;
	bool pays = left.minor > 0;
	struct money amount = {pays ? left.minor : -left.minor, ""};
	memcpy(amount.currency, left.currency, sizeof(amount.currency));
	money_say(amount, figures, sizeof(figures));
	if (pays)
		snprintf(said, sizeof(said), "mended it leaves %s", figures);
	else if (left.minor == 0)
		snprintf(said, sizeof(said), "not worth mending, it leaves nothing");
	else
		snprintf(said, sizeof(said), "not worth mending, it costs %s more than it brings",
			 figures);
	session_add(text, size, ", ", said);
}

void
session_remark(const struct session *session, const struct call *call, char *text, size_t size)
{
	if (call->type == CALL_FLAW)
		add_caution(session, call, text, size);
	if (call->type == CALL_CLOTH)
		add_oddness(call, text, size);
	if (call->type == CALL_MENDING || call->type == CALL_PRICE)
		add_mending(session, text, size);
}
