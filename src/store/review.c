#include "review_inside.h"

#include <stdlib.h>
#include <string.h>

/* The listing can wait: whoever holds the records is left alone, and it is tried again later. */
enum { PATIENCE_MS = 20 };

struct review *
review_open(const struct store *store, struct problem *problem)
{
	const char *path = sqlite3_db_filename(store->database, "main");
	/* Of the listing nothing is lost that cannot be worked out again: with NORMAL a power cut
	 * takes back its last writes, and those alone. */
	static const char settings[] = "PRAGMA synchronous = NORMAL; PRAGMA foreign_keys = ON;"
				       "PRAGMA cache_size = -32000";
	struct review *review = calloc(1, sizeof *review);
	if (review == NULL) {
		problem_say(problem, "the memory is full");
		return NULL;
	}
	if (sqlite3_open_v2(path, &review->database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX,
			    NULL) == SQLITE_OK &&
	    sqlite3_busy_timeout(review->database, PATIENCE_MS) == SQLITE_OK &&
	    sqlite3_exec(review->database, settings, NULL, NULL, NULL) == SQLITE_OK)
		return review;
	problem_say(problem, "%s cannot be opened: %s", path,
		    review->database == NULL ? "the memory is full"
					     : sqlite3_errmsg(review->database));
	review_close(review);
	return NULL;
}

void
review_close(struct review *review)
{
	if (review == NULL)
		return;
	for (int i = 0; i < review->statement_count; i++)
		sqlite3_finalize(review->statements[i].statement);
	sqlite3_close(review->database);
	free(review);
}

sqlite3_stmt *
review_start(struct review *review, const char *sql, const struct value *values, int count)
{
	int i = 0;
	while (i < review->statement_count && review->statements[i].sql != sql)
		i++;
	if (i == review->statement_count) {
		if (i == REVIEW_STATEMENTS_MAX ||
		    sqlite3_prepare_v3(review->database, sql, -1, SQLITE_PREPARE_PERSISTENT,
				       &review->statements[i].statement, NULL) != SQLITE_OK)
			return NULL;
		review->statements[i].sql = sql;
		review->statement_count++;
	}
	sqlite3_stmt *statement = review->statements[i].statement;
	return connection_bind(statement, values, count) ? statement : NULL;
}

bool
review_run(struct review *review, const char *sql, const struct value *values, int count)
{
	sqlite3_stmt *statement = review_start(review, sql, values, count);
	if (statement == NULL)
		return false;
	sqlite3_step(statement);
	return connection_end(statement);
}

int64_t
review_ask(struct review *review, const char *sql, const struct value *values, int count)
{
	int64_t answer = 0;
	sqlite3_stmt *statement = review_start(review, sql, values, count);
	if (statement == NULL)
		return 0;
	if (sqlite3_step(statement) == SQLITE_ROW)
		answer = sqlite3_column_int64(statement, 0);
	connection_end(statement);
	return answer;
}

int64_t
review_version(struct review *review)
{
	static const char sql[] = "PRAGMA data_version";
	return review_ask(review, sql, NO_VALUES);
}
