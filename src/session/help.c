/* What can be said at this moment, in one breath. */
#include "session_state.h"

#include <string.h>

static void
add_list(const struct session *session, enum list list, char *text, size_t size)
{
	for (int i = 0; i < vocabulary_count(session->vocabulary, list); i++)
		session_add(text, size, ", ", vocabulary_term(session->vocabulary, list, i)->name);
}

/* Those of the kind in hand, or all of them. */
static void
add_measures(const struct session *session, char *text, size_t size)
{
	const struct entry *kind = record_slot(&session->record, CALL_KIND);
	const char *piece = session_piece(session);
	int index = vocabulary_find(session->vocabulary, LIST_KIND,
				    piece[0] ? piece
				    : kind   ? kind->said.name
					     : "");
	if (index < 0) {
		add_list(session, LIST_MEASURE, text, size);
		return;
	}
	const struct term *term = vocabulary_term(session->vocabulary, LIST_KIND, index);
	for (int i = 0; i < term->wanted_count + term->helpful_count; i++) {
		int measure = i < term->wanted_count ? term->wanted[i]
						     : term->helpful[i - term->wanted_count];
		session_add(text, size, ", ",
			    vocabulary_term(session->vocabulary, LIST_MEASURE, measure)->name);
	}
}

static const char *
open_calls(const struct session *session)
{
	if (session_question_stands(session))
		return "first, second, yes, no, or say it again";
	if (session->asked >= 0)
		return "the length, none, strike that, stop asking; a tap skips";
	if (session->record.item == 0)
		return "kind, item, bin, keep, previous, open item, pause; help kinds";
	return "a measure, flaw, bin, maker, size, colour, cloth, group, care, weight, price, "
	       "route, mending, part, note, "
	       "next, "
	       "strike that, restore, read it all, what is missing, set aside, ask me; help "
	       "measures, "
	       "help flaws, help parts";
}

static const char orders[] =
	"next, previous, repeat, strike that, restore, read it all, what is missing, where am I, "
	"open item, set aside, these belong to item, keep, ask me, stop asking, pause, resume";

void
session_tell_help(const struct session *session, const char *topic, char *text, size_t size)
{
	if (strcmp(topic, "measures") == 0)
		add_measures(session, text, size);
	else if (strcmp(topic, "flaws") == 0)
		add_list(session, LIST_FLAW, text, size);
	else if (strcmp(topic, "parts") == 0)
		add_list(session, LIST_PART, text, size);
	else if (strcmp(topic, "kinds") == 0)
		add_list(session, LIST_KIND, text, size);
	else if (strcmp(topic, "orders") == 0)
		session_add(text, size, "", orders);
	else
		session_add(text, size, "", open_calls(session));
}
