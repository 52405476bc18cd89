/* What can be written at the desk. */
#include "edit.h"

#include "choice.h"
#include "json.h"
#include "learn.h"
#include "record_undo.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool
is_blank(const char *text)
{
	return text[strspn(text, " \t")] == '\0';
}

static bool
sure(const struct edit *edit)
{
	return json_member_true(edit->body, "sure");
}

/* The words that are kept with the call: as typed. */
static void
typed(struct edit *edit, const char *text)
{
	edit->write.long_text = text;
}

/* The field of the request and what stands in it; false when it is not as it was when it was shown.
 */
static bool
read_field(struct edit *edit, struct field_place *place, const struct entry **entry)
{
	const char *field = json_member_text(edit->body, "field");
	int64_t expect = json_member_number(edit->body, "expect", -1);
	if (field == NULL || !field_parse(field, place))
		return edit_refuse(edit, 400, "there is no such field");
	if (expect < 0)
		return edit_refuse(edit, 400, "expect is missing: what stood in the field");
	if (!edit_load(edit, json_member_number(edit->body, "item", 0)))
		return false;
	*entry = field_entry(edit->record, place);
	if ((*entry == NULL ? 0 : (*entry)->id) != expect || (place->flaw != 0 && *entry == NULL))
		return edit_conflict(edit, place, *entry);
	return true;
}

/* A call that the value answers: a doubt about it, a word off the list. */
static bool
read_settles(struct edit *edit)
{
	if (json_member_number(edit->body, "settles", 0) == 0)
		return true;
	const struct past_call *call = edit_call(edit, "settles");
	if (call == NULL)
		return false;
	if (call->known.settled_by != 0)
		return edit_settled(edit, call);
	if (call->known.item != 0 && call->known.item != edit->write.item)
		return edit_refuse(edit, 422, "that was said of another item");
	edit->write.settles = call->known.call;
	return true;
}

/* Whether nothing is to be changed. Of a set's pieces call_same asks after the one in hand alone.
 */
static bool
stands_already(const struct call *standing, const struct call *call)
{
	bool same = call_same(standing, call);
	if (call->type != CALL_PART)
		return same;
	for (int i = 0; i < call->listed_count && same; i++)
		same = strcmp(standing->listed[i].name, call->listed[i].name) == 0;
	return same && standing->listed_count == call->listed_count;
}

bool
edit_value(struct edit *edit)
{
	struct field_place place;
	const struct entry *entry;
	const char *value = json_member_text(edit->body, "value");
	struct problem problem = {""};
	struct call call;
	struct doubt doubt;
	if (value == NULL)
		return edit_refuse(edit, 400, "the value is missing");
	if (!read_field(edit, &place, &entry) || !read_settles(edit))
		return false;
	typed(edit, value);
	if (is_blank(value))
		return entry != NULL ? edit_strike_entry(edit, entry)
				     : edit_refuse(edit, 422, "there is nothing to strike");
	if (!typed_read(&edit->desk->typed, place.type, place.measure, value, &call, &problem))
		return edit_refuse(edit, 422, "%s", problem.text);
	if (entry != NULL && stands_already(&entry->said, &call) && edit->write.settles == 0)
		return edit_answer_call(edit, 1, entry->call, "right as it stands: %s", value);
	bool doubtful = doubting(edit->desk, edit->record, &call, &doubt);
	if (doubtful && !sure(edit))
		return edit_doubted(edit, &doubt);
	return edit_write_call(edit, &call, place.type == CALL_FLAW ? entry : NULL, doubtful);
}

/* The standing entry that the call wrote; NULL when there is none. */
static const struct entry *
entry_of(const struct record *record, const struct past_call *call)
{
	for (int i = 0; i < record->entry_count; i++)
		if (record->entries[i].stands && record->entries[i].call == call->known.call)
			return &record->entries[i];
	return NULL;
}

static bool
was_taken(const struct past_call *call)
{
	return strcmp(call->known.verdict, "taken") == 0;
}

/* Loads the call's item, or the one that is named for a call of none. */
static bool
load_for(struct edit *edit, const struct past_call *call)
{
	int64_t item = call->known.item;
	if (json_member_number(edit->body, "item", 0) != 0 && (item == 0 || was_taken(call)))
		item = json_member_number(edit->body, "item", 0);
	if (item == 0)
		return edit_refuse(edit, 422, "say which item this belongs to");
	return edit_load(edit, item);
}

