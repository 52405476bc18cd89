#include "schema.h"

#include "connection.h"

#include <stdio.h>
#include <string.h>

/* What was said (utterance, sound, call), what that did (deed, standing), what came of it (item,
 * entry). All times `_ms` count from the session's start, `_unix_ms` from 1970. */
static const char *const version_1[] = {
	"CREATE TABLE session ("
	" session INTEGER PRIMARY KEY,"
	" began_unix_ms INTEGER NOT NULL,"
	" who TEXT"
	") STRICT",

	"CREATE TABLE utterance ("
	" utterance INTEGER PRIMARY KEY,"
	" session INTEGER NOT NULL REFERENCES session,"
	" number INTEGER NOT NULL," /* the listener's */
	" start_ms INTEGER NOT NULL,"
	" end_ms INTEGER NOT NULL,"
	" decided_ms INTEGER NOT NULL,"
	" decided_by TEXT,"
	" alternatives TEXT," /* JSON array */
	" evidence TEXT,"     /* JSON object */
	" score REAL,"
	" UNIQUE (session, number)"
	") STRICT",

	/* A table of its own, so that sound can be deleted and all the rest stays. */
	"CREATE TABLE sound ("
	" utterance INTEGER PRIMARY KEY REFERENCES utterance,"
	" codec TEXT NOT NULL CHECK (codec = 'flac'),"
	" rate_hz INTEGER NOT NULL,"
	" bytes BLOB NOT NULL"
	") STRICT",

	/* Speech that was not for us: when, how long, how sure; never its sound or words. */
	"CREATE TABLE passed_over ("
	" passed_over INTEGER PRIMARY KEY,"
	" session INTEGER NOT NULL REFERENCES session,"
	" start_ms INTEGER NOT NULL,"
	" end_ms INTEGER NOT NULL,"
	" score REAL"
	") STRICT",

	/* `state` and `closed_unix_ms` follow item_state by a trigger. */
	"CREATE TABLE item ("
	" item INTEGER PRIMARY KEY,"
	" state TEXT NOT NULL DEFAULT 'open' CHECK (state IN ('open', 'done', 'set aside')),"
	" opened_unix_ms INTEGER NOT NULL,"
	" closed_unix_ms INTEGER"
	") STRICT",

	/* Confidence may be null: no number at all is stored as that. */
	"CREATE TABLE call ("
	" call INTEGER PRIMARY KEY,"
	" session INTEGER NOT NULL REFERENCES session,"
	" utterance INTEGER REFERENCES utterance," /* null: a pedal's */
	" item INTEGER REFERENCES item,"
	" at_ms INTEGER NOT NULL,"
	" source TEXT NOT NULL CHECK (source IN ('voice', 'pedal', 'desk')),"
	" verdict TEXT NOT NULL CHECK (verdict IN ('taken', 'doubted', 'refused')),"
	" confidence REAL,"
	" text TEXT NOT NULL,"
	" who TEXT,"			   /* said it, or pressed; null: not told */
	" type TEXT,"			   /* null: words that made no call */
	" meaning TEXT,"		   /* the call as JSON */
	" settles INTEGER REFERENCES call" /* the doubted call that this one answers */
	") STRICT",

	"CREATE TABLE item_state ("
	" item_state INTEGER PRIMARY KEY,"
	" item INTEGER NOT NULL REFERENCES item,"
	" call INTEGER NOT NULL REFERENCES call,"
	" state TEXT NOT NULL CHECK (state IN ('open', 'done', 'set aside'))"
	") STRICT",

	/* Whose a number is. One under which an item was closed or put aside is its for ever
	 * (`kept`): it may hang on the garment. Another is given back when it no longer stands: it
	 * was a slip, and the garment that it belongs to is still to come. */
	"CREATE TABLE number ("
	" number TEXT PRIMARY KEY,"
	" item INTEGER NOT NULL REFERENCES item,"
	" kept INTEGER NOT NULL DEFAULT 0 CHECK (kept IN (0, 1))"
	") STRICT, WITHOUT ROWID",

	/* What was spoken after "note", "maker other" and the like: kept until it is written out
	 * (another call settles that one), whatever becomes of other sound. */
	"CREATE TABLE note_sound ("
	" call INTEGER PRIMARY KEY REFERENCES call,"
	" codec TEXT NOT NULL CHECK (codec = 'flac'),"
	" rate_hz INTEGER NOT NULL,"
	" bytes BLOB NOT NULL"
	") STRICT",

	/* One thing written. `said` is the call as JSON; the columns beside it are the same again,
	 * for looking up. `stands` follows the table standing by a trigger. Of the entries that
	 * fill one slot of an item only one stands; flaws and notes are added and fill none. */
	"CREATE TABLE entry ("
	" entry INTEGER PRIMARY KEY,"
	" item INTEGER NOT NULL REFERENCES item,"
	" call INTEGER NOT NULL REFERENCES call,"
	" type TEXT NOT NULL,"
	" name TEXT,"  /* of a measure, flaw, kind, maker, size, colour, route, parcel */
	" label TEXT," /* of an item's number, a bin */
	" none INTEGER NOT NULL CHECK (none IN (0, 1)),"
	" value TEXT," /* a length as said */
	" unit TEXT,"
	" um INTEGER,"
	" size TEXT,"
	" side TEXT,"
	" face TEXT,"
	" part TEXT,"
	" said TEXT NOT NULL,"
	" confirmed INTEGER NOT NULL CHECK (confirmed IN (0, 1)),"
	" stands INTEGER NOT NULL DEFAULT 0 CHECK (stands IN (0, 1)),"
	" slot TEXT AS (CASE type WHEN 'measure' THEN 'measure ' || name"
	"  WHEN 'flaw' THEN NULL WHEN 'note' THEN NULL ELSE type END)"
	") STRICT",

	/* What one call did to one item (a move does something to two): it wrote, or took back
	 * (undid) what an earlier call had done. */
	"CREATE TABLE deed ("
	" deed INTEGER PRIMARY KEY,"
	" item INTEGER NOT NULL REFERENCES item,"
	" call INTEGER NOT NULL REFERENCES call,"
	" type TEXT NOT NULL CHECK (type IN ('wrote', 'struck', 'restored', 'moved')),"
	" undid INTEGER REFERENCES call"
	") STRICT",

	/* Which entries a deed made stand (1) or ended (0), in order. */
	"CREATE TABLE standing ("
	" standing INTEGER PRIMARY KEY,"
	" deed INTEGER NOT NULL REFERENCES deed,"
	" entry INTEGER NOT NULL REFERENCES entry,"
	" stands INTEGER NOT NULL CHECK (stands IN (0, 1))"
	") STRICT",

	"CREATE INDEX item_opened ON item (item) WHERE state = 'open'",
	"CREATE INDEX item_state_of ON item_state (item)",
	"CREATE INDEX call_of_session ON call (session)",
	"CREATE INDEX call_of_item ON call (item)",
	"CREATE INDEX call_settles ON call (settles) WHERE settles IS NOT NULL",
	"CREATE INDEX call_doubted ON call (call) WHERE verdict = 'doubted'",
	"CREATE INDEX entry_of_item ON entry (item)",
	"CREATE UNIQUE INDEX entry_slot ON entry (item, slot) WHERE stands = 1",
	"CREATE INDEX entry_label ON entry (slot, label) WHERE stands = 1 AND label IS NOT NULL",
	"CREATE INDEX deed_of_item ON deed (item)",
	"CREATE INDEX standing_of_deed ON standing (deed)",

	"CREATE TRIGGER standing_flips AFTER INSERT ON standing BEGIN"
	" UPDATE entry SET stands = new.stands WHERE entry = new.entry;"
	" DELETE FROM number WHERE kept = 0 AND new.stands = 0 AND EXISTS (SELECT 1 FROM entry AS "
	"gone"
	"  WHERE gone.entry = new.entry AND gone.type = 'item' AND gone.label = number.number"
	"  AND gone.item = number.item AND NOT EXISTS (SELECT 1 FROM entry AS other"
	"   WHERE other.item = gone.item AND other.slot = 'item' AND other.stands = 1"
	"   AND other.label = gone.label)); END",

	"CREATE TRIGGER number_stays_for_ever AFTER INSERT ON item_state"
	" WHEN new.state <> 'open' BEGIN"
	" UPDATE number SET kept = 1 WHERE number = (SELECT label FROM entry"
	"  WHERE entry.item = new.item AND slot = 'item' AND stands = 1) AND item = new.item; END",

	"CREATE TRIGGER item_state_follows AFTER INSERT ON item_state BEGIN"
	" UPDATE item SET state = new.state, closed_unix_ms = iif(new.state = 'open', NULL,"
	"  (SELECT began_unix_ms + at_ms FROM call JOIN session USING (session)"
	"   WHERE call = new.call))"
	" WHERE item = new.item; END",

	/* What was once written is not rewritten, by whomever. */
	"CREATE TRIGGER call_stays BEFORE UPDATE ON call BEGIN"
	" SELECT raise(ABORT, 'a call is never changed'); END",
	"CREATE TRIGGER call_kept BEFORE DELETE ON call BEGIN"
	" SELECT raise(ABORT, 'a call is never removed'); END",
	"CREATE TRIGGER entry_stays BEFORE UPDATE OF entry, item, call, type, name, label, none,"
	" value, unit, um, size, side, face, part, said, confirmed ON entry BEGIN"
	" SELECT raise(ABORT, 'an entry is never changed'); END",
	"CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN"
	" SELECT raise(ABORT, 'an entry is never removed'); END",
	"CREATE TRIGGER standing_stays BEFORE UPDATE ON standing BEGIN"
	" SELECT raise(ABORT, 'what stood is never changed'); END",
	"CREATE TRIGGER standing_kept BEFORE DELETE ON standing BEGIN"
	" SELECT raise(ABORT, 'what stood is never removed'); END",
	"CREATE TRIGGER number_stays BEFORE UPDATE ON number"
	" WHEN new.number <> old.number OR new.item <> old.item OR new.kept < old.kept BEGIN"
	" SELECT raise(ABORT, 'a number never changes hands'); END",
	"CREATE TRIGGER number_kept BEFORE DELETE ON number WHEN old.kept = 1 BEGIN"
	" SELECT raise(ABORT, 'a number that was kept is never given back'); END",

	"CREATE VIEW items AS"
	" SELECT item.item, number.label AS number, bin.label AS bin, kind.name AS kind,"
	"  route.name AS route, item.state,"
	"  strftime('%Y-%m-%dT%H:%M:%fZ', opened_unix_ms / 1000.0, 'unixepoch') AS opened_at,"
	"  strftime('%Y-%m-%dT%H:%M:%fZ', closed_unix_ms / 1000.0, 'unixepoch') AS closed_at"
	" FROM item"
	" LEFT JOIN entry AS number ON number.item = item.item AND number.slot = 'item'"
	"  AND number.stands = 1"
	" LEFT JOIN entry AS bin ON bin.item = item.item AND bin.slot = 'bin' AND bin.stands = 1"
	" LEFT JOIN entry AS kind ON kind.item = item.item AND kind.slot = 'kind'"
	"  AND kind.stands = 1"
	" LEFT JOIN entry AS route ON route.item = item.item AND route.slot = 'route'"
	"  AND route.stands = 1",

	"CREATE VIEW readings AS"
	" SELECT item, name AS measure, value, unit, um, confirmed, call, entry"
	" FROM entry WHERE stands = 1 AND type = 'measure'",

	"CREATE VIEW flaws AS"
	" SELECT item, name AS flaw, size, um, side, face, part, call, value, unit, entry"
	" FROM entry WHERE stands = 1 AND type = 'flaw'",

	"CREATE VIEW facts AS"
	" SELECT item, type AS fact, json_remove(said, '$.type', '$.correction') AS value, call, "
	"confirmed, entry"
	" FROM entry WHERE stands = 1 AND type IN ('maker', 'size', 'colour', 'cloth', 'pilling',"
	"  'colour change', 'weight', 'cost', 'price', 'parcel')",

	"CREATE VIEW calls AS"
	" SELECT call, utterance, item, at_ms, text, verdict, confidence, source, type, meaning,"
	"  settles, session, who"
	" FROM call",

	NULL};

