#include "record_undo.h"

#include "record_flips.h"

int
record_standing(const struct record *record, int64_t id)
{
	for (int i = 0; i < record->entry_count; i++)
		if (record->entries[i].id == id && record->entries[i].stands)
			return i;
	return -1;
}

bool
record_replace(struct record *record, int entry, const struct call *said, bool confirmed,
	       struct deed *deed)
{
	struct entry fresh = {.said = *said, .confirmed = confirmed};

	if (!record_has_room(record) || !record->entries[entry].stands)
		return false;
	*deed = (struct deed){.type = DEED_WROTE, .target = -1};
	deed->flips[deed->flip_count++] = (struct flip){entry, false};
	if (flips_barred(record, said, deed))
		return false;
	flips_end_occupants(record, said, deed);
	flips_add_entry(record, &fresh, deed);
	flips_do(record, deed);
	return true;
}

static int
deed_of(const struct record *record, int64_t call)
{
	for (int i = record->deed_count - 1; i >= 0; i--)
		if (record->deeds[i].call == call && !record->deeds[i].undone)
			return i;
	return -1;
}

bool
record_undo(struct record *record, int64_t call, struct deed *deed)
{
	int target = deed_of(record, call);
	if (target < 0 || record->deed_count == RECORD_DEEDS_MAX)
		return false;
	bool strikes = record->deeds[target].type == DEED_STRUCK;
	*deed = (struct deed){.type = strikes ? DEED_RESTORED : DEED_STRUCK, .target = target};
	flips_reverse(record, &record->deeds[target], false, deed);
	if (deed->flip_count == 0)
		return false;
	flips_do(record, deed);
	return true;
}
