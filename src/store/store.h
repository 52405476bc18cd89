/* The journal and the records, in SQLite. Append-only: calls and entries are never changed, what
 * stands is a history of flips. Every write is one durable transaction (WAL, synchronous=FULL). */
#ifndef LAPEL_STORE_STORE_H
#define LAPEL_STORE_STORE_H

#include "problem.h"
#include "record.h"
#include "write.h"

struct store; /* opaque; one connection, one thread */

/* Opens, makes (mode 0600) or migrates the database. `path` is borrowed for the call. Refuses a
 * file that is no database of lapel, is damaged (quick_check), or was written by a newer lapel. */
struct store *store_open(const char *path, struct problem *problem);
void store_close(struct store *store); /* checkpoints; NULL is allowed */

/* A new session; nothing can be written before it. `began_at_ms` is Unix time in milliseconds:
 * times of day in the views are it plus a call's at_ms. `who` may be NULL. */
bool store_begin_session(struct store *store, int64_t began_at_ms, const char *who,
			 struct problem *problem);

/* What the listener knows of an utterance; stored with the first call of it, or by itself. */
struct utterance {
	uint64_t number; /* the listener's, unique within the session, not 0 */
	int64_t start_ms, end_ms, decided_ms;
	const char *decided_by;	  /* "silence", "limit", "end" */
	const char *alternatives; /* JSON array, or NULL */
	const char *evidence;	  /* JSON object, or NULL */
	double score;		  /* the verifier's, for what was not for us */
	const int16_t *sound;	  /* 16 kHz mono, NULL to keep none */
	int64_t sound_count;	  /* in samples */
};

/* Stores one call: the utterance if it is new (utterance may be NULL for a pedal's call), its
 * sound, the call, the item and what flips. On failure *written says why in words that can be said
 * aloud (disk full, database locked, a number that was another item's already) and nothing of the
 * write is in the database. Waits two seconds at most for another program. */
void store_write(struct store *store, const struct write *write, const struct utterance *utterance,
		 struct written *written);

/* Speech that was clearly not for us: its time, length and score only. */
bool store_passed_over(struct store *store, const struct utterance *utterance,
		       struct problem *problem);

/* The record of an item with its history; of one that is too long for a record, all that stands and
 * the newest deeds. False with record->item 0 when there is none. */
bool store_load(struct store *store, int64_t item, struct record *record);
int64_t store_item_open(struct store *store); /* the one last opened of those open, or 0 */
int64_t store_item_by_number(struct store *store, const char *number); /* if it stands, or 0 */
int64_t store_item_before(struct store *store, int64_t item);	       /* 0 given: the last one */
int64_t store_item_after(struct store *store, int64_t item);

/* Deletes kept sound older than `keep_days` before `now_ms` (Unix time), with its bytes on the
 * disk; 0 deletes all. */
bool store_forget_sound(struct store *store, int keep_days, int64_t now_ms,
			struct problem *problem);

/* What this connection stored since store_begin_session: items opened, calls by verdict, readings
 * written and flaws found. False when no session was begun. */
struct store_tally {
	int64_t items, taken, doubted, refused, passed_over, readings, flaws;
};
bool store_tally(struct store *store, struct store_tally *tally);

#endif
