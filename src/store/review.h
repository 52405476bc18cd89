/* The desk's view of the records: what was said and what became of it, sound to be heard again, and
 * the listing, by which items are found and told how urgent they are to look at. A connection of
 * its own, which never writes what the station writes: the listing can be worked out again, so that
 * its writes need not wait for the disk. */
#ifndef LAPEL_STORE_REVIEW_H
#define LAPEL_STORE_REVIEW_H

#include "store.h"

#include <stddef.h>
#include <stdint.h>

struct review; /* opaque; one thread */

/* Looks into the database that the store is open on. */
struct review *review_open(const struct store *store, struct problem *problem);
void review_close(struct review *review); /* NULL is allowed */

/* A number that is another one after anybody else wrote; never written is 0. */
int64_t review_version(struct review *review);

/* One call with what became of it; texts are borrowed until the next of the same statement. */
struct review_call {
	int64_t call, item, utterance; /* 0: none */
	int64_t at_ms;		       /* from its session's start */
	int64_t at_unix_ms;
	const char *source, *verdict, *text;
	const char *who, *type, *meaning; /* or NULL; meaning is the call as JSON */
	bool has_confidence;
	double confidence;
	int64_t settles;
	int64_t settled_by; /* the last call that settles it and was not taken back, or 0 */
	bool undone;	    /* taken back at the desk */
	bool has_sound;	    /* of the utterance */
	bool has_note;	    /* of a note or an off-list word */
	int64_t session;
};

/* Gives one call after another; false ends it. */
typedef bool review_visitor(void *user, const struct review_call *call);

/* False when there is no such call, or it could not be read; else `visit` was given it. */
bool review_call(struct review *review, int64_t call, review_visitor *visit, void *user);
/* The item's newest calls, `most` at most, oldest first. */
bool review_calls_of(struct review *review, int64_t item, int most, review_visitor *visit,
		     void *user);
/* Calls of no item, doubted or refused and not settled, oldest first; `most` at most. */
bool review_loose(struct review *review, int most, review_visitor *visit, void *user);
/* If the call changed its item's state, and nobody did since: what state it was in before. */
bool review_state_before(struct review *review, int64_t call, char *state, size_t size);

/* The item that was dictated to next in the call's session; 0: none. */
int64_t review_item_after_call(struct review *review, int64_t session, int64_t call);

/* The other readings of the call's utterance, a JSON array that the caller frees; NULL when none
 * were kept. */
char *review_alternatives(struct review *review, int64_t call);

/* Which call of its utterance a call of voice is, from 0, and of how many. False for others. */
struct utterance_place {
	int index, count;
};
bool review_place(struct review *review, int64_t call, struct utterance_place *place);

/* The sound of the call's utterance, or (`note`) what was said after it: a whole FLAC file that the
 * caller frees. NULL when it is not there (any more). */
unsigned char *review_sound(struct review *review, int64_t call, bool note, int64_t *size);

/* When the item was opened and closed (0: not), and the items before and after it (0: none); false
 * when there is no such item. */
struct review_item {
	int64_t opened_unix_ms, closed_unix_ms, before, after;
};
bool review_item(struct review *review, int64_t item, struct review_item *found);

/* What was dictated on a day, "2026-11-25" in local time. */
struct review_day {
	int64_t opened, done, set_aside, open; /* items opened that day, and their state now */
	int64_t calls, doubted, refused;       /* by voice and pedal */
	int64_t desk_calls;
	int64_t struck, readings, flaws; /* readings and flaws that stand of that day's items */
	int64_t looked;			 /* items that ask for nothing more at the desk */
};
bool review_day(struct review *review, const char *day, struct review_day *figures);
/* Sums of what stands of that day's items, by currency: `fact` is "price" or "cost". */
typedef bool review_amount_visitor(void *user, const char *currency, int64_t minor, int64_t items);
bool review_day_amounts(struct review *review, const char *day, const char *fact,
			review_amount_visitor *visit, void *user);
/* How many of that day's items go where; NULL: not said. */
typedef bool review_tally_visitor(void *user, const char *value, int64_t count);
bool review_day_routes(struct review *review, const char *day, review_tally_visitor *visit,
		       void *user);

/* The newest days on which something was opened, newest first; `days` has room for `most`. */
int review_days(struct review *review, char days[][11], int most);

#endif