/* The standing entry of a taken call, as it was when it was shown. */
static const struct entry *
expected_entry(struct edit *edit, const struct past_call *call)
{
	const struct entry *entry = entry_of(edit->record, call);
	struct field_place place;
	char name[FIELD_NAME_MAX];
	if (entry != NULL && json_member_number(edit->body, "expect", entry->id) == entry->id)
		return entry;
	if (!call->has_meaning || !field_writes(&call->meaning)) {
		edit_conflict(edit, NULL, NULL);
		return NULL;
	}
	field_name(&call->meaning, 0, name);
	field_parse(name, &place);
	edit_conflict(edit, &place, field_entry(edit->record, &place));
	return NULL;
}

/* A field that was filled after the call was said, by a value that was not shown: whoever sends
 * that value's entry as `expect` has seen it. */
static bool
not_overtaken(struct edit *edit, const struct past_call *call, const struct call *meant)
{
	struct field_place place;
	char name[FIELD_NAME_MAX];
	field_name(meant, 0, name);
	if (!field_parse(name, &place))
		return true;
	const struct entry *entry = field_entry(edit->record, &place);
	if (entry == NULL || entry->call < call->known.call ||
	    json_member_number(edit->body, "expect", 0) == entry->id)
		return true;
	return edit_conflict(edit, &place, entry);
}

bool
edit_confirm(struct edit *edit)
{
	const struct past_call *call = edit_call(edit, "call");
	struct doubt doubt;
	if (call == NULL || !load_for(edit, call))
		return false;
	if (call->known.settled_by != 0)
		return edit_settled(edit, call);
	typed(edit, "yes");
	if (was_taken(call)) {
		const struct entry *entry = expected_entry(edit, call);
		return entry != NULL &&
		       edit_answer_call(edit, 1, call->known.call, "right: %s", call->known.text);
	}
	if (!call->has_meaning || !field_writes(&call->meaning))
		return edit_refuse(edit, 422,
				   "this made no value: dismiss it, or type the value into its "
				   "field");
	if (!sure(edit) && doubting(edit->desk, edit->record, &call->meaning, &doubt) &&
	    doubt.severity == DOUBT_IMPOSSIBLE)
		return edit_doubted(edit, &doubt);
	if (!not_overtaken(edit, call, &call->meaning))
		return false;
	edit->write.settles = call->known.call;
	return edit_write_call(edit, &call->meaning, NULL, true);
}

static bool
find_choice(struct edit *edit, const struct past_call *call, struct call *chosen)
{
	const char *wanted = json_member_text(edit->body, "choice");
	struct choice *choices = calloc(CHOICES_MAX, sizeof *choices);
	int count = choices == NULL || wanted == NULL
			    ? 0
			    : choices_of(edit->desk, edit->record, call, choices);
	bool found = false;
	for (int i = 0; i < count && !found; i++) {
		found = strcmp(choices[i].written, wanted) == 0;
		if (found)
			*chosen = choices[i].call;
	}
	free(choices);
	return found || edit_refuse(edit, 422, "that is none of what may have been said");
}

bool
edit_choose(struct edit *edit)
{
	const struct past_call *call = edit_call(edit, "call");
	const struct entry *entry = NULL;
	struct call chosen;
	struct doubt doubt;
	if (call == NULL || !load_for(edit, call) || !find_choice(edit, call, &chosen))
		return false;
	if (call->known.settled_by != 0)
		return edit_settled(edit, call);
	if (was_taken(call)) {
		entry = expected_entry(edit, call);
		if (entry == NULL)
			return false;
	} else if (not_overtaken(edit, call, &chosen)) {
		edit->write.settles = call->known.call;
	} else {
		return false;
	}
	bool doubtful = doubting(edit->desk, edit->record, &chosen, &doubt);
	if (doubtful && !sure(edit))
		return edit_doubted(edit, &doubt);
	typed(edit, json_member_text(edit->body, "choice"));
	return edit_write_call(edit, &chosen, entry, doubtful || !was_taken(call));
}

/* Of a call: what was doubted or refused is dismissed, what it wrote is struck. */
static bool
strike_call(struct edit *edit)
{
	const struct past_call *call = edit_call(edit, "call");
	if (call == NULL)
		return false;
	if (!was_taken(call)) {
		if (call->known.settled_by != 0)
			return edit_settled(edit, call);
		edit->write.item = call->known.item;
		typed(edit, "no");
		return edit_answer_call(edit, 0, call->known.call, "dismissed: %s",
					call->known.text);
	}
	if (!load_for(edit, call))
		return false;
	typed(edit, "strike");
	const struct entry *entry = expected_entry(edit, call);
	return entry != NULL && edit_strike_entry(edit, entry);
}

