/* The inside of the store: the connection and its prepared statements. For the files of this
 * folder only (and their tests); others see store.h. */
#ifndef LAPEL_STORE_CONNECTION_H
#define LAPEL_STORE_CONNECTION_H

#include "store.h"

#include <sqlite3.h>

enum statement {
	STATEMENT_BEGIN,
	STATEMENT_BEGIN_READING,
	STATEMENT_COMMIT,
	STATEMENT_ROLLBACK,
	STATEMENT_ADD_SESSION,
	STATEMENT_FIND_UTTERANCE,
	STATEMENT_ADD_UTTERANCE,
	STATEMENT_ADD_SOUND,
	STATEMENT_ADD_PASSED_OVER,
	STATEMENT_ADD_ITEM,
	STATEMENT_ADD_CALL,
	STATEMENT_ADD_ITEM_STATE,
	STATEMENT_FIND_NUMBER,
	STATEMENT_ADD_NUMBER,
	STATEMENT_ADD_ENTRY,
	STATEMENT_ADD_DEED,
	STATEMENT_END_OCCUPANTS,
	STATEMENT_ADD_STANDING,
	STATEMENT_LOAD_ITEM,
	STATEMENT_LOAD_ENTRIES,
	STATEMENT_LOAD_STANDING,
	STATEMENT_LOAD_FLIPS,
	STATEMENT_ITEM_OPEN,
	STATEMENT_ITEM_BY_NUMBER,
	STATEMENT_ITEM_BEFORE,
	STATEMENT_ITEM_LAST,
	STATEMENT_LAST_NUMBER,
	STATEMENT_ADD_NOTE_SOUND,
	STATEMENT_EACH_ITEM,
	STATEMENT_CLOSED_AT,
	STATEMENT_FORGET_SOUND,
	STATEMENT_FORGET_NOTES,
	STATEMENTS
};

struct store {
	sqlite3 *database;
	sqlite3_stmt *statements[STATEMENTS]; /* prepared at opening, for the connection's life */
	int64_t session;		      /* 0: none was begun */
	int64_t began_unix_ms;
	bool has_who;
	char who[CALL_NAME_MAX]; /* at the table */
	struct store_tally tally;
	bool together;			 /* writes are part of a transaction that is open */
	struct store_tally tally_before; /* it */
};

/* What is put in place of a statement's question marks, in their order. */
struct value {
	enum { VALUE_NULL, VALUE_INTEGER, VALUE_REAL, VALUE_TEXT, VALUE_BYTES } type;
	int64_t integer; /* of VALUE_BYTES: how many */
	double real;
	const void *text; /* borrowed until the statement has run */
};

struct value value_integer(int64_t integer);
struct value value_row(int64_t row); /* a row's number; 0 is null */
struct value value_real(double real);
struct value value_text(const char *text); /* NULL is null */
struct value value_said(const char *text); /* NULL is null, and so is "": it was not said */
struct value value_bytes(const void *bytes, int64_t count);

bool connection_prepare(struct store *store); /* all statements */
void connection_finish(struct store *store);

/* Sets the values of a statement; false when that failed. */
bool connection_bind(sqlite3_stmt *statement, const struct value *values, int count);

/* Sets the values and gives the statement to be stepped; NULL when that failed. The caller resets
 * it by connection_end. */
sqlite3_stmt *connection_start(struct store *store, enum statement which,
			       const struct value *values, int count);
bool connection_end(sqlite3_stmt *statement); /* false when the last step had failed */

/* Runs a statement that has no rows to give, or of which only the first row's first column is
 * wanted: *answer is 0 when there is none. */
bool connection_run(struct store *store, enum statement which, const struct value *values,
		    int count);
bool connection_ask(struct store *store, enum statement which, const struct value *values,
		    int count, int64_t *answer);

/* store_load inside a transaction that is open. */
bool connection_load(struct store *store, int64_t item, struct record *record);
/* The same of what stands, without the history. */
bool connection_load_standing(struct store *store, int64_t item, struct record *record);

#define VALUES(...)                          \
	(const struct value[]){__VA_ARGS__}, \
		(int)(sizeof((const struct value[]){__VA_ARGS__}) / sizeof(struct value))
#define NO_VALUES NULL, 0

/* Why the last thing asked of the database failed, as a clause that can be said aloud: "the disk is
 * full". */
void connection_why_not(sqlite3 *database, char *text, size_t size);

#endif
