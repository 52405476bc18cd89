#include "connection.h"

#include <errno.h>
#include <stdio.h>

static const char *const sql_texts[STATEMENTS] = {
	[STATEMENT_BEGIN] = "BEGIN IMMEDIATE",
	[STATEMENT_BEGIN_READING] = "BEGIN DEFERRED",
	[STATEMENT_COMMIT] = "COMMIT",
	[STATEMENT_ROLLBACK] = "ROLLBACK",
	[STATEMENT_ADD_SESSION] = "INSERT INTO session (began_unix_ms, who) VALUES (?, ?)",
	[STATEMENT_FIND_UTTERANCE] =
		"SELECT utterance FROM utterance WHERE session = ? AND number = ?",
	[STATEMENT_ADD_UTTERANCE] =
		"INSERT INTO utterance (session, number, start_ms, end_ms, decided_ms, decided_by,"
		" alternatives, evidence, score) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
	[STATEMENT_ADD_SOUND] =
		"INSERT INTO sound (utterance, codec, rate_hz, bytes) VALUES (?, 'flac', ?, ?)",
	[STATEMENT_ADD_PASSED_OVER] =
		"INSERT INTO passed_over (session, start_ms, end_ms, score) VALUES (?, ?, ?, ?)",
	[STATEMENT_ADD_ITEM] = "INSERT INTO item (opened_unix_ms) VALUES (?)",
	[STATEMENT_ADD_CALL] =
		"INSERT INTO call (session, utterance, item, at_ms, source, verdict, confidence,"
		" text, type, meaning, settles, who) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
	[STATEMENT_ADD_ITEM_STATE] = "INSERT INTO item_state (item, call, state) VALUES (?, ?, ?)",
	[STATEMENT_FIND_NUMBER] = "SELECT item FROM number WHERE number = ?",
	[STATEMENT_ADD_NUMBER] = "INSERT INTO number (number, item) VALUES (?, ?)",
	[STATEMENT_ADD_ENTRY] =
		"INSERT INTO entry (item, call, type, name, label, none, value, unit, um, size,"
		" side, face, part, said, confirmed)"
		" VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
	[STATEMENT_ADD_DEED] = "INSERT INTO deed (item, call, type, undid) VALUES (?, ?, ?, ?)",
	/* Another program may have filled the slot since the record was read. */
	[STATEMENT_END_OCCUPANTS] =
		"INSERT INTO standing (deed, entry, stands)"
		" SELECT ?1, other.entry, 0 FROM entry AS this JOIN entry AS other"
		"  ON other.item = this.item AND other.slot = this.slot"
		" WHERE this.entry = ?2 AND other.entry <> ?2 AND other.stands = 1",
	[STATEMENT_ADD_STANDING] = "INSERT INTO standing (deed, entry, stands) VALUES (?, ?, ?)",
	[STATEMENT_LOAD_ITEM] = "SELECT state FROM item WHERE item = ?",
	[STATEMENT_LOAD_ENTRIES] =
		"SELECT entry, call, said, confirmed FROM (SELECT entry, call, said, confirmed"
		"  FROM entry WHERE item = ? ORDER BY stands DESC, entry DESC LIMIT ?)"
		" ORDER BY entry",
	[STATEMENT_LOAD_STANDING] = "SELECT entry, call, said, confirmed FROM entry"
				    " WHERE item = ? AND stands = 1 ORDER BY entry LIMIT ?",
	[STATEMENT_LOAD_FLIPS] =
		"SELECT deed, deed.call, deed.type, deed.undid, standing.entry, standing.stands"
		" FROM deed JOIN standing USING (deed) WHERE deed.item = ? ORDER BY deed, standing",
	[STATEMENT_ITEM_OPEN] =
		"SELECT item FROM item WHERE state = 'open' ORDER BY (SELECT max(item_state)"
		" FROM item_state WHERE item_state.item = item.item) DESC LIMIT 1",
	[STATEMENT_ITEM_BY_NUMBER] =
		"SELECT item FROM entry WHERE slot = 'item' AND label = ? AND stands = 1",
	[STATEMENT_ITEM_BEFORE] = "SELECT max(item) FROM item WHERE item < ?",
	[STATEMENT_ITEM_LAST] = "SELECT max(item) FROM item",
	/* Of those that can be counted on from, that of the newest item: an older one may be given
	 * its number at the desk, long after. */
	[STATEMENT_LAST_NUMBER] = "SELECT label FROM entry WHERE slot = 'item' AND stands = 1"
				  " AND label NOT GLOB '*[^0-9]*' ORDER BY item DESC LIMIT 1",
	[STATEMENT_ADD_NOTE_SOUND] =
		"INSERT INTO note_sound (call, codec, rate_hz, bytes) VALUES (?, 'flac', ?, ?)",
	[STATEMENT_FORGET_NOTES] =
		"DELETE FROM note_sound WHERE call IN (SELECT note.call FROM note_sound AS kept"
		" JOIN call AS note USING (call) JOIN session USING (session)"
		" WHERE began_unix_ms + note.at_ms < ?"
		"  AND EXISTS (SELECT 1 FROM call AS out WHERE out.settles = note.call"
		"   AND NOT EXISTS (SELECT 1 FROM call AS undo WHERE undo.settles = out.call"
		"    AND undo.source = 'desk' AND undo.type = 'order')))",
	[STATEMENT_EACH_ITEM] =
		"SELECT item FROM item WHERE ?1 IS NULL OR EXISTS (SELECT 1 FROM entry"
		"  WHERE entry.item = item.item AND slot = 'item' AND stands = 1"
		"  AND label NOT GLOB '*[^0-9]*' AND length(ltrim(label, '0')) <= 18"
		"  AND CAST(label AS INTEGER) BETWEEN ?1 AND ?2)"
		" ORDER BY item",
	[STATEMENT_CLOSED_AT] = "SELECT closed_unix_ms FROM item WHERE item = ?",
	[STATEMENT_FORGET_SOUND] =
		"DELETE FROM sound WHERE utterance IN (SELECT utterance FROM utterance"
		" JOIN session USING (session) WHERE began_unix_ms + end_ms < ?)",
};

