/* What somebody does who has the whole record before them and can point at any of it: at the desk,
 * not at the table. Each of these works out one deed and does it, as in record.h. */
#ifndef LAPEL_TRADE_RECORD_UNDO_H
#define LAPEL_TRADE_RECORD_UNDO_H

#include "record.h"

/* The index of the entry with the store's number `id`, if it stands; or -1. */
int record_standing(const struct record *record, int64_t id);

/* Ends the standing entry, and brings back what it had replaced. */
bool record_strike_entry(struct record *record, int entry, struct deed *deed);

/* Writes `said` where the standing entry stood, in whatever slot that was: a flaw in the place of
 * another, a waist in that of what was taken for a chest. */
bool record_replace(struct record *record, int entry, const struct call *said, bool confirmed,
		    struct deed *deed);

/* Takes back what the call did, whatever that was: what it wrote is struck, what it struck is
 * restored, as far as nobody changed it since. False when nothing of it is left to be taken back.
 */
bool record_undo(struct record *record, int64_t call, struct deed *deed);

#endif
