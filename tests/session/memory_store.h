/* A store in memory that answers the conversation as the real one does, and checks what it is asked
 * to do: it fails a test when a write does not fit what was stored before. */
#ifndef LAPEL_TESTS_MEMORY_STORE_H
#define LAPEL_TESTS_MEMORY_STORE_H

#include "event.h"

struct memory_item {
	enum item_state state;
	char number[LABEL_MAX];		 /* that stands */
	bool before[RECORD_ENTRIES_MAX]; /* what stood before the last deed */
	struct entry *entries;
	struct deed *deeds;
	int entry_count, deed_count;
	int entry_room, deed_room;
};

struct memory_call {
	int64_t item, settles;
	bool settled;
	enum verdict verdict;
	enum call_type type; /* CALL_TYPES: words that made no call */
	char text[64];
};

struct memory_number {
	char number[LABEL_MAX];
	int64_t item;
	bool kept; /* the item was once closed under it */
};

struct memory_store {
	bool full; /* the disk is full: writes fail */
	struct memory_item *items;
	struct memory_call *calls;
	struct memory_number *numbers; /* whose a number is, as long as it stands or is kept */
	int64_t number_count, number_room;
	int64_t item_count, call_count, entry_count;
	int64_t open_count; /* items that are open */
	int64_t item_room, call_room;
};

void memory_store_init(struct memory_store *store);
void memory_store_finish(struct memory_store *store);
void memory_store_write(struct memory_store *store, const struct write *write,
			struct written *written);
void memory_store_load(const struct memory_store *store, int64_t item, struct record *record);
void memory_store_find(const struct memory_store *store, const struct effect *effect,
		       struct record *record);
int64_t memory_store_item_open(const struct memory_store *store);

#endif
