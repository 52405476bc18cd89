/* Many items: read one after another, written together. */
#include "store.h"

#include "connection.h"

#include <stdlib.h>

static bool
many_problem(struct store *store, const char *what, struct problem *problem)
{
	char why_not[200];
	connection_why_not(store->database, why_not, sizeof why_not);
	return problem_say(problem, "%s: %s", what, why_not);
}

/* A large transaction touches pages all over the file. With as little room for them as one call
 * wants, the same ones are written out and read in again and again before the commit. */
static const char much_room[] = "PRAGMA cache_size = -131072";

bool
store_begin_together(struct store *store, struct problem *problem)
{
	sqlite3_exec(store->database, much_room, NULL, NULL, NULL);
	if (!connection_run(store, STATEMENT_BEGIN, NO_VALUES))
		return many_problem(store, "nothing can be written", problem);
	store->together = true;
	store->tally_before = store->tally;
	return true;
}

bool
store_end_together(struct store *store, bool keep, struct problem *problem)
{
	bool kept = keep && connection_run(store, STATEMENT_COMMIT, NO_VALUES);
	store->together = false;
	if (kept)
		return true;
	if (keep)
		many_problem(store, "it cannot be written", problem);
	/* Some failures (a full disk) have rolled it back already. */
	if (sqlite3_get_autocommit(store->database) == 0)
		connection_run(store, STATEMENT_ROLLBACK, NO_VALUES);
	store->tally = store->tally_before;
	return !keep;
}

int64_t
store_closed_at(struct store *store, int64_t item)
{
	int64_t closed_unix_ms;
	connection_ask(store, STATEMENT_CLOSED_AT, VALUES(value_row(item)), &closed_unix_ms);
	return closed_unix_ms;
}

/* Room for one record is enough for any number of items. */
static bool
visit_rows(struct store *store, sqlite3_stmt *statement, struct record *record,
	   store_visitor *visit, void *user, struct problem *problem)
{
	int result;
	while ((result = sqlite3_step(statement)) == SQLITE_ROW) {
		int64_t item = sqlite3_column_int64(statement, 0);
		if (!connection_load(store, item, record))
			return problem_say(problem, "item row %lld cannot be read from the records",
					   (long long)item);
		if (!visit(user, record, problem))
			return false;
	}
	return result == SQLITE_DONE || many_problem(store, "the records cannot be read", problem);
}

bool
store_each_item(struct store *store, const struct store_numbers *numbers, store_visitor *visit,
		void *user, struct problem *problem)
{
	struct value none = {.type = VALUE_NULL};
	struct record *record = malloc(sizeof *record);
	if (record == NULL)
		return problem_say(problem, "the memory is full");
	if (!connection_run(store, STATEMENT_BEGIN_READING, NO_VALUES)) {
		free(record);
		return many_problem(store, "the records cannot be read", problem);
	}
	sqlite3_stmt *statement =
		connection_start(store, STATEMENT_EACH_ITEM,
				 VALUES(numbers == NULL ? none : value_integer(numbers->from),
					numbers == NULL ? none : value_integer(numbers->to)));
	bool done = statement != NULL && visit_rows(store, statement, record, visit, user, problem);
	if (statement == NULL)
		many_problem(store, "the records cannot be read", problem);
	else
		connection_end(statement);
	connection_run(store, STATEMENT_ROLLBACK, NO_VALUES);
	free(record);
	return done;
}
