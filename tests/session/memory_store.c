#include "memory_store.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

void
memory_store_init(struct memory_store *store)
{
	memset(store, 0, sizeof(*store));
}

void
memory_store_finish(struct memory_store *store)
{
	for (int64_t i = 0; i < store->item_count; i++) {
		free(store->items[i].entries);
		free(store->items[i].deeds);
	}
	free(store->items);
	free(store->calls);
	free(store->numbers);
}

static void *
grown(void *array, int64_t *room, int64_t count, size_t size)
{
	if (count < *room)
		return array;
	*room = *room ? *room * 2 : 8;
	array = realloc(array, (size_t)*room * size);
	assert_non_null(array);
	return array;
}

static struct memory_item *
item_of(const struct memory_store *store, int64_t item)
{
	assert_in_range(item, 1, store->item_count);
	return &store->items[item - 1];
}

static int64_t
number_find(const struct memory_store *store, const char *number)
{
	int64_t n = 0;
	while (n < store->number_count && strcmp(store->numbers[n].number, number) != 0)
		n++;
	return n;
}

/* Whether all numbers that the deed brings to stand are the item's own or nobody's; then they are
 * its own. */
static bool
claim_numbers(struct memory_store *store, const struct record *record, const struct deed *deed,
	      int64_t item)
{
	for (int f = 0; f < deed->flip_count; f++) {
		const struct call *said = &record->entries[deed->flips[f].entry].said;
		if (!deed->flips[f].stands || said->type != CALL_ITEM)
			continue;
		int64_t n = number_find(store, said->label);
		if (n < store->number_count && store->numbers[n].item != item)
			return false;
		if (n < store->number_count)
			continue;
		store->numbers =
			grown(store->numbers, &store->number_room, n, sizeof(store->numbers[0]));
		store->numbers[n] = (struct memory_number){.item = item};
		memcpy(store->numbers[n].number, said->label, LABEL_MAX);
		store->number_count++;
	}
	return true;
}

/* A number that no longer stands is given back, unless the item was once closed under it: it may
 * hang on the garment. */
static void
give_back(struct memory_store *store, const struct memory_item *of, int64_t item,
	  const struct deed *deed)
{
	for (int f = 0; f < deed->flip_count; f++) {
		const struct call *said = &of->entries[deed->flips[f].entry].said;
		if (deed->flips[f].stands || said->type != CALL_ITEM ||
		    strcmp(of->number, said->label) == 0)
			continue;
		int64_t n = number_find(store, said->label);
		if (n == store->number_count || store->numbers[n].kept ||
		    store->numbers[n].item != item)
			continue;
		store->numbers[n] = store->numbers[--store->number_count];
	}
}

static void
keep_number(struct memory_store *store, const struct memory_item *of)
{
	int64_t n = number_find(store, of->number);
	if (of->state != ITEM_OPEN && n < store->number_count)
		store->numbers[n].kept = true;
}

static struct memory_item *
item_add(struct memory_store *store)
{
	store->items =
		grown(store->items, &store->item_room, store->item_count, sizeof(store->items[0]));
	struct memory_item *item = &store->items[store->item_count++];
	memset(item, 0, sizeof(*item));
	return item;
}

static void
entry_add(struct memory_item *item, const struct entry *entry)
{
	int64_t room = item->entry_room;
	item->entries = grown(item->entries, &room, item->entry_count, sizeof(*entry));
	item->entry_room = (int)room;
	item->entries[item->entry_count] = *entry;
	item->entries[item->entry_count++].stands = false;
}

static void
deed_add(struct memory_item *item, const struct deed *deed)
{
	int64_t room = item->deed_room;
	item->deeds = grown(item->deeds, &room, item->deed_count, sizeof(*deed));
	item->deed_room = (int)room;
	item->deeds[item->deed_count++] = *deed;
}

