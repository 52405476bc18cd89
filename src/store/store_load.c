#include "store.h"

#include "call_json.h"
#include "connection.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A record is loaded with room for what is still to be said. A garment whose history is longer than
 * that gets its newest deeds, and of the older ones what they came to: at most one for each entry.
 */
enum {
	LOAD_ENTRIES_MAX = RECORD_ENTRIES_MAX - RECORD_ENTRIES_MAX / 4,
	LOAD_DEEDS_MAX = RECORD_DEEDS_MAX - RECORD_DEEDS_MAX / 4,
	LOAD_NEWEST_MAX = LOAD_DEEDS_MAX - LOAD_ENTRIES_MAX
};
static_assert(LOAD_NEWEST_MAX > 0, "a record has more deeds than entries");

/* A row of STATEMENT_LOAD_FLIPS. */
struct stored_flip {
	int64_t deed, call, undid;
	enum deed_type type;
	int entry; /* index into record.entries, -1: not loaded */
	bool stands;
};

static enum item_state
item_state_parse(const char *name)
{
	if (strcmp(name, "done") == 0)
		return ITEM_DONE;
	return strcmp(name, "open") == 0 ? ITEM_OPEN : ITEM_SET_ASIDE;
}

static enum deed_type
deed_type_parse(const char *name)
{
	if (strcmp(name, "wrote") == 0)
		return DEED_WROTE;
	if (strcmp(name, "struck") == 0)
		return DEED_STRUCK;
	return strcmp(name, "restored") == 0 ? DEED_RESTORED : DEED_MOVED;
}

static const char *
column_text(sqlite3_stmt *statement, int column)
{
	const char *text = (const char *)sqlite3_column_text(statement, column);
	return text == NULL ? "" : text;
}

static bool
load_item(struct store *store, int64_t item, struct record *record)
{
	sqlite3_stmt *statement =
		connection_start(store, STATEMENT_LOAD_ITEM, VALUES(value_row(item)));
	if (statement == NULL)
		return false;
	if (sqlite3_step(statement) == SQLITE_ROW) {
		record->item = item;
		record->state = item_state_parse(column_text(statement, 0));
	}
	return connection_end(statement) && record->item != 0;
}

/* All that stands, then the newest of what does not, in the order in which they were written. */
static bool
load_entries(struct store *store, enum statement which, struct record *record)
{
	sqlite3_stmt *statement = connection_start(
		store, which, VALUES(value_row(record->item), value_integer(LOAD_ENTRIES_MAX)));
	bool loaded = statement != NULL;
	while (loaded && sqlite3_step(statement) == SQLITE_ROW) {
		struct entry entry = {.id = sqlite3_column_int64(statement, 0),
				      .call = sqlite3_column_int64(statement, 1),
				      .confirmed = sqlite3_column_int(statement, 3) != 0};
		json_t *said = json_loads(column_text(statement, 2), 0, NULL);
		loaded = said != NULL && call_from_json(said, &entry.said) &&
			 record_load_entry(record, &entry);
		json_decref(said);
	}
	return statement != NULL && connection_end(statement) && loaded;
}

static int
find_entry(const struct record *record, int64_t id)
{
	int low = 0, high = record->entry_count;
	while (low < high) {
		int middle = low + (high - low) / 2;
		if (record->entries[middle].id < id)
			low = middle + 1;
		else
			high = middle;
	}
	return low < record->entry_count && record->entries[low].id == id ? low : -1;
}

/* The item's whole history of flips, oldest first; the caller frees it. */
static bool
read_flips(struct store *store, const struct record *record, struct stored_flip **flips, int *count)
{
	int room = 0;
	bool enough = true;
	*flips = NULL;
	*count = 0;
	sqlite3_stmt *statement =
		connection_start(store, STATEMENT_LOAD_FLIPS, VALUES(value_row(record->item)));
	if (statement == NULL)
		return false;
	while (enough && sqlite3_step(statement) == SQLITE_ROW) {
		if (*count == room) {
			room = 2 * room + 64;
			struct stored_flip *grown = realloc(*flips, (size_t)room * sizeof *grown);
			enough = grown != NULL;
			if (!enough)
				break;
			*flips = grown;
		}
		(*flips)[(*count)++] = (struct stored_flip){
			.deed = sqlite3_column_int64(statement, 0),
			.call = sqlite3_column_int64(statement, 1),
			.type = deed_type_parse(column_text(statement, 2)),
			.undid = sqlite3_column_int64(statement, 3),
			.entry = find_entry(record, sqlite3_column_int64(statement, 4)),
			.stands = sqlite3_column_int(statement, 5) != 0};
	}
	return connection_end(statement) && enough;
}

/* Where one deed's flips end that begin at `from`. */
static int
deed_end(const struct stored_flip *flips, int count, int from)
{
	int end = from + 1;
	while (end < count && flips[end].deed == flips[from].deed)
		end++;
	return end;
}

/* Where the newest part of the history begins that has at most `most` deeds, and knows all of its
 * entries. */
