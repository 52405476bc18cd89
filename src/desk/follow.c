#include "follow.h"

#include "field.h"
#include "matter.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A batch is one transaction, which takes some milliseconds at the most. */
enum { BATCH_ITEMS = 8, EVENT_ITEMS_MAX = 200 };

/* A line of the listing with its texts. */
struct worked_out {
	struct listing line;
	char number[LABEL_MAX], bin[LABEL_MAX];
	char kind[CALL_NAME_MAX], maker[CALL_NAME_MAX], route[CALL_NAME_MAX];
	char *title, *matters;
	struct text words;
};

static const char *
standing(const struct record *record, enum call_type type, char *text, size_t size)
{
	const struct entry *entry = record_slot(record, type);
	if (entry == NULL)
		return NULL;
	snprintf(text, size, "%s",
		 entry->said.other	       ? "other"
		 : entry->said.name[0] == '\0' ? entry->said.label
					       : entry->said.name);
	return text;
}

/* What an item is found by: its description, its values, and its notes as they were written out.
 * How its measures were taken, in the lines of the write-up, is told of every other item too. */
static void
add_words(struct desk *desk, const struct record *record, struct past_calls *calls,
	  struct worked_out *out)
{
	text_add_format(&out->words, "%s\n%s", text_chars(&desk->writeup.title),
			text_chars(&desk->writeup.description));
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		if (!entry->stands)
			continue;
		if (field_writes(&entry->said)) {
			text_add(&out->words, "\n");
			typed_show(&entry->said, &out->words);
		}
		if (entry->said.type != CALL_NOTE)
			continue;
		const struct past_call *note = past_calls_find(desk, calls, entry->call);
		const struct past_call *written =
			note == NULL ? NULL : past_calls_find(desk, calls, note->known.settled_by);
		if (written != NULL)
			text_add_format(&out->words, "\n%s", written->known.text);
	}
}

/* False when there is no such item any more, or the memory was full. */
static bool
work_out(struct desk *desk, int64_t item, struct worked_out *out)
{
	static const char *const states[] = {
		[ITEM_OPEN] = "open", [ITEM_DONE] = "done", [ITEM_SET_ASIDE] = "set aside"};
	struct record *record = &desk->other;
	struct past_calls calls;
	struct money amount;
	enum matter_reason urgency;
	memset(out, 0, sizeof *out);
	if (!store_load(desk->store, item, record) ||
	    !writeup_write(desk->setting.writeup_form, desk->setting.vocabulary, record,
			   desk_asking(desk, record, &amount), &desk->writeup))
		return false;
	bool read = past_calls_read(desk, item, &calls);
	json_t *matters = matters_of(desk, record, &calls, &urgency);
	out->matters = json_dumps(matters, JSON_COMPACT | JSON_REAL_PRECISION(6));
	json_decref(matters);
	out->title = strdup(text_chars(&desk->writeup.title));
	out->line = (struct listing){
		.item = item,
		.number = standing(record, CALL_ITEM, out->number, sizeof out->number),
		.bin = standing(record, CALL_BIN, out->bin, sizeof out->bin),
		.kind = standing(record, CALL_KIND, out->kind, sizeof out->kind),
		.maker = standing(record, CALL_MAKER, out->maker, sizeof out->maker),
		.route = standing(record, CALL_ROUTE, out->route, sizeof out->route),
		.state = states[record->state],
		.title = out->title,
		.urgency = urgency,
		.matters = out->matters};
	add_words(desk, record, &calls, out);
	out->line.words = text_chars(&out->words);
	past_calls_finish(&calls);
	return read && out->title != NULL && out->matters != NULL && !out->words.failed;
}

/* Works these out, without holding anybody up, and then puts them in at once. */
static bool
put_batch(struct desk *desk, const int64_t *items, int count, const struct listing_reach *to)
{
	struct worked_out *batch = calloc(BATCH_ITEMS, sizeof *batch);
	struct listing lines[BATCH_ITEMS] = {{.item = 0}};
	int lined = 0;
	bool put = batch != NULL;
	for (int i = 0; put && i < count; i++) {
		put = work_out(desk, items[i], &batch[i]) || batch[i].line.item == 0;
		if (put && batch[i].line.item != 0)
			lines[lined++] = batch[i].line;
	}
	put = put && listing_put(desk->review, lines, lined, &desk->reach, to);
	for (int i = 0; batch != NULL && i < count; i++) {
		free(batch[i].title);
		free(batch[i].matters);
		text_finish(&batch[i].words);
	}
	free(batch);
	if (put)
		desk->reach = *to;
	else
		listing_reach_read(desk->review, &desk->reach); /* another desk was quicker */
	return put;
}