/* What the desk needs: for each item a line that says how urgent it is to look at and what for, and
 * its write-up's words to be found by. All of it can be worked out again from the rest, and is, as
 * far as `listing_reach` says, by the desk alone: the station never writes here. */
static const char *const version_2[] = {
	"DROP VIEW facts",

	"CREATE VIEW facts AS"
	" SELECT item, type AS fact, json_remove(said, '$.type', '$.correction') AS value, call, "
	"confirmed, entry"
	" FROM entry WHERE stands = 1 AND type IN ('maker', 'size', 'colour', 'cloth', 'pilling',"
	"  'colour change', 'weight', 'cost', 'price', 'parcel', 'group', 'care', 'mending', "
	"'part')",

	"CREATE TABLE listing ("
	" item INTEGER PRIMARY KEY REFERENCES item,"
	" number TEXT,"
	" bin TEXT,"
	" kind TEXT,"
	" maker TEXT,"
	" route TEXT,"
	" state TEXT NOT NULL,"
	" day TEXT NOT NULL," /* on which it was opened, local time */
	" title TEXT NOT NULL,"
	" urgency INTEGER NOT NULL,"
	" matters TEXT NOT NULL" /* JSON array */
	") STRICT",

	"CREATE INDEX listing_urgency ON listing (urgency, item)",
	"CREATE INDEX listing_day_urgency ON listing (day, urgency, item)",
	"CREATE INDEX listing_number ON listing (number, item)",
	"CREATE INDEX listing_bin ON listing (bin, item)",
	"CREATE INDEX listing_kind ON listing (kind, item)",
	"CREATE INDEX listing_maker ON listing (maker, item)",
	"CREATE INDEX listing_route ON listing (route, item)",
	"CREATE INDEX listing_state ON listing (state, item)",

	"CREATE VIRTUAL TABLE listing_words USING fts5 (words,"
	" tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3')",

	/* All calls and deeds up to these have been worked in, and all items up to this one were
	 * worked out with these lists. */
	"CREATE TABLE listing_reach ("
	" reach INTEGER PRIMARY KEY CHECK (reach = 1),"
	" call INTEGER NOT NULL,"
	" deed INTEGER NOT NULL,"
	" item INTEGER NOT NULL,"
	" lists TEXT NOT NULL"
	") STRICT",
	"INSERT INTO listing_reach VALUES (1, 0, 0, 0, '')",

	/* Said when no item was open, and not taken. */
	"CREATE INDEX call_loose ON call (call) WHERE item IS NULL AND verdict <> 'taken'",

	/* A note as it was written out last; what was taken back at the desk does not count. */
	"CREATE VIEW notes AS"
	" SELECT item, call, (SELECT text FROM call AS written WHERE written.call ="
	"  (SELECT max(settling.call) FROM call AS settling WHERE settling.settles = entry.call"
	"   AND settling.type = 'note' AND NOT EXISTS (SELECT 1 FROM call AS undo"
	"    WHERE undo.settles = settling.call AND undo.source = 'desk'"
	"    AND undo.type = 'order'))) AS text, entry"
	" FROM entry WHERE stands = 1 AND type = 'note'",

	NULL};