struct value
value_integer(int64_t integer)
{
	return (struct value){.type = VALUE_INTEGER, .integer = integer};
}

struct value
value_row(int64_t row)
{
	return row == 0 ? (struct value){.type = VALUE_NULL} : value_integer(row);
}

struct value
value_real(double real)
{
	return (struct value){.type = VALUE_REAL, .real = real};
}

struct value
value_text(const char *text)
{
	return (struct value){.type = text == NULL ? VALUE_NULL : VALUE_TEXT, .text = text};
}

struct value
value_said(const char *text)
{
	return value_text(text != NULL && text[0] != '\0' ? text : NULL);
}

struct value
value_bytes(const void *bytes, int64_t count)
{
	return (struct value){.type = VALUE_BYTES, .text = bytes, .integer = count};
}

bool
connection_prepare(struct store *store)
{
	for (int which = 0; which < STATEMENTS; which++) {
		if (sqlite3_prepare_v3(store->database, sql_texts[which], -1,
				       SQLITE_PREPARE_PERSISTENT, &store->statements[which],
				       NULL) != SQLITE_OK)
			return false;
	}
	return true;
}

void
connection_finish(struct store *store)
{
	for (int which = 0; which < STATEMENTS; which++)
		sqlite3_finalize(store->statements[which]);
}

static int
value_bind(sqlite3_stmt *statement, int at, const struct value *value)
{
	switch (value->type) {
	case VALUE_NULL:
		return sqlite3_bind_null(statement, at);
	case VALUE_INTEGER:
		return sqlite3_bind_int64(statement, at, value->integer);
	case VALUE_REAL:
		return sqlite3_bind_double(statement, at, value->real);
	case VALUE_TEXT:
		return sqlite3_bind_text(statement, at, value->text, -1, SQLITE_STATIC);
	case VALUE_BYTES:
		return sqlite3_bind_blob64(statement, at, value->text,
					   (sqlite3_uint64)value->integer, SQLITE_STATIC);
	}
	return SQLITE_MISUSE;
}

bool
connection_bind(sqlite3_stmt *statement, const struct value *values, int count)
{
	for (int i = 0; i < count; i++) {
		if (value_bind(statement, i + 1, &values[i]) != SQLITE_OK)
			return false;
	}
	return true;
}

sqlite3_stmt *
connection_start(struct store *store, enum statement which, const struct value *values, int count)
{
	sqlite3_stmt *statement = store->statements[which];
	return connection_bind(statement, values, count) ? statement : NULL;
}

bool
connection_end(sqlite3_stmt *statement)
{
	bool done = sqlite3_reset(statement) == SQLITE_OK;
	sqlite3_clear_bindings(statement); /* what was borrowed is given back */
	return done;
}

bool
connection_run(struct store *store, enum statement which, const struct value *values, int count)
{
	sqlite3_stmt *statement = connection_start(store, which, values, count);
	if (statement == NULL)
		return false;
	sqlite3_step(statement);
	return connection_end(statement);
}

bool
connection_ask(struct store *store, enum statement which, const struct value *values, int count,
	       int64_t *answer)
{
	*answer = 0;
	sqlite3_stmt *statement = connection_start(store, which, values, count);
	if (statement == NULL)
		return false;
	if (sqlite3_step(statement) == SQLITE_ROW)
		*answer = sqlite3_column_int64(statement, 0);
	return connection_end(statement);
}

/* Of the last failure on the write-ahead file: a commit's own is not handed on by SQLite. */
static int
wal_errno(sqlite3 *database)
{
	sqlite3_file *wal = NULL;
	int number = 0;
	sqlite3_file_control(database, "main", SQLITE_FCNTL_JOURNAL_POINTER, &wal);
	if (wal != NULL && wal->pMethods != NULL)
		wal->pMethods->xFileControl(wal, SQLITE_FCNTL_LAST_ERRNO, &number);
	return number;
}

/* A quota, or a limit on a file's size, fills the disk for us alone. */
static bool
is_full(int number)
{
	return number == ENOSPC || number == EDQUOT || number == EFBIG;
}

void
connection_why_not(sqlite3 *database, char *text, size_t size)
{
	const char *why = NULL;
	switch (sqlite3_errcode(database) & 0xff) {
	case SQLITE_FULL:
		why = "the disk is full";
		break;
	case SQLITE_IOERR:
		why = is_full(sqlite3_system_errno(database)) || is_full(wal_errno(database))
			      ? "the disk is full"
			      : "the disk could not be written";
		break;
	case SQLITE_BUSY:
	case SQLITE_LOCKED:
		why = "the records are locked by another program";
		break;
	case SQLITE_READONLY:
	case SQLITE_PERM:
	case SQLITE_AUTH:
		why = "the records may not be written";
		break;
	case SQLITE_CORRUPT:
	case SQLITE_NOTADB:
		why = "the records are damaged";
		break;
	case SQLITE_NOMEM:
		why = "the memory is full";
		break;
	}
	if (why != NULL)
		snprintf(text, size, "%s", why);
	else
		snprintf(text, size, "the records refused it: %s", sqlite3_errmsg(database));
}
