#include "review_listing.h"

#include "review_inside.h"

#include <stdio.h>
#include <string.h>

bool
listing_reach_read(struct review *review, struct listing_reach *reach)
{
	static const char sql[] = "SELECT call, deed, item, lists FROM listing_reach";
	sqlite3_stmt *row = review_start(review, sql, NO_VALUES);
	if (row == NULL)
		return false;
	bool there = sqlite3_step(row) == SQLITE_ROW;
	if (there) {
		reach->call = sqlite3_column_int64(row, 0);
		reach->deed = sqlite3_column_int64(row, 1);
		reach->item = sqlite3_column_int64(row, 2);
		snprintf(reach->lists, sizeof reach->lists, "%s",
			 (const char *)sqlite3_column_text(row, 3));
	}
	return connection_end(row) && there;
}

static void
add_item(int64_t *items, int *count, int64_t item)
{
	for (int i = 0; i < *count; i++)
		if (items[i] == item)
			return;
	items[(*count)++] = item;
}

/* Rows of (row, item) past the reach, as long as there is room for their items. */
static bool
add_changes(struct review *review, const char *sql, int64_t *reached, int64_t *items, int *count,
	    int most)
{
	sqlite3_stmt *row = review_start(review, sql, VALUES(value_integer(*reached)));
	if (row == NULL)
		return false;
	while (*count < most && sqlite3_step(row) == SQLITE_ROW) {
		*reached = sqlite3_column_int64(row, 0);
		if (sqlite3_column_type(row, 1) != SQLITE_NULL)
			add_item(items, count, sqlite3_column_int64(row, 1));
	}
	return connection_end(row);
}

/* Nothing changes without a call; what it did to another item (a move) is in the deeds. */
int
listing_changed(struct review *review, const struct listing_reach *reach, int64_t *items, int most,
		struct listing_reach *to)
{
	static const char calls[] =
		"SELECT call, item FROM call WHERE call > ? ORDER BY call LIMIT 1000";
	static const char deeds[] = "SELECT deed, nullif(deed.item, ifnull(call.item, 0)) FROM "
				    "deed JOIN call USING (call)"
				    " WHERE deed > ? ORDER BY deed LIMIT 1000";
	int count = 0;
	*to = *reach;
	if (!add_changes(review, calls, &to->call, items, &count, most) ||
	    !add_changes(review, deeds, &to->deed, items, &count, most))
		return -1;
	return count;
}

int
listing_to_come(struct review *review, const struct listing_reach *reach, int64_t *items, int most,
		struct listing_reach *to)
{
	static const char sql[] = "SELECT item FROM item WHERE item > ? ORDER BY item LIMIT ?";
	int count = 0;
	*to = *reach;
	sqlite3_stmt *row =
		review_start(review, sql, VALUES(value_integer(reach->item), value_integer(most)));
	if (row == NULL)
		return -1;
	while (sqlite3_step(row) == SQLITE_ROW)
		to->item = items[count++] = sqlite3_column_int64(row, 0);
	return connection_end(row) ? count : -1;
}

bool
listing_from_the_start(struct review *review, const char *lists, struct listing_reach *to)
{
	static const char calls[] = "SELECT max(call) FROM call";
	static const char deeds[] = "SELECT max(deed) FROM deed";
	*to = (struct listing_reach){.call = review_ask(review, calls, NO_VALUES),
				     .deed = review_ask(review, deeds, NO_VALUES)};
	snprintf(to->lists, sizeof to->lists, "%s", lists);
	return true;
}

int64_t
listing_behind(struct review *review, const struct listing_reach *reach)
{
	static const char sql[] = "SELECT max(item) FROM item";
	int64_t last = review_ask(review, sql, NO_VALUES);
	return last > reach->item ? last - reach->item : 0;
}

static bool
put_line(struct review *review, const struct listing *line)
{
	static const char forget[] = "DELETE FROM listing_words WHERE rowid = ?";
	static const char words[] = "INSERT INTO listing_words (rowid, words) VALUES (?, ?)";
	static const char put[] =
		"INSERT OR REPLACE INTO listing (item, number, bin, kind, maker, route, state, day,"
		" title, urgency, matters) SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7,"
		" date(opened_unix_ms / 1000, 'unixepoch', 'localtime'), ?8, ?9, ?10"
		" FROM item WHERE item = ?1";
	struct value item = value_integer(line->item);
	return review_run(review, forget, VALUES(item)) &&
	       review_run(review, words, VALUES(item, value_text(line->words))) &&
	       review_run(review, put,
			  VALUES(item, value_text(line->number), value_text(line->bin),
				 value_text(line->kind), value_text(line->maker),
				 value_text(line->route), value_text(line->state),
				 value_text(line->title), value_integer(line->urgency),
				 value_text(line->matters)));
}

static bool
same_reach(const struct listing_reach *one, const struct listing_reach *other)
{
	return one->call == other->call && one->deed == other->deed && one->item == other->item &&
	       strcmp(one->lists, other->lists) == 0;
}

bool
listing_put(struct review *review, const struct listing *lines, int count,
	    const struct listing_reach *from, const struct listing_reach *to)
{
	static const char begin[] = "BEGIN IMMEDIATE", commit[] = "COMMIT", undo[] = "ROLLBACK";
	static const char move[] =
		"UPDATE listing_reach SET call = ?, deed = ?, item = ?, lists = ?";
	struct listing_reach now;
	if (!review_run(review, begin, NO_VALUES))
		return false;
	bool put = listing_reach_read(review, &now) && same_reach(&now, from);
	for (int i = 0; put && i < count; i++)
		put = put_line(review, &lines[i]);
	put = put && review_run(review, move,
				VALUES(value_integer(to->call), value_integer(to->deed),
				       value_integer(to->item), value_text(to->lists)));
	put = put && review_run(review, commit, NO_VALUES);
	if (!put && sqlite3_get_autocommit(review->database) == 0)
		review_run(review, undo, NO_VALUES);
	return put;
}