static int
newest_begin(const struct stored_flip *flips, int count, int most)
{
	int begin = count, deeds = 0;
	for (int i = count - 1; i >= 0; i--) {
		bool oldest_flip = i == 0 || flips[i - 1].deed != flips[i].deed;
		if (flips[i].entry < 0 || begin - i > DEED_FLIPS_MAX)
			return begin;
		if (!oldest_flip)
			continue;
		if (deeds++ == most)
			return begin;
		begin = i;
	}
	return begin;
}

/* The older history up to `end`: of each deed only what it made stand that stood to that end. */
static bool
load_outcome(struct record *record, const struct stored_flip *flips, int end)
{
	int last[RECORD_ENTRIES_MAX]; /* flip of each entry */
	for (int i = 0; i < end; i++) {
		if (flips[i].entry >= 0)
			last[flips[i].entry] = i;
	}
	for (int begin = 0, next; begin < end; begin = next) {
		struct deed deed = {.call = flips[begin].call, .type = DEED_WROTE, .target = -1};
		next = deed_end(flips, end, begin);
		for (int i = begin; i < next && deed.flip_count < DEED_FLIPS_MAX; i++) {
			if (flips[i].stands && flips[i].entry >= 0 && last[flips[i].entry] == i)
				deed.flips[deed.flip_count++] = (struct flip){flips[i].entry, true};
		}
		if (deed.flip_count > 0 && !record_load_deed(record, &deed))
			return false;
	}
	return true;
}

static int
find_deed(const struct record *record, int64_t call)
{
	for (int i = record->deed_count - 1; call != 0 && i >= 0; i--) {
		if (record->deeds[i].call == call)
			return i;
	}
	return -1;
}

static bool
load_deeds(struct record *record, const struct stored_flip *flips, int count)
{
	int begin = newest_begin(flips, count, LOAD_DEEDS_MAX);
	if (begin > 0)
		begin = newest_begin(flips, count, LOAD_NEWEST_MAX);
	if (!load_outcome(record, flips, begin))
		return false;
	while (begin < count) {
		int end = deed_end(flips, count, begin);
		struct deed deed = {.call = flips[begin].call,
				    .type = flips[begin].type,
				    .target = find_deed(record, flips[begin].undid)};
		for (; begin < end; begin++)
			deed.flips[deed.flip_count++] =
				(struct flip){flips[begin].entry, flips[begin].stands};
		if (!record_load_deed(record, &deed))
			return false;
	}
	return true;
}

bool
connection_load(struct store *store, int64_t item, struct record *record)
{
	struct stored_flip *flips = NULL;
	int count = 0;
	record_init(record);
	bool loaded = load_item(store, item, record) &&
		      load_entries(store, STATEMENT_LOAD_ENTRIES, record) &&
		      read_flips(store, record, &flips, &count) && load_deeds(record, flips, count);
	free(flips);
	if (!loaded)
		record_init(record);
	return loaded;
}

/* Both readings are of one moment, whatever the desk writes meanwhile. */
bool
store_load(struct store *store, int64_t item, struct record *record)
{
	record_init(record);
	if (store->together)
		return connection_load(store, item, record);
	if (!connection_run(store, STATEMENT_BEGIN_READING, NO_VALUES))
		return false;
	bool loaded = connection_load(store, item, record);
	connection_run(store, STATEMENT_ROLLBACK, NO_VALUES);
	return loaded;
}

bool
connection_load_standing(struct store *store, int64_t item, struct record *record)
{
	record_init(record);
	bool loaded = load_item(store, item, record) &&
		      load_entries(store, STATEMENT_LOAD_STANDING, record);
	for (int i = 0; i < record->entry_count; i++)
		record->entries[i].stands = true;
	return loaded;
}

bool
store_load_standing(struct store *store, int64_t item, struct record *record)
{
	record_init(record);
	if (!connection_run(store, STATEMENT_BEGIN_READING, NO_VALUES))
		return false;
	bool loaded = connection_load_standing(store, item, record);
	connection_run(store, STATEMENT_ROLLBACK, NO_VALUES);
	return loaded;
}

int64_t
store_item_open(struct store *store)
{
	int64_t item;
	connection_ask(store, STATEMENT_ITEM_OPEN, NO_VALUES, &item);
	return item;
}

int64_t
store_item_by_number(struct store *store, const char *number)
{
	int64_t item;
	connection_ask(store, STATEMENT_ITEM_BY_NUMBER, VALUES(value_text(number)), &item);
	return item;
}

int64_t
store_item_before(struct store *store, int64_t item)
{
	int64_t before;
	if (item == 0)
		connection_ask(store, STATEMENT_ITEM_LAST, NO_VALUES, &before);
	else
		connection_ask(store, STATEMENT_ITEM_BEFORE, VALUES(value_row(item)), &before);
	return before;
}

bool
store_last_number(struct store *store, char number[LABEL_MAX])
{
	sqlite3_stmt *statement = connection_start(store, STATEMENT_LAST_NUMBER, NO_VALUES);
	number[0] = '\0';
	if (statement == NULL)
		return false;
	if (sqlite3_step(statement) == SQLITE_ROW)
		snprintf(number, LABEL_MAX, "%s", column_text(statement, 0));
	return connection_end(statement) && number[0] != '\0';
}
