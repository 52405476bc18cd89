#include "store.h"

#include "connection.h"
#include "schema.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* How long a write waits for another program (the desk) to let go. Its writes take milliseconds;
 * after this long somebody should be told, since the measurer waits for an answer. */
enum { PATIENCE_MS = 2000 };

/* Makes the file if there is none, so that it is ours alone from its first byte: SQLite makes it
 * as the umask says, and gives -wal and -shm the mode of the file itself. A file that is there is
 * not opened here: to close it again would drop the locks of a second connection. */
static bool
store_make_file(const char *path, struct problem *problem)
{
	int made = open(path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
	if (made >= 0) {
		close(made);
		return true;
	}
	struct stat file;
	if (errno != EEXIST || stat(path, &file) != 0)
		return problem_say(problem, "%s cannot be made: %s", path, strerror(errno));
	if (!S_ISREG(file.st_mode))
		return problem_say(problem, "%s is not a file: name one for the records", path);
	if (file.st_size == 0 && chmod(path, 0600) != 0)
		return problem_say(problem, "%s cannot be made private: %s", path, strerror(errno));
	return true;
}

static bool
store_open_file(struct store *store, const char *path, struct problem *problem)
{
	/* "./" keeps SQLite from reading "file:..." or ":memory:" as more than a name. */
	const char *folder = path[0] == '/' ? "" : "./";
	size_t size = strlen(folder) + strlen(path) + 1;
	char *name = malloc(size);
	if (name == NULL)
		return problem_say(problem, "the memory is full");
	snprintf(name, size, "%s%s", folder, path);
	bool opened = store_make_file(name, problem);
	if (opened &&
	    sqlite3_open_v2(name, &store->database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX,
			    NULL) != SQLITE_OK)
		opened = problem_say(problem, "%s cannot be opened: %s", path,
				     store->database == NULL ? "the memory is full"
							     : sqlite3_errmsg(store->database));
	if (opened && sqlite3_db_readonly(store->database, "main") == 1)
		opened = problem_say(
			problem, "%s may not be written: check who owns it and its folder", path);
	free(name);
	return opened;
}

/* Settings of the connection: each write on the disk before it is answered for, references kept,
 * sound that is deleted overwritten. journal_mode answers with the mode that it came to. */
static bool
store_set_up(struct store *store, const char *path, struct problem *problem)
{
	static const char settings[] = "PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;"
				       "PRAGMA secure_delete = ON; PRAGMA cell_size_check = ON";
	char why_not[200] = "its folder does not allow shared memory: put it on a local disk";
	sqlite3_stmt *mode = NULL;
	bool wal = sqlite3_prepare_v2(store->database, "PRAGMA journal_mode = WAL", -1, &mode,
				      NULL) == SQLITE_OK &&
		   sqlite3_step(mode) == SQLITE_ROW &&
		   strcmp((const char *)sqlite3_column_text(mode, 0), "wal") == 0;
	bool failed = sqlite3_finalize(mode) != SQLITE_OK;
	if (wal && !failed &&
	    sqlite3_exec(store->database, settings, NULL, NULL, NULL) == SQLITE_OK)
		return true;
	if (wal || failed)
		connection_why_not(store->database, why_not, sizeof why_not);
	return problem_say(problem, "%s cannot be made ready: %s", path, why_not);
}

static bool
store_make_ready(struct store *store, const char *path, struct problem *problem)
{
	int version;
	sqlite3_busy_timeout(store->database, PATIENCE_MS);
	if (!schema_recognise(store->database, path, &version, problem) ||
	    (version > 0 && !schema_undamaged(store->database, path, problem)) ||
	    !store_set_up(store, path, problem) ||
	    (version < schema_newest() && !schema_migrate(store->database, path, problem)))
		return false;
	if (!connection_prepare(store))
		return problem_say(problem, "%s cannot be used: %s", path,
				   sqlite3_errmsg(store->database));
	return true;
}

/* A trigger that deletes has a small table of its own for each row that is written. As SQLite
 * comes, room for twenty of its pages is asked of the system and given back each time, which took
 * longer than all the rest of a large import; and every allocation is counted under a lock. Once
 * the library is in use this is refused, and all is as it was. */
static void
store_set_up_library(void)
{
	sqlite3_config(SQLITE_CONFIG_PAGECACHE, NULL, 0, 0);
	sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
}

struct store *
store_open(const char *path, struct problem *problem)
{
	struct store *store = calloc(1, sizeof *store);
	if (store == NULL) {
		problem_say(problem, "the memory is full");
		return NULL;
	}
	store_set_up_library();
	if (!store_open_file(store, path, problem) || !store_make_ready(store, path, problem)) {
		store_close(store);
		return NULL;
	}
	return store;
}

void
store_close(struct store *store)
{
	if (store == NULL)
		return;
	connection_finish(store);
	if (store->database != NULL) {
		/* The last connection also does this by itself; with the desk open it is us. */
		sqlite3_wal_checkpoint_v2(store->database, NULL, SQLITE_CHECKPOINT_PASSIVE, NULL,
					  NULL);
		sqlite3_close(store->database);
	}
	free(store);
}

/* For what is not a call: the sentence for a problem. */
static bool
store_problem(struct store *store, const char *what, struct problem *problem)
{
	char why_not[200];
	connection_why_not(store->database, why_not, sizeof why_not);
	return problem_say(problem, "%s: %s", what, why_not);
}

bool
store_begin_session(struct store *store, int64_t began_at_ms, const char *who,
		    struct problem *problem)
{
	if (!connection_run(store, STATEMENT_ADD_SESSION,
			    VALUES(value_integer(began_at_ms), value_text(who))))
		return store_problem(store, "the session cannot be begun", problem);
	store->session = sqlite3_last_insert_rowid(store->database);
	store->began_unix_ms = began_at_ms;
	store->has_who = who != NULL;
	snprintf(store->who, sizeof store->who, "%s", who != NULL ? who : "");
	store->tally = (struct store_tally){.items = 0};
	return true;
}

void
store_speaker(struct store *store, const char *who)
{
	store->has_who = who != NULL && who[0] != '\0';
	snprintf(store->who, sizeof store->who, "%s", store->has_who ? who : "");
}

bool
store_passed_over(struct store *store, const struct utterance *utterance, struct problem *problem)
{
	if (!connection_run(store, STATEMENT_ADD_PASSED_OVER,
			    VALUES(value_row(store->session), value_integer(utterance->start_ms),
				   value_integer(utterance->end_ms), value_real(utterance->score))))
		return store_problem(store, "speech that was passed over cannot be noted", problem);
	store->tally.passed_over++;
	return true;
}

bool
store_forget_sound(struct store *store, int keep_days, int64_t now_ms, struct problem *problem)
{
	const int64_t day_ms = INT64_C(86400000);
	int64_t before_ms = keep_days <= 0 ? INT64_MAX : now_ms - keep_days * day_ms;
	if (!connection_run(store, STATEMENT_FORGET_SOUND, VALUES(value_integer(before_ms))) ||
	    !connection_run(store, STATEMENT_FORGET_NOTES, VALUES(value_integer(before_ms))))
		return store_problem(store, "old sound cannot be deleted", problem);
	/* What was deleted lies in the write-ahead file until that is emptied. While another
	 * program reads, it is emptied later. */
	sqlite3_wal_checkpoint_v2(store->database, NULL, SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL);
	return true;
}

bool
store_tally(struct store *store, struct store_tally *tally)
{
	*tally = store->tally;
	return store->session != 0;
}
