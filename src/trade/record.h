/* The record of one garment: what was written of it, what stands, and what can be taken back.
 * Nothing is ever removed: a new reading ends the one before, a strike ends what it strikes and
 * brings back what that had replaced, a restore undoes a strike. */
#ifndef LAPEL_TRADE_RECORD_H
#define LAPEL_TRADE_RECORD_H

#include "call.h"
#include "vocabulary.h"

enum { RECORD_ENTRIES_MAX = 256, RECORD_DEEDS_MAX = 384, DEED_FLIPS_MAX = 48 };

enum item_state { ITEM_OPEN, ITEM_DONE, ITEM_SET_ASIDE };

/* One thing written: the call that wrote it carries its value. Its type says which slot it fills: a
 * number, a bin, a kind, a route, the reading of a measure, a fact; a flaw is added, and fills none
 * ("flaw none" is ended by the first flaw, and is not written over one that stands). */
struct entry {
	int64_t id;   /* the store's, 0 until it is stored */
	int64_t call; /* the store's number of the call that wrote it */
	struct call said;
	bool confirmed; /* doubted, asked about and said to be so */
	bool stands;
};

struct flip {
	int entry; /* index into record.entries */
	bool stands;
};

enum deed_type {
	DEED_WROTE,
	DEED_STRUCK,
	DEED_RESTORED,
	DEED_MOVED /* what was dictated to the wrong item left it; neither struck nor restored */
};

/* What one call did to the record: entries that it made stand, and ended. */
struct deed {
	int64_t call;
	enum deed_type type;
	int target; /* of a strike or a restore: the index of the deed that it undid; otherwise, or
		       when one entry of several was struck, -1 */
	bool undone;
	int flip_count;
	struct flip flips[DEED_FLIPS_MAX];
};

struct record {
	int64_t item; /* the store's number, 0: nothing of it is stored yet */
	enum item_state state;
	int entry_count;
	int deed_count;
	struct entry entries[RECORD_ENTRIES_MAX];
	struct deed deeds[RECORD_DEEDS_MAX];
};

void record_init(struct record *record);
void record_copy(struct record *copy, const struct record *record); /* only what is in use */

/* Each of these works out one deed and does it; *deed tells the store what to flip. They return
 * false and change nothing when there is nothing to do or (record_write) the record is full.
 * `call` is 0 while the store has not numbered it: record_stored fills it in. */
bool record_write(struct record *record, const struct call *said, bool confirmed,
		  struct deed *deed);
/* As record_write, after a "no": where `said` fills another slot than the call before it, that one
 * is withdrawn in the same deed. */
bool record_correct(struct record *record, const struct call *said, bool confirmed,
		    struct deed *deed);
bool record_strike_last(struct record *record, struct deed *deed);
bool record_strike_measure(struct record *record, const char *measure, struct deed *deed);
/* The last standing flaw that is what `which` says of it: flaw (its name), side, face, part; what
 * is unsaid fits any. */
bool record_strike_flaw(struct record *record, const struct call *which, struct deed *deed);
/* Undoes the last strike that was not undone. */
bool record_restore(struct record *record, struct deed *deed);

/* "These belong to another item": `record` stands again as it stood before its deed number
 * `since` (but for its own number), and what that ends is what has to move. */
bool record_move_out(struct record *record, int since, struct deed *deed);
/* Writes what `out` ended in `from` into `record`, as one deed. Entries keep their calls. */
bool record_move_in(struct record *record, const struct record *from, const struct deed *out,
		    struct deed *deed);

/* Room for one more call, whatever it is (but for a move). */
bool record_has_room(const struct record *record);

/* Adds a fact that holds for every item to the deed just done, which must not be stored yet: a new
 * entry that carries `call`, the store's number of the call that said "keep". Neither "strike that"
 * nor a move touches it. False when its slot is filled, or there is no room. */
bool record_keep(struct record *record, const struct call *fact, int64_t call, struct deed *deed);

/* The store's answer to what was done since its last one: the call's number, and the number of the
 * first entry that was added (others count up from it). */
void record_stored(struct record *record, int64_t call, int64_t first_entry);
/* The store could not write: the last deed is undone as if it had never been. */
void record_unstored(struct record *record);

/* Rebuilding from the store, in order: entries first, then deeds as they were done. What stands and
 * what is undone is worked out from the deeds. False when an index is out of range. */
bool record_load_entry(struct record *record, const struct entry *entry);
bool record_load_deed(struct record *record, const struct deed *deed);

/* The standing entry, or NULL. */
const struct entry *record_slot(const struct record *record, enum call_type type);
const struct entry *record_reading(const struct record *record, const char *measure);
int record_flaw_count(const struct record *record); /* standing ones, "flaw none" not counted */
bool record_empty(const struct record *record);	    /* nothing stands */

/* Of a set: the piece that is in hand, "" when none was said; and a call of CALL_PART with all the
 * pieces that there were before it. */
const char *record_piece(const struct record *record);
void record_add_piece(const struct record *record, struct call *part);

/* Whether a measure (a name of the list) was taken of a piece ("": of the item itself): as it is,
 * or of its left or right. */
bool record_measured(const struct record *record, const char *piece, const char *measure);

/* The measures that the kind wants and that were not taken, in the order of asking, as indexes into
 * LIST_MEASURE; the count. 0 also when no kind was said. Of a set: those of all its pieces, one
 * piece after another; record_missing_of says those of one. */
int record_missing_of(const struct record *record, const struct vocabulary *vocabulary,
		      const char *piece, int missing[TERM_MEASURES_MAX]);
int record_missing(const struct record *record, const struct vocabulary *vocabulary,
		   int missing[TERM_MEASURES_MAX]);

/* The entries that a deed brought to stand, or ended, for saying what was done: the first of each
 * kind, or NULL. */
const struct entry *record_began(const struct record *record, const struct deed *deed);
const struct entry *record_ended(const struct record *record, const struct deed *deed);

#endif