/* migrations[n] brings version n to n + 1. One that was ever shipped is not touched again. */
static const char *const *const migrations[] = {version_1, version_2};

int
schema_newest(void)
{
	return sizeof migrations / sizeof *migrations;
}

static bool
schema_run(sqlite3 *database, const char *sql)
{
	return sqlite3_exec(database, sql, NULL, NULL, NULL) == SQLITE_OK;
}

/* The first column of the first row, as a number. */
static bool
schema_number(sqlite3 *database, const char *sql, int *number)
{
	sqlite3_stmt *statement;
	if (sqlite3_prepare_v2(database, sql, -1, &statement, NULL) != SQLITE_OK)
		return false;
	bool known = sqlite3_step(statement) == SQLITE_ROW;
	if (known)
		*number = sqlite3_column_int(statement, 0);
	return sqlite3_finalize(statement) == SQLITE_OK && known;
}

static bool
schema_unreadable(sqlite3 *database, const char *path, struct problem *problem)
{
	int code = sqlite3_errcode(database);
	if (code == SQLITE_NOTADB)
		return problem_say(problem,
				   "%s is not a database of lapel: name another file, or move it "
				   "away and a new one is made",
				   path);
	if (code == SQLITE_CORRUPT)
		return problem_say(problem,
				   "%s is damaged: leave it as it is, and work from the last copy",
				   path);
	char why_not[200];
	connection_why_not(database, why_not, sizeof why_not);
	return problem_say(problem, "%s cannot be opened: %s", path, why_not);
}

