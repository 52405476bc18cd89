#include "record_flips.h"

#include <string.h>

bool
flips_same_slot(const struct call *one, const struct call *other)
{
	if (one->type != other->type || one->type == CALL_NOTE)
		return false;
	if (one->type == CALL_MEASURE)
		return strcmp(one->name, other->name) == 0;
	if (one->type == CALL_FLAW)
		return one->none || other->none;
	return true;
}

/* Whether the entry stands once the flips collected so far are done. */
static bool
will_stand(const struct record *record, const struct deed *deed, int entry)
{
	for (int f = deed->flip_count - 1; f >= 0; f--)
		if (deed->flips[f].entry == entry)
			return deed->flips[f].stands;
	return record->entries[entry].stands;
}

static void
add(struct deed *deed, int entry, bool stands)
{
	if (deed->flip_count < DEED_FLIPS_MAX)
		deed->flips[deed->flip_count++] = (struct flip){entry, stands};
}

bool
flips_barred(const struct record *record, const struct call *said, const struct deed *deed)
{
	if (said->type != CALL_FLAW || !said->none)
		return false;
	for (int i = 0; i < record->entry_count; i++) {
		const struct call *other = &record->entries[i].said;
		if (other->type == CALL_FLAW && !other->none && will_stand(record, deed, i))
			return true;
	}
	return false;
}

void
flips_end_occupants(const struct record *record, const struct call *said, struct deed *deed)
{
	for (int i = 0; i < record->entry_count; i++)
		if (will_stand(record, deed, i) && flips_same_slot(&record->entries[i].said, said))
			add(deed, i, false);
}

void
flips_add_entry(struct record *record, const struct entry *entry, struct deed *deed)
{
	record->entries[record->entry_count] = *entry;
	record->entries[record->entry_count].id = 0;
	record->entries[record->entry_count].stands = false;
	add(deed, record->entry_count++, true);
}

static bool
slot_free(const struct record *record, const struct call *said, const struct deed *deed)
{
	for (int i = 0; i < record->entry_count; i++)
		if (will_stand(record, deed, i) && flips_same_slot(&record->entries[i].said, said))
			return false;
	return true;
}

bool
flips_own(const struct record *record, const struct deed *deed, int entry)
{
	if (record->entries[entry].call == deed->call)
		return true;
	for (int f = 0; f < deed->flip_count; f++)
		if (deed->flips[f].stands && deed->flips[f].entry < entry &&
		    record->entries[deed->flips[f].entry].call == deed->call)
			return false;
	return true;
}

void
flips_reverse(const struct record *record, const struct deed *target, bool force, struct deed *deed)
{
	for (int f = 0; f < target->flip_count; f++) {
		struct flip flip = target->flips[f];
		if (flip.stands && will_stand(record, deed, flip.entry) &&
		    flips_own(record, target, flip.entry))
			add(deed, flip.entry, false);
	}
	for (int f = 0; f < target->flip_count; f++) {
		struct flip flip = target->flips[f];
		const struct call *said = &record->entries[flip.entry].said;
		if (flip.stands || will_stand(record, deed, flip.entry) ||
		    flips_barred(record, said, deed))
			continue;
		if (force)
			flips_end_occupants(record, said, deed);
		if (slot_free(record, said, deed))
			add(deed, flip.entry, true);
	}
}

void
flips_mark_undone(struct record *record, const struct deed *deed, bool done)
{
	if (deed->target < 0 || (deed->type != DEED_STRUCK && deed->type != DEED_RESTORED))
		return;
	struct deed *target = &record->deeds[deed->target];
	target->undone = done;
	if (deed->type == DEED_RESTORED && target->target >= 0)
		record->deeds[target->target].undone = !done;
}

void
flips_do(struct record *record, const struct deed *deed)
{
	for (int f = 0; f < deed->flip_count; f++)
		record->entries[deed->flips[f].entry].stands = deed->flips[f].stands;
	flips_mark_undone(record, deed, true);
	record->deeds[record->deed_count++] = *deed;
}