/* What one batch came to. */
enum followed { FOLLOWED, FOLLOWED_ALL, FOLLOWED_NOT /* somebody else is writing */ };

static enum followed
follow_batch(struct desk *desk, int64_t *told, int *told_count, bool *more)
{
	int64_t items[2 * BATCH_ITEMS];
	struct listing_reach to;
	int count = listing_changed(desk->review, &desk->reach, items, BATCH_ITEMS, &to);
	if (count >= 0 && to.call == desk->reach.call && to.deed == desk->reach.deed)
		return FOLLOWED_ALL;
	int64_t before = desk->reach.call + desk->reach.deed;
	bool put = count >= 0 && put_batch(desk, items, count, &to);
	bool quicker = !put && desk->reach.call + desk->reach.deed > before;
	if (!put && !quicker)
		return FOLLOWED_NOT;
	/* Another desk has worked them in, and perhaps more that are not looked at here. */
	*more = *more || (quicker && (desk->reach.call > to.call || desk->reach.deed > to.deed));
	for (int i = 0; i < count; i++) {
		if (*told_count < EVENT_ITEMS_MAX)
			told[(*told_count)++] = items[i];
		else
			*more = true;
	}
	return FOLLOWED;
}

static enum followed
follow_those_to_come(struct desk *desk)
{
	int64_t items[BATCH_ITEMS];
	struct listing_reach to;
	int count = listing_to_come(desk->review, &desk->reach, items, BATCH_ITEMS, &to);
	if (count == 0)
		return FOLLOWED_ALL;
	return count > 0 && put_batch(desk, items, count, &to) ? FOLLOWED : FOLLOWED_NOT;
}

bool
follow_is_due(struct desk *desk)
{
	desk->looked_ms = desk_monotonic_ms();
	return desk->follow_more || desk->follow_again ||
	       review_version(desk->review) != desk->version;
}

/* Begins anew where the listing was worked out with other lists; false when that is still to be
 * done, since somebody else is writing. */
static bool
same_lists(struct desk *desk)
{
	struct listing_reach to;
	if (strcmp(desk->reach.lists, desk->setting.lists_mark) == 0)
		return true;
	bool begun = listing_from_the_start(desk->review, desk->setting.lists_mark, &to) &&
		     listing_put(desk->review, NULL, 0, &desk->reach, &to);
	return listing_reach_read(desk->review, &desk->reach) && begun;
}

static void
follow_until(struct desk *desk, int64_t until_ms, bool to_come)
{
	if (!same_lists(desk)) {
		desk->follow_again = true;
		return;
	}
	int64_t told[EVENT_ITEMS_MAX], version = review_version(desk->review);
	int count = 0;
	bool more = false;
	enum followed followed;
	do
		followed = follow_batch(desk, told, &count, &more);
	while (followed == FOLLOWED && desk_monotonic_ms() < until_ms);
	if (followed == FOLLOWED_ALL && to_come) {
		do
			followed = follow_those_to_come(desk);
		while (followed == FOLLOWED && desk_monotonic_ms() < until_ms);
	}
	desk->follow_more = followed == FOLLOWED || (desk->follow_more && !to_come);
	desk->follow_again = followed == FOLLOWED_NOT;
	desk->version = version;
	if (count > 0)
		events_tell_changed(&desk->events, told, count, more);
}

void
follow(struct desk *desk, int budget_ms)
{
	follow_until(desk, desk_monotonic_ms() + budget_ms, true);
}

void
follow_changes(struct desk *desk, int budget_ms)
{
	follow_until(desk, desk_monotonic_ms() + budget_ms, false);
}

bool
follow_begin(struct desk *desk, struct problem *problem)
{
	return listing_reach_read(desk->review, &desk->reach) ||
	       problem_say(problem, "the listing cannot be read");
}