/* One slot holds one standing entry at any moment, also between two flips. */
static void
check_slot_free(const struct memory_item *item, const struct call *said)
{
	for (int i = 0; i < item->entry_count; i++) {
		const struct call *other = &item->entries[i].said;
		if (!item->entries[i].stands || other->type != said->type ||
		    said->type == CALL_NOTE || (said->type == CALL_FLAW && !said->none))
			continue;
		if (said->type == CALL_FLAW)
			fail_msg("flaw none beside a flaw");
		if (said->type != CALL_MEASURE || strcmp(other->name, said->name) == 0)
			fail_msg("two entries in one slot");
	}
}

/* Striking, or restoring, what was done last gives what stood before it. What holds for every item
 * is no part of that: it was said by another call, and stays. */
static void
check_taken_back(const struct memory_item *item, const struct deed *deed)
{
	int last = item->deed_count - 1;
	if ((deed->type != DEED_STRUCK && deed->type != DEED_RESTORED) || deed->target != last)
		return;
	const struct deed *target = &item->deeds[last];
	int own = target->flip_count ? item->entry_count : 0;
	for (int f = 0; f < target->flip_count; f++) {
		int entry = target->flips[f].entry;
		if (target->flips[f].stands && item->entries[entry].call == target->call &&
		    entry < own)
			own = entry;
	}
	for (int i = 0; i < item->entry_count; i++) {
		bool kept = i > own && item->entries[i].call != target->call;
		if (item->entries[i].stands != item->before[i] && !kept)
			fail_msg("what was done last is not undone by taking it back");
	}
}

static void
number_follows(struct memory_item *item)
{
	item->number[0] = '\0';
	for (int i = 0; i < item->entry_count; i++)
		if (item->entries[i].stands && item->entries[i].said.type == CALL_ITEM)
			snprintf(item->number, sizeof(item->number), "%s",
				 item->entries[i].said.label);
}

static void
deed_do(struct memory_store *store, struct memory_item *item, const struct record *record,
	const struct deed *deed, int64_t call)
{
	bool before[RECORD_ENTRIES_MAX];
	for (int i = item->entry_count; i < record->entry_count; i++) {
		struct entry entry = record->entries[i];
		assert_int_equal(entry.id, 0);
		entry.id = ++store->entry_count;
		if (entry.call == 0)
			entry.call = call;
		entry_add(item, &entry);
	}
	for (int i = 0; i < item->entry_count; i++)
		before[i] = item->entries[i].stands;
	for (int f = 0; f < deed->flip_count; f++) {
		struct flip flip = deed->flips[f];
		assert_in_range(flip.entry, 0, item->entry_count - 1);
		assert_int_not_equal(item->entries[flip.entry].stands, flip.stands);
		if (flip.stands)
			check_slot_free(item, &item->entries[flip.entry].said);
		item->entries[flip.entry].stands = flip.stands;
	}
	check_taken_back(item, deed);
	memcpy(item->before, before, sizeof(before));
	deed_add(item, deed);
	item->deeds[item->deed_count - 1].call = call;
	assert_int_equal(item->deed_count, record->deed_count);
	for (int i = 0; i < item->entry_count; i++)
		assert_int_equal(item->entries[i].stands, record->entries[i].stands);
	number_follows(item);
	give_back(store, item, item - store->items + 1, deed);
}

static void
change(struct memory_store *store, struct memory_item *item, enum item_change how)
{
	store->open_count -= item->state == ITEM_OPEN;
	switch (how) {
	case ITEM_UNCHANGED:
		break;
	case ITEM_OPENED:
		assert_int_equal(item->state, ITEM_OPEN);
		store->open_count++; /* it was not counted yet */
		break;
	case ITEM_REOPENED:
		assert_int_not_equal(item->state, ITEM_OPEN);
		item->state = ITEM_OPEN;
		break;
	case ITEM_CLOSED:
		item->state = ITEM_DONE;
		break;
	case ITEM_PUT_ASIDE:
		item->state = ITEM_SET_ASIDE;
		break;
	}
	store->open_count += item->state == ITEM_OPEN;
	keep_number(store, item);
}

