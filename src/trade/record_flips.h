/* How a deed's flips are worked out and done: the inside of record.h, for its files only. */
#ifndef LAPEL_TRADE_RECORD_FLIPS_H
#define LAPEL_TRADE_RECORD_FLIPS_H

#include "record.h"

/* Whether `said` may not be written or come back because of what stands: "flaw none" beside a flaw,
 * as `record` would be after the flips so far of `deed`. */
bool flips_barred(const struct record *record, const struct call *said, const struct deed *deed);

/* Whether two calls, written, would be in each other's way. Flaws and notes are added one to
 * another; only "flaw none" and a flaw exclude each other. */
bool flips_same_slot(const struct call *one, const struct call *other);

/* Ends the standing entries whose slot `said` fills; each of these adds to *deed only and leaves
 * what stands to flips_do. */
void flips_end_occupants(const struct record *record, const struct call *said, struct deed *deed);

/* Appends a new entry, which the deed makes stand. There must be room. */
void flips_add_entry(struct record *record, const struct entry *entry, struct deed *deed);

/* False for a fact that holds for every item: it is written along with an item's first call, after
 * what that call itself said, but carries the number of the call that said "keep". */
bool flips_own(const struct record *record, const struct deed *deed, int entry);

/* The reverse of `target`'s flips, as far as they have not been overtaken: what its own call began
 * ends, what it ended comes back where its slot is free, or, with `force`, ends who stands there
 * now. */
void flips_reverse(const struct record *record, const struct deed *target, bool force,
		   struct deed *deed);

/* Flips what stands, marks what is undone and appends the deed. */
void flips_do(struct record *record, const struct deed *deed);

/* What `deed` undid is undone (or, with `done` false, is not any more). */
void flips_mark_undone(struct record *record, const struct deed *deed, bool done);

#endif