bool
edit_strike(struct edit *edit)
{
	struct field_place place;
	const struct entry *entry;
	if (json_object_get(edit->body, "field") == NULL)
		return strike_call(edit);
	if (!read_field(edit, &place, &entry))
		return false;
	typed(edit, "strike");
	return entry != NULL ? edit_strike_entry(edit, entry)
			     : edit_refuse(edit, 422, "there is nothing to strike");
}

enum { NOTE_BYTES_MAX = 16000, NOTE_CHARACTERS_MAX = 4000 };

static int
characters(const char *text)
{
	int count = 0;
	for (; *text != '\0'; text++)
		count += ((unsigned char)*text & 0xC0) != 0x80;
	return count;
}

bool
edit_write_out(struct edit *edit)
{
	const struct past_call *call = edit_call(edit, "call");
	const char *text = json_member_text(edit->body, "text");
	if (call == NULL || !load_for(edit, call))
		return false;
	if (!call->has_meaning || call->meaning.type != CALL_NOTE || past_call_by_desk(call))
		return edit_refuse(edit, 422, "this is no note");
	if (text == NULL || is_blank(text))
		return edit_refuse(edit, 422, "nothing was typed");
	if (characters(text) > NOTE_CHARACTERS_MAX)
		return edit_refuse(edit, 422, "a note has %d characters at the most, this one %d",
				   NOTE_CHARACTERS_MAX, characters(text));
	if (json_member_number(edit->body, "expect", 0) != call->known.settled_by)
		return edit_settled(edit, call);
	typed(edit, text);
	edit->write.said = (struct call){.type = CALL_NOTE};
	edit->write.settles = call->known.call;
	snprintf(edit->said, sizeof edit->said, "note written out");
	return true;
}

bool
edit_learn(struct edit *edit)
{
	const struct past_call *call = edit_call(edit, "call");
	const char *word = json_member_text(edit->body, "word");
	struct problem problem = {""};
	struct call learnt;
	if (word == NULL || is_blank(word))
		return edit_refuse(edit, 422, "nothing was typed");
	if (call == NULL || !load_for(edit, call))
		return false;
	const struct entry *entry = expected_entry(edit, call);
	if (entry == NULL)
		return false;
	if (!entry->said.other)
		return edit_refuse(edit, 422, "this is on the list already");
	if (!learn(edit->desk, &entry->said, word, &learnt, &problem))
		return edit_refuse(edit, 422, "%s", problem.text);
	typed(edit, word);
	edit->write.settles = call->known.call;
	return edit_write_call(edit, &learnt, entry, false);
}

bool
edit_looked(struct edit *edit)
{
	if (!edit_load(edit, json_member_number(edit->body, "item", 0)))
		return false;
	typed(edit, "looked over");
	return edit_answer_call(edit, 1, 0, "looked over");
}

bool
edit_state(struct edit *edit)
{
	static const struct {
		const char *name;
		enum item_change change;
		enum order order;
	} states[] = {
		[ITEM_OPEN] = {"open", ITEM_REOPENED, ORDER_OPEN_ITEM},
		[ITEM_DONE] = {"done", ITEM_CLOSED, ORDER_NEXT},
		[ITEM_SET_ASIDE] = {"set aside", ITEM_PUT_ASIDE, ORDER_SET_ASIDE},
	};
	const char *wanted = json_member_text(edit->body, "state");
	const char *expect = json_member_text(edit->body, "expect");
	if (!edit_load(edit, json_member_number(edit->body, "item", 0)))
		return false;
	const char *now = states[edit->record->state].name;
	if (expect != NULL && strcmp(expect, now) != 0) {
		edit_refuse(edit, 409, "the item is %s meanwhile", now);
		json_object_set_new(edit->answer, "conflict", json_true());
		edit->wants_item = true;
		return false;
	}
	if (edit->record->state == ITEM_OPEN)
		return edit_refuse(edit, 422, "the item is still in hand at the station");
	for (int state = ITEM_DONE; wanted != NULL && state <= ITEM_SET_ASIDE; state++) {
		if (strcmp(states[state].name, wanted) != 0)
			continue;
		typed(edit, states[state].name);
		edit->write.change = states[state].change;
		edit->write.said = (struct call){.type = CALL_ORDER, .order = states[state].order};
		snprintf(edit->said, sizeof edit->said, "%s", wanted);
		return true;
	}
	return edit_refuse(edit, 422, "a state is done or set aside");
}
