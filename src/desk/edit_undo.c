/* Taking back what was done at the desk. */
#include "edit.h"

#include "record_undo.h"

#include <stdio.h>
#include <string.h>

static bool
wrote_something(const struct record *record, int64_t call)
{
	for (int i = 0; i < record->deed_count; i++)
		if (record->deeds[i].call == call)
			return true;
	return false;
}

static enum item_change
back_to(const char *state)
{
	if (state == NULL)
		return ITEM_UNCHANGED;
	if (strcmp(state, "done") == 0)
		return ITEM_CLOSED;
	return strcmp(state, "open") == 0 ? ITEM_REOPENED : ITEM_PUT_ASIDE;
}

static bool
is_undo(const struct past_call *call)
{
	return call->has_meaning && call->meaning.type == CALL_ORDER && call->known.settles != 0;
}

bool
edit_undo(struct edit *edit)
{
	const struct past_call *call = edit_call(edit, "call");
	char state[16];
	if (call == NULL)
		return false;
	if (!past_call_by_desk(call) || is_undo(call))
		return edit_refuse(edit, 422, "only what was done at the desk is undone here");
	if (call->known.undone)
		return edit_refuse(edit, 409, "this was undone already");
	if (call->known.item != 0 && !edit_load(edit, call->known.item))
		return false;
	edit->write.said = (struct call){.type = CALL_ORDER, .order = ORDER_STRIKE_THAT};
	edit->write.settles = call->known.call;
	edit->write.long_text = "undo";
	snprintf(edit->said, sizeof edit->said, "undone: %s", call->known.text);
	if (review_state_before(edit->desk->review, call->known.call, state, sizeof state))
		edit->write.change = back_to(state);
	if (!wrote_something(edit->record, call->known.call))
		return true;
	if (!record_undo(edit->record, call->known.call, &edit->write.deed)) {
		edit_refuse(edit, 409, "it was changed again since, and stays as it is now");
		edit->wants_item = true;
		return false;
	}
	edit->write.has_deed = true;
	return true;
}
