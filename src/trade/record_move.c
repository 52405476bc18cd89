/* Moving what was dictated to the wrong item to the item that was really in hand. */
#include "record_flips.h"

#include <string.h>

bool
record_move_out(struct record *record, int since, struct deed *deed)
{
	bool stood[RECORD_ENTRIES_MAX];
	if (record->deed_count == RECORD_DEEDS_MAX)
		return false;
	for (int i = 0; i < record->entry_count; i++)
		stood[i] = record->entries[i].stands;
	for (int i = record->deed_count - 1; i >= since; i--)
		for (int f = record->deeds[i].flip_count - 1; f >= 0; f--)
			stood[record->deeds[i].flips[f].entry] = !record->deeds[i].flips[f].stands;

	for (int i = since; i < record->deed_count; i++) /* what holds for every item stays */
		for (int f = 0; f < record->deeds[i].flip_count; f++) {
			int entry = record->deeds[i].flips[f].entry;
			if (record->deeds[i].flips[f].stands &&
			    !flips_own(record, &record->deeds[i], entry))
				stood[entry] = record->entries[entry].stands;
		}

	*deed = (struct deed){.type = DEED_MOVED, .target = -1};
	bool moves = false;
	for (int ending = 1; ending >= 0; ending--) { /* first what ends, then what comes back */
		for (int i = 0; i < record->entry_count; i++) {
			bool stands = record->entries[i].stands;
			if (stood[i] == stands || stands != (bool)ending ||
			    record->entries[i].said.type == CALL_ITEM)
				continue;
			if (deed->flip_count == DEED_FLIPS_MAX)
				return false;
			deed->flips[deed->flip_count++] = (struct flip){i, !stands};
			moves |= stands;
		}
	}
	if (!moves)
		return false;
	flips_do(record, deed);
	return true;
}

bool
record_move_in(struct record *record, const struct record *from, const struct deed *out,
	       struct deed *deed)
{
	if (record->deed_count == RECORD_DEEDS_MAX)
		return false;
	int entry_count = record->entry_count;
	*deed = (struct deed){.type = DEED_WROTE, .target = -1};
	for (int f = 0; f < out->flip_count; f++) {
		const struct entry *moved = &from->entries[out->flips[f].entry];
		if (out->flips[f].stands || flips_barred(record, &moved->said, deed))
			continue;
		int flips_before = deed->flip_count;
		flips_end_occupants(record, &moved->said, deed);
		/* One more must fit: the new entry's own flip. A full list may have cut the others.
		 */
		if (record->entry_count == RECORD_ENTRIES_MAX ||
		    deed->flip_count >= DEED_FLIPS_MAX - 1) {
			deed->flip_count = flips_before;
			record->entry_count = entry_count;
			return false;
		}
		flips_add_entry(record, moved, deed);
	}
	if (deed->flip_count == 0)
		return false;
	flips_do(record, deed);
	return true;
}
