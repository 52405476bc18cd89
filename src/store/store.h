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

/* The sound of a note or an off-list word, 16 kHz mono: of the stored call that it was said after.
 * *written tells whether it is kept, or why not. */
void store_note(struct store *store, int64_t call, const int16_t *sound, int64_t count,
		struct written *written);

/* Speech that was clearly not for us: its time, length and score only. */
bool store_passed_over(struct store *store, const struct utterance *utterance,
		       struct problem *problem);

/* The record of an item with its history; of one that is too long for a record, all that stands and
 * the newest deeds. False with record->item 0 when there is none. */
bool store_load(struct store *store, int64_t item, struct record *record);
/* Only what stands of it, without the history: quicker, for handing on. */
bool store_load_standing(struct store *store, int64_t item, struct record *record);
int64_t store_item_open(struct store *store); /* the one last opened of those open, or 0 */
int64_t store_item_by_number(struct store *store, const char *number); /* if it stands, or 0 */
int64_t store_item_before(struct store *store, int64_t item);	       /* 0 given: the last one */

/* The number of the newest item that has one, of those that are digits alone. False, and "", when
 * there is none. */
bool store_last_number(struct store *store, char number[LABEL_MAX]);

/* Several writes as one: until they are ended nothing of them is in the database, no other program
 * can write, and one that fails leaves them all to be undone. `keep` false undoes them, as does a
 * failure to keep them. */
bool store_begin_together(struct store *store, struct problem *problem);
bool store_end_together(struct store *store, bool keep, struct problem *problem);

/* Who says what is written from here on; NULL or "": it is not told. */
void store_speaker(struct store *store, const char *who);

/* Item numbers from and to, both inclusive, 0 to STORE_NUMBER_MAX: digits count as the number that
 * they are ("0042" is 42). */
struct store_numbers {
	int64_t from, to;
};
#define STORE_NUMBER_MAX INT64_C(999999999999999999)

/* Is given one item after another, borrowed for the call; false ends it, with the problem said. */
typedef bool store_visitor(void *user, const struct record *record, struct problem *problem);

/* All items in the order in which they were opened, or (`numbers` not NULL) those that have such a
 * number; all as they stood at one moment. */
bool store_each_item(struct store *store, const struct store_numbers *numbers, store_visitor *visit,
		     void *user, struct problem *problem);

/* When the item was closed or set aside, in Unix time; 0 while it is open, and of none. */
int64_t store_closed_at(struct store *store, int64_t item);

/* Deletes kept sound older than `keep_days` before `now_ms` (Unix time), with its bytes on the
 * disk; 0 deletes all. A note's sound goes only when it was written out, that is when another call
 * settles the note's. */
bool store_forget_sound(struct store *store, int keep_days, int64_t now_ms,
			struct problem *problem);

/* What this connection stored since store_begin_session: items opened, calls by verdict, readings
 * written and flaws found. False when no session was begun. */
struct store_tally {
	int64_t items, taken, doubted, refused, passed_over, readings, flaws;
};
bool store_tally(struct store *store, struct store_tally *tally);

#endif
