/* Items that were set aside since the session began, for saying what is still to be finished. Those
 * of earlier days are the desk's to list. */
#include "session_state.h"

#include <string.h>

static void
forget(struct session *session, int at)
{
	session->unfinished_count--;
	memmove(&session->unfinished[at], &session->unfinished[at + 1],
		sizeof(session->unfinished[0]) * (size_t)(session->unfinished_count - at));
}

static void
remember(struct session *session, const struct record *record)
{
	if (session->unfinished_count == UNFINISHED_MAX)
		forget(session, 0); /* the last ones can still be found */
	struct unfinished *item = &session->unfinished[session->unfinished_count++];
	item->item = record->item;
	item->text[0] = '\0';
	session_tell_item(session, record, item->text, sizeof(item->text));
}

void
session_unfinished_follows(struct session *session, const struct record *record)
{
	for (int i = session->unfinished_count - 1; i >= 0; i--)
		if (session->unfinished[i].item == record->item)
			forget(session, i);
	if (record->state == ITEM_SET_ASIDE && !record_empty(record))
		remember(session, record);
}

void
session_tell_unfinished(const struct session *session, char *text, size_t size)
{
	for (int i = 0; i < session->unfinished_count; i++) {
		session_add(text, size, ", ", i == 0 ? "unfinished:" : "and");
		session_add(text, size, " ", session->unfinished[i].text);
	}
}
