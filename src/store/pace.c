#include "pace.h"

#include "connection.h"
#include "schema.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char by_day[] =
	"WITH moment AS ("
	" SELECT call, session, verdict, began_unix_ms + at_ms AS at_ms,"
	"  date((began_unix_ms + at_ms) / 1000, 'unixepoch', 'localtime') AS day"
	" FROM call JOIN session USING (session)"
	" WHERE source <> 'desk' AND (?1 IS NULL OR call.who = ?1)),"
	" paced AS ("
	" SELECT day, verdict, min(?2, at_ms - lag(at_ms, 1, at_ms) OVER"
	"  (PARTITION BY session, day ORDER BY at_ms, call)) AS took_ms FROM moment),"
	" closed AS ("
	" SELECT day, count(DISTINCT item_state.item) AS items"
	" FROM item_state JOIN moment USING (call)"
	" WHERE item_state.state IN ('done', 'set aside') GROUP BY day),"
	" struck AS ("
	" SELECT day, count(*) AS times FROM deed JOIN moment USING (call)"
	" WHERE type = 'struck' GROUP BY day)"
	" SELECT day, ifnull(max(closed.items), 0), count(*), sum(verdict = 'doubted'),"
	"  sum(verdict = 'refused'), ifnull(max(struck.times), 0), sum(took_ms)"
	" FROM paced LEFT JOIN closed USING (day) LEFT JOIN struck USING (day)"
	" GROUP BY day ORDER BY day";

static bool
add_day(struct pace_day **days, int *count, sqlite3_stmt *row)
{
	struct pace_day *grown = realloc(*days, sizeof *grown * ((size_t)*count + 1));
	if (grown == NULL)
		return false;
	*days = grown;
	struct pace_day *day = &grown[(*count)++];
	snprintf(day->day, sizeof day->day, "%s", (const char *)sqlite3_column_text(row, 0));
	day->items = sqlite3_column_int64(row, 1);
	day->calls = sqlite3_column_int64(row, 2);
	day->doubted = sqlite3_column_int64(row, 3);
	day->refused = sqlite3_column_int64(row, 4);
	day->struck = sqlite3_column_int64(row, 5);
	day->worked_ms = sqlite3_column_int64(row, 6);
	return true;
}

static bool
read_days(sqlite3 *database, const char *path, const char *who, struct pace_day **days, int *count,
	  struct problem *problem)
{
	sqlite3_stmt *row = NULL;
	char why[200];
	int step = SQLITE_ERROR;
	if (sqlite3_prepare_v2(database, by_day, -1, &row, NULL) == SQLITE_OK) {
		sqlite3_bind_text(row, 1, who, -1, SQLITE_STATIC);
		sqlite3_bind_int(row, 2, PACE_PAUSE_MS);
		while ((step = sqlite3_step(row)) == SQLITE_ROW && add_day(days, count, row))
			continue;
	}
	sqlite3_finalize(row);
	if (step == SQLITE_DONE)
		return true;
	connection_why_not(database, why, sizeof why);
	return problem_say(problem, "the figures of %s cannot be read: %s", path, why);
}

bool
pace_read(const char *path, const char *who, struct pace_day **days, int *count,
	  struct problem *problem)
{
	sqlite3 *database = NULL;
	int version = 0;
	*days = NULL;
	*count = 0;
	bool read = sqlite3_open_v2(path, &database, SQLITE_OPEN_READONLY, NULL) == SQLITE_OK;
	if (!read)
		problem_say(problem, "%s cannot be opened: is it there, and may you read it?",
			    path);
	read = read && schema_recognise(database, path, &version, problem);
	if (read && version > 0)
		read = read_days(database, path, who, days, count, problem);
	sqlite3_close(database);
	if (read)
		return true;
	free(*days);
	*days = NULL;
	*count = 0;
	return false;
}
