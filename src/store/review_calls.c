/* Calls, and their sound. */
#include "review_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A call is taken back by an order of the desk's that settles it. */
#define UNDONE(call)                                                    \
	"EXISTS (SELECT 1 FROM call AS undo WHERE undo.settles = " call \
	" AND undo.source = 'desk' AND undo.type = 'order')"

#define SETTLED_BY                                                                         \
	"(SELECT max(settling.call) FROM call AS settling WHERE settling.settles = c.call" \
	" AND NOT " UNDONE("settling.call") " AND NOT (settling.source = 'desk' AND"       \
					    " settling.type = 'order'))"

#define CALL_COLUMNS                                                                         \
	"c.call, c.item, c.utterance, c.at_ms, session.began_unix_ms + c.at_ms, c.source,"   \
	" c.verdict, c.text, c.who, c.type, c.meaning, c.confidence, c.settles, " SETTLED_BY \
	", " UNDONE("c.call") ", EXISTS (SELECT 1 FROM sound WHERE"                          \
			      " sound.utterance = c.utterance), EXISTS (SELECT 1 FROM"       \
			      " note_sound WHERE note_sound.call = c.call), c.session"

static struct review_call
call_of(sqlite3_stmt *row)
{
	struct review_call call = {.call = sqlite3_column_int64(row, 0),
				   .item = sqlite3_column_int64(row, 1),
				   .utterance = sqlite3_column_int64(row, 2),
				   .at_ms = sqlite3_column_int64(row, 3),
				   .at_unix_ms = sqlite3_column_int64(row, 4),
				   .source = (const char *)sqlite3_column_text(row, 5),
				   .verdict = (const char *)sqlite3_column_text(row, 6),
				   .text = (const char *)sqlite3_column_text(row, 7),
				   .who = (const char *)sqlite3_column_text(row, 8),
				   .type = (const char *)sqlite3_column_text(row, 9),
				   .meaning = (const char *)sqlite3_column_text(row, 10),
				   .has_confidence = sqlite3_column_type(row, 11) != SQLITE_NULL,
				   .confidence = sqlite3_column_double(row, 11),
				   .settles = sqlite3_column_int64(row, 12),
				   .settled_by = sqlite3_column_int64(row, 13),
				   .undone = sqlite3_column_int(row, 14) != 0,
				   .has_sound = sqlite3_column_int(row, 15) != 0,
				   .has_note = sqlite3_column_int(row, 16) != 0,
				   .session = sqlite3_column_int64(row, 17)};
	return call;
}

static bool
visit_calls(sqlite3_stmt *statement, review_visitor *visit, void *user, int *count)
{
	*count = 0;
	if (statement == NULL)
		return false;
	while (sqlite3_step(statement) == SQLITE_ROW) {
		struct review_call call = call_of(statement);
		(*count)++;
		if (!visit(user, &call))
			break;
	}
	return connection_end(statement);
}

bool
review_call(struct review *review, int64_t call, review_visitor *visit, void *user)
{
	static const char sql[] =
		"SELECT " CALL_COLUMNS " FROM call AS c JOIN session USING (session)"
		" WHERE c.call = ?";
	int count;
	return visit_calls(review_start(review, sql, VALUES(value_row(call))), visit, user,
			   &count) &&
	       count == 1;
}

bool
review_calls_of(struct review *review, int64_t item, int most, review_visitor *visit, void *user)
{
	static const char sql[] =
		"SELECT " CALL_COLUMNS " FROM (SELECT * FROM call WHERE item = ?"
		"  ORDER BY call DESC LIMIT ?) AS c JOIN session USING (session) ORDER BY c.call";
	int count;
	return visit_calls(review_start(review, sql, VALUES(value_row(item), value_integer(most))),
			   visit, user, &count);
}

bool
review_loose(struct review *review, int most, review_visitor *visit, void *user)
{
	static const char sql[] =
		"SELECT " CALL_COLUMNS " FROM call AS c JOIN session USING (session)"
		" WHERE c.item IS NULL AND c.verdict <> 'taken' AND c.source = 'voice'"
		"  AND c.type IS NOT 'order' AND c.type IS NOT 'answer' AND " SETTLED_BY " IS NULL"
		" ORDER BY c.call LIMIT ?";
	int count;
	return visit_calls(review_start(review, sql, VALUES(value_integer(most))), visit, user,
			   &count);
}

