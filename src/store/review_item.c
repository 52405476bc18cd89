/* Items and days in figures. */
#include "review_inside.h"

#include <stdio.h>

bool
review_item(struct review *review, int64_t item, struct review_item *found)
{
	static const char sql[] =
		"SELECT opened_unix_ms, closed_unix_ms,"
		" (SELECT max(item) FROM item AS other WHERE other.item < item.item),"
		" (SELECT min(item) FROM item AS other WHERE other.item > item.item)"
		" FROM item WHERE item = ?";
	sqlite3_stmt *row = review_start(review, sql, VALUES(value_integer(item)));
	if (row == NULL)
		return false;
	bool there = sqlite3_step(row) == SQLITE_ROW;
	if (there)
		*found = (struct review_item){
			sqlite3_column_int64(row, 0), sqlite3_column_int64(row, 1),
			sqlite3_column_int64(row, 2), sqlite3_column_int64(row, 3)};
	return connection_end(row) && there;
}

/* The calls of a day are found by its sessions: one that began up to a day before may reach into
 * it. */
static const char calls_of_day[] =
	"WITH span AS (SELECT CAST(strftime('%s', ?1, 'utc') AS INTEGER) * 1000 AS begin,"
	"  CAST(strftime('%s', ?1, '+1 day', 'utc') AS INTEGER) * 1000 AS end)"
	" SELECT count(*) FILTER (WHERE source <> 'desk'),"
	"  count(*) FILTER (WHERE source <> 'desk' AND verdict = 'doubted'),"
	"  count(*) FILTER (WHERE source <> 'desk' AND verdict = 'refused'),"
	"  count(*) FILTER (WHERE source = 'desk'),"
	"  count(*) FILTER (WHERE type = 'order' AND json_extract(meaning, '$.order') IN"
	"   ('strike that', 'strike') AND verdict = 'taken' AND source <> 'desk')"
	" FROM span CROSS JOIN session ON began_unix_ms >= begin - 86400000 AND began_unix_ms < end"
	" CROSS JOIN call USING (session)"
	" WHERE began_unix_ms + at_ms >= begin AND began_unix_ms + at_ms < end";

static const char items_of_day[] =
	"SELECT count(*), count(*) FILTER (WHERE state = 'done'),"
	" count(*) FILTER (WHERE state = 'set aside'), count(*) FILTER (WHERE state = 'open'),"
	" count(*) FILTER (WHERE urgency = 9),"
	" sum((SELECT count(*) FROM entry WHERE entry.item = listing.item AND stands = 1"
	"  AND type = 'measure')),"
	" sum((SELECT count(*) FROM entry WHERE entry.item = listing.item AND stands = 1"
	"  AND type = 'flaw' AND none = 0))"
	" FROM listing WHERE day = ?";

bool
review_day(struct review *review, const char *day, struct review_day *figures)
{
	*figures = (struct review_day){.opened = 0};
	sqlite3_stmt *row = review_start(review, items_of_day, VALUES(value_text(day)));
	if (row == NULL)
		return false;
	if (sqlite3_step(row) == SQLITE_ROW) {
		figures->opened = sqlite3_column_int64(row, 0);
		figures->done = sqlite3_column_int64(row, 1);
		figures->set_aside = sqlite3_column_int64(row, 2);
		figures->open = sqlite3_column_int64(row, 3);
		figures->looked = sqlite3_column_int64(row, 4);
		figures->readings = sqlite3_column_int64(row, 5);
		figures->flaws = sqlite3_column_int64(row, 6);
	}
	if (!connection_end(row) ||
	    (row = review_start(review, calls_of_day, VALUES(value_text(day)))) == NULL)
		return false;
	if (sqlite3_step(row) == SQLITE_ROW) {
		figures->calls = sqlite3_column_int64(row, 0);
		figures->doubted = sqlite3_column_int64(row, 1);
		figures->refused = sqlite3_column_int64(row, 2);
		figures->desk_calls = sqlite3_column_int64(row, 3);
		figures->struck = sqlite3_column_int64(row, 4);
	}
	return connection_end(row);
}

/* One day after another, each by a step down the index. */
int
review_days(struct review *review, char days[][11], int most)
{
	static const char sql[] = "SELECT max(day) FROM listing WHERE day < ?";
	char before[11] = "9999-99-99";
	int count = 0;
	while (count < most) {
		sqlite3_stmt *row = review_start(review, sql, VALUES(value_text(before)));
		if (row == NULL)
			break;
		bool there = sqlite3_step(row) == SQLITE_ROW &&
			     sqlite3_column_type(row, 0) == SQLITE_TEXT;
		if (there)
			snprintf(before, sizeof before, "%s",
				 (const char *)sqlite3_column_text(row, 0));
		connection_end(row);
		if (!there)
			break;
		snprintf(days[count++], sizeof before, "%s", before);
	}
	return count;
}

bool
review_day_amounts(struct review *review, const char *day, const char *fact,
		   review_amount_visitor *visit, void *user)
{
	static const char sql[] =
		"SELECT json_extract(said, '$.currency') AS currency,"
		" sum(json_extract(said, '$.minor')), count(*)"
		" FROM listing JOIN entry USING (item)"
		" WHERE day = ? AND entry.slot = ? AND entry.stands = 1 AND currency IS NOT NULL"
		" GROUP BY currency ORDER BY currency";
	sqlite3_stmt *row = review_start(review, sql, VALUES(value_text(day), value_text(fact)));
	if (row == NULL)
		return false;
	while (sqlite3_step(row) == SQLITE_ROW)
		if (!visit(user, (const char *)sqlite3_column_text(row, 0),
			   sqlite3_column_int64(row, 1), sqlite3_column_int64(row, 2)))
			break;
	return connection_end(row);
}

bool
review_day_routes(struct review *review, const char *day, review_tally_visitor *visit, void *user)
{
	static const char sql[] =
		"SELECT route, count(*) FROM listing WHERE day = ? GROUP BY route ORDER BY route";
	sqlite3_stmt *row = review_start(review, sql, VALUES(value_text(day)));
	if (row == NULL)
		return false;
	while (sqlite3_step(row) == SQLITE_ROW)
		if (!visit(user, (const char *)sqlite3_column_text(row, 0),
			   sqlite3_column_int64(row, 1)))
			break;
	return connection_end(row);
}