bool
schema_recognise(sqlite3 *database, const char *path, int *version, struct problem *problem)
{
	int application, tables;
	if (!schema_number(database, "PRAGMA application_id", &application) ||
	    !schema_number(database, "PRAGMA user_version", version) ||
	    !schema_number(database, "SELECT count(*) FROM sqlite_schema", &tables))
		return schema_unreadable(database, path, problem);

	bool empty = application == 0 && *version == 0 && tables == 0;
	if (application != SCHEMA_APPLICATION_ID && !empty)
		return problem_say(problem,
				   "%s is a database of another program: name another file", path);
	if (*version < 0 || *version > schema_newest())
		return problem_say(problem,
				   "%s was written by a newer lapel (its records are version %d, "
				   "this lapel knows %d): use the newer one",
				   path, *version, schema_newest());
	return true;
}

/* Rows are checked for about half a second: all of them, until there are some 200,000 calls. */
enum { CHECK_STEPS = 1000000, CHECK_STEPS_MOST = 30 };

static int
schema_check_long_enough(void *user)
{
	int *steps = user;
	return ++*steps > CHECK_STEPS_MOST;
}

bool
schema_undamaged(sqlite3 *database, const char *path, struct problem *problem)
{
	sqlite3_stmt *statement;
	int steps = 0;
	if (sqlite3_prepare_v2(database, "PRAGMA quick_check(1)", -1, &statement, NULL) !=
	    SQLITE_OK)
		return schema_unreadable(database, path, problem);
	sqlite3_progress_handler(database, CHECK_STEPS, schema_check_long_enough, &steps);
	int result = sqlite3_step(statement);
	sqlite3_progress_handler(database, 0, NULL, NULL);
	const char *found = (const char *)sqlite3_column_text(statement, 0);
	bool undamaged = result == SQLITE_INTERRUPT ||
			 (result == SQLITE_ROW && found != NULL && strcmp(found, "ok") == 0);
	if (!undamaged && result == SQLITE_ROW)
		problem_say(problem,
			    "%s is damaged (%.120s): leave it as it is, and work from the last "
			    "copy",
			    path, found == NULL ? "unreadable" : found);
	else if (!undamaged)
		schema_unreadable(database, path, problem);
	sqlite3_finalize(statement);
	/* Several lines of findings would not be one sentence. */
	for (char *end = problem == NULL ? NULL : strchr(problem->text, '\n'); end != NULL;
	     end = strchr(end, '\n'))
		*end = ' ';
	return undamaged;
}

/* One step, in a transaction that the caller has begun. */
static bool
schema_step(sqlite3 *database, int version)
{
	for (const char *const *sql = migrations[version]; *sql != NULL; sql++) {
		if (!schema_run(database, *sql))
			return false;
	}
	char sql[80];
	snprintf(sql, sizeof sql, "PRAGMA application_id = %d; PRAGMA user_version = %d",
		 SCHEMA_APPLICATION_ID, version + 1);
	return schema_run(database, sql);
}

bool
schema_migrate(sqlite3 *database, const char *path, struct problem *problem)
{
	for (;;) {
		/* The version is read again under the lock: another may have been quicker. */
		int version;
		if (!schema_run(database, "BEGIN IMMEDIATE"))
			return schema_unreadable(database, path, problem);
		bool read = schema_number(database, "PRAGMA user_version", &version);
		bool newest = read && version >= schema_newest();
		if (!read || newest || !schema_step(database, version) ||
		    !schema_run(database, "COMMIT")) {
			if (!newest)
				schema_unreadable(database, path, problem);
			schema_run(database, "ROLLBACK");
			return newest;
		}
	}
}