int64_t
review_item_after_call(struct review *review, int64_t session, int64_t call)
{
	static const char sql[] = "SELECT item FROM call WHERE session = ? AND call > ? AND"
				  " item IS NOT NULL ORDER BY call LIMIT 1";
	return review_ask(review, sql, VALUES(value_row(session), value_integer(call)));
}

bool
review_state_before(struct review *review, int64_t call, char *state, size_t size)
{
	static const char sql[] =
		"SELECT (SELECT before.state FROM item_state AS before"
		"  WHERE before.item = this.item AND before.item_state < this.item_state"
		"  ORDER BY before.item_state DESC LIMIT 1)"
		" FROM item_state AS this WHERE this.item = (SELECT item FROM call WHERE call = ?1)"
		"  AND this.call = ?1 AND NOT EXISTS (SELECT 1 FROM item_state AS later"
		"   WHERE later.item = this.item AND later.item_state > this.item_state)";
	sqlite3_stmt *row = review_start(review, sql, VALUES(value_row(call)));
	state[0] = '\0';
	if (row == NULL)
		return false;
	if (sqlite3_step(row) == SQLITE_ROW && sqlite3_column_text(row, 0) != NULL)
		snprintf(state, size, "%s", (const char *)sqlite3_column_text(row, 0));
	return connection_end(row) && state[0] != '\0';
}

/* A copy of the first column of the first row, with a final zero; NULL when there is none. */
static unsigned char *
first_bytes(sqlite3_stmt *statement, int64_t *size)
{
	unsigned char *copy = NULL;
	*size = 0;
	if (statement == NULL)
		return NULL;
	if (sqlite3_step(statement) == SQLITE_ROW && sqlite3_column_bytes(statement, 0) > 0) {
		const void *bytes = sqlite3_column_blob(statement, 0);
		size_t count = (size_t)sqlite3_column_bytes(statement, 0);
		copy = malloc(count + 1);
		if (copy != NULL) {
			memcpy(copy, bytes, count);
			copy[count] = 0;
			*size = (int64_t)count;
		}
	}
	connection_end(statement);
	return copy;
}

char *
review_alternatives(struct review *review, int64_t call)
{
	static const char sql[] = "SELECT alternatives FROM utterance WHERE utterance ="
				  " (SELECT utterance FROM call WHERE call = ?)";
	int64_t size;
	return (char *)first_bytes(review_start(review, sql, VALUES(value_row(call))), &size);
}

/* The calls of an utterance are written one after another, with hardly anything of the desk's
 * between them. */
bool
review_place(struct review *review, int64_t call, struct utterance_place *place)
{
	static const char sql[] = "SELECT count(*) FILTER (WHERE other.call < this.call), count(*)"
				  " FROM call AS this JOIN call AS other"
				  "  ON other.call BETWEEN this.call - 40 AND this.call + 40"
				  "  AND other.utterance = this.utterance"
				  " WHERE this.call = ?";
	sqlite3_stmt *row = review_start(review, sql, VALUES(value_row(call)));
	*place = (struct utterance_place){0, 0};
	if (row == NULL)
		return false;
	if (sqlite3_step(row) == SQLITE_ROW)
		*place = (struct utterance_place){sqlite3_column_int(row, 0),
						  sqlite3_column_int(row, 1)};
	return connection_end(row) && place->count > 0;
}

unsigned char *
review_sound(struct review *review, int64_t call, bool note, int64_t *size)
{
	static const char of_utterance[] = "SELECT bytes FROM sound WHERE utterance ="
					   " (SELECT utterance FROM call WHERE call = ?)";
	static const char of_note[] = "SELECT bytes FROM note_sound WHERE call = ?";
	return first_bytes(
		review_start(review, note ? of_note : of_utterance, VALUES(value_row(call))), size);
}