void
memory_store_write(struct memory_store *store, const struct write *write, struct written *written)
{
	memset(written, 0, sizeof(*written));
	written->token = write->token;
	if (store->full) {
		snprintf(written->why_not, sizeof(written->why_not), "the disk is full");
		return;
	}
	int64_t item = write->item;
	assert_int_equal(write->change == ITEM_OPENED, write->has_deed && item == 0);
	bool is_new = write->change == ITEM_OPENED;
	if (write->has_deed && !claim_numbers(store, write->record, &write->deed,
					      is_new ? store->item_count + 1 : item)) {
		snprintf(written->why_not, sizeof(written->why_not), "it was already used");
		return;
	}
	if (is_new) {
		item_add(store);
		item = store->item_count;
	}
	int64_t call = ++store->call_count;
	store->calls = grown(store->calls, &store->call_room, call - 1, sizeof(store->calls[0]));
	struct memory_call *row = &store->calls[call - 1];
	*row = (struct memory_call){.item = item,
				    .settles = write->settles,
				    .verdict = write->verdict,
				    .type = write->has_call ? write->said.type : CALL_TYPES};
	snprintf(row->text, sizeof(row->text), "%s", write->text);
	if (write->settles) { /* a doubt, and one that nothing has settled yet */
		assert_in_range(write->settles, 1, call - 1);
		assert_int_equal(store->calls[write->settles - 1].verdict, VERDICT_DOUBTED);
		assert_false(store->calls[write->settles - 1].settled);
		store->calls[write->settles - 1].settled = true;
	}

	written->first_entry = store->entry_count + 1;
	if (write->has_deed) {
		assert_int_equal(write->verdict, VERDICT_TAKEN);
		deed_do(store, item_of(store, item), write->record, &write->deed, call);
	}
	if (item != 0)
		change(store, item_of(store, item), write->change);
	if (write->moved_from != 0) {
		struct memory_item *from = item_of(store, write->moved_from);
		deed_do(store, from, write->from_record, &write->from_deed, call);
		change(store, from, write->from_change);
	}
	written->stored = true;
	written->call = call;
	written->item = item;
	if (written->first_entry > store->entry_count)
		written->first_entry = 0;
}

void
memory_store_load(const struct memory_store *store, int64_t item, struct record *record)
{
	record_init(record);
	if (item < 1 || item > store->item_count)
		return;
	const struct memory_item *of = item_of(store, item);
	record->item = item;
	record->state = of->state;
	for (int i = 0; i < of->entry_count; i++)
		assert_true(record_load_entry(record, &of->entries[i]));
	for (int i = 0; i < of->deed_count; i++)
		assert_true(record_load_deed(record, &of->deeds[i]));
	for (int i = 0; i < of->entry_count; i++)
		assert_int_equal(record->entries[i].stands, of->entries[i].stands);
}

static int64_t
by_number(const struct memory_store *store, const char *number)
{
	for (int64_t i = 0; i < store->item_count; i++)
		if (strcmp(store->items[i].number, number) == 0)
			return i + 1;
	return 0;
}

void
memory_store_find(const struct memory_store *store, const struct effect *effect,
		  struct record *record)
{
	int64_t item = 0;
	switch (effect->find) {
	case FIND_LABEL:
		item = by_number(store, effect->label);
		break;
	case FIND_BEFORE:
		item = effect->item ? effect->item - 1 : store->item_count;
		break;
	case FIND_ITEM:
		item = effect->item;
		break;
	}
	memory_store_load(store, item, record);
}

int64_t
memory_store_item_open(const struct memory_store *store)
{
	for (int64_t i = store->item_count; i > 0; i--)
		if (store->items[i - 1].state == ITEM_OPEN)
			return i;
	return 0;
}
