#include "record.h"

#include "record_flips.h"
#include "record_undo.h"
#include "set_piece.h"

#include <stdio.h>
#include <string.h>

void
record_init(struct record *record)
{
	record->item = 0;
	record->state = ITEM_OPEN;
	record->entry_count = 0;
	record->deed_count = 0;
}

void
record_copy(struct record *copy, const struct record *record)
{
	copy->item = record->item;
	copy->state = record->state;
	copy->entry_count = record->entry_count;
	copy->deed_count = record->deed_count;
	memcpy(copy->entries, record->entries,
	       sizeof(record->entries[0]) * (size_t)record->entry_count);
	memcpy(copy->deeds, record->deeds, sizeof(record->deeds[0]) * (size_t)record->deed_count);
}

bool
record_has_room(const struct record *record)
{
	return record->entry_count < RECORD_ENTRIES_MAX && record->deed_count < RECORD_DEEDS_MAX;
}

/* What a call that writes nothing by itself ("next", a bare value) is not. */
static bool
writes(const struct call *said)
{
	switch (said->type) {
	case CALL_MEASURE:
		return said->name[0] != '\0';
	case CALL_KIND:
	case CALL_FLAW:
	case CALL_ITEM:
	case CALL_BIN:
	case CALL_MAKER:
	case CALL_SIZE:
	case CALL_COLOUR:
	case CALL_CLOTH:
	case CALL_PILLING:
	case CALL_COLOUR_CHANGE:
	case CALL_WEIGHT:
	case CALL_COST:
	case CALL_PRICE:
	case CALL_PARCEL:
	case CALL_ROUTE:
	case CALL_GROUP:
	case CALL_CARE:
	case CALL_MENDING:
	case CALL_PART:
	case CALL_NOTE:
		return true;
	case CALL_KEEP:
	case CALL_ORDER:
	case CALL_ANSWER:
	case CALL_TYPES:
		return false;
	}
	return false;
}

static bool
write_over(struct record *record, const struct deed *withdrawn, const struct call *said,
	   bool confirmed, struct deed *deed)
{
	struct entry entry = {.said = *said, .confirmed = confirmed};
	if (!writes(said) || !record_has_room(record))
		return false;
	*deed = (struct deed){.type = DEED_WROTE, .target = -1};
	if (withdrawn)
		flips_reverse(record, withdrawn, false, deed);
	if (flips_barred(record, said, deed))
		return false;
	flips_end_occupants(record, said, deed);
	flips_add_entry(record, &entry, deed);
	flips_do(record, deed);
	return true;
}

bool
record_write(struct record *record, const struct call *said, bool confirmed, struct deed *deed)
{
	return write_over(record, NULL, said, confirmed, deed);
}

bool
record_correct(struct record *record, const struct call *said, bool confirmed, struct deed *deed)
{
	const struct deed *last =
		record->deed_count ? &record->deeds[record->deed_count - 1] : NULL;
	const struct entry *before = last ? record_began(record, last) : NULL;
	if (!before || last->type != DEED_WROTE || last->undone || !before->stands ||
	    (said->type != CALL_FLAW && flips_same_slot(&before->said, said)))
		last = NULL;
	return write_over(record, last, said, confirmed, deed);
}

bool
record_keep(struct record *record, const struct call *fact, int64_t call, struct deed *deed)
{
	struct deed *last = &record->deeds[record->deed_count - 1];
	struct entry entry = {.said = *fact, .call = call};
	if (record->entry_count == RECORD_ENTRIES_MAX || last->flip_count == DEED_FLIPS_MAX ||
	    record_slot(record, fact->type))
		return false;
	flips_add_entry(record, &entry, last);
	record->entries[record->entry_count - 1].stands = true;
	*deed = *last;
	return true;
}

/* The last deed that made entries stand of which one stands still, at or before index `from`. */
static int
last_standing_deed(const struct record *record, int from)
{
	for (int i = from; i >= 0; i--) {
		const struct deed *deed = &record->deeds[i];
		if (deed->undone || (deed->type != DEED_WROTE && deed->type != DEED_RESTORED))
			continue;
		for (int f = 0; f < deed->flip_count; f++)
			if (deed->flips[f].stands && record->entries[deed->flips[f].entry].stands &&
			    flips_own(record, deed, deed->flips[f].entry))
				return i;
	}
	return -1;
}

bool
record_strike_last(struct record *record, struct deed *deed)
{
	int target = last_standing_deed(record, record->deed_count - 1);
	if (target < 0 || record->deed_count == RECORD_DEEDS_MAX)
		return false;
	*deed = (struct deed){.type = DEED_STRUCK, .target = target};
	flips_reverse(record, &record->deeds[target], false, deed);
	flips_do(record, deed);
	return true;
}

bool
record_strike_entry(struct record *record, int entry, struct deed *deed)
{
	if (record->deed_count == RECORD_DEEDS_MAX || !record->entries[entry].stands)
		return false;
	*deed = (struct deed){.type = DEED_STRUCK, .target = -1};
	for (int i = record->deed_count - 1; i >= 0; i--) {
		const struct deed *cause = &record->deeds[i];
		bool began = false;
		int began_count = 0;
		if (cause->undone || (cause->type != DEED_WROTE && cause->type != DEED_RESTORED))
			continue;
		for (int f = 0; f < cause->flip_count; f++) {
			if (!cause->flips[f].stands)
				continue;
			began_count += flips_own(record, cause, cause->flips[f].entry);
			began |= cause->flips[f].entry == entry;
		}
		if (!began)
			continue;
		if (began_count == 1 && flips_own(record, cause, entry)) {
			deed->target = i;
			flips_reverse(record, cause, false, deed);
		}
		break;
	}
	if (deed->target < 0)
		deed->flips[deed->flip_count++] = (struct flip){entry, false};
	flips_do(record, deed);
	return true;
}

bool
record_strike_measure(struct record *record, const char *measure, struct deed *deed)
{
	const struct entry *entry = record_reading(record, measure);
	return entry && record_strike_entry(record, (int)(entry - record->entries), deed);
}

static bool
flaw_fits(const struct call *flaw, const struct call *which)
{
	return flaw->type == CALL_FLAW &&
	       (which->flaw[0] == '\0' || strcmp(which->flaw, flaw->name) == 0) &&
	       (which->part[0] == '\0' || strcmp(which->part, flaw->part) == 0) &&
	       (which->side == SIDE_UNSAID || which->side == flaw->side) &&
	       (which->face == FACE_UNSAID || which->face == flaw->face);
}

bool
record_strike_flaw(struct record *record, const struct call *which, struct deed *deed)
{
	for (int i = record->entry_count - 1; i >= 0; i--)
		if (record->entries[i].stands && flaw_fits(&record->entries[i].said, which))
			return record_strike_entry(record, i, deed);
	return false;
}

bool
record_restore(struct record *record, struct deed *deed)
{
	if (record->deed_count == RECORD_DEEDS_MAX)
		return false;
	for (int i = record->deed_count - 1; i >= 0; i--) {
		if (record->deeds[i].type != DEED_STRUCK || record->deeds[i].undone)
			continue;
		*deed = (struct deed){.type = DEED_RESTORED, .target = i};
		flips_reverse(record, &record->deeds[i], true, deed);
		if (deed->flip_count == 0)
			continue;
		flips_do(record, deed);
		return true;
	}
	return false;
}

void
record_stored(struct record *record, int64_t call, int64_t first_entry)
{
	int deed = record->deed_count, entry = record->entry_count;
	while (deed > 0 && record->deeds[deed - 1].call == 0)
		record->deeds[--deed].call = call;
	while (entry > 0 && record->entries[entry - 1].id == 0)
		entry--;
	for (; entry < record->entry_count; entry++) {
		record->entries[entry].id = first_entry++;
		if (record->entries[entry].call == 0)
			record->entries[entry].call = call;
	}
}

void
record_unstored(struct record *record)
{
	const struct deed *deed = &record->deeds[record->deed_count - 1];
	for (int f = deed->flip_count - 1; f >= 0; f--)
		record->entries[deed->flips[f].entry].stands = !deed->flips[f].stands;
	flips_mark_undone(record, deed, false);
	while (record->entry_count > 0 && record->entries[record->entry_count - 1].id == 0)
		record->entry_count--;
	record->deed_count--;
}

bool
record_load_entry(struct record *record, const struct entry *entry)
{
	if (record->entry_count == RECORD_ENTRIES_MAX)
		return false;
	record->entries[record->entry_count] = *entry;
	record->entries[record->entry_count++].stands = false;
	return true;
}

bool
record_load_deed(struct record *record, const struct deed *deed)
{
	if (record->deed_count == RECORD_DEEDS_MAX || deed->flip_count < 0 ||
	    deed->flip_count > DEED_FLIPS_MAX || deed->target < -1 ||
	    deed->target >= record->deed_count)
		return false;
	for (int f = 0; f < deed->flip_count; f++)
		if (deed->flips[f].entry < 0 || deed->flips[f].entry >= record->entry_count)
			return false;
	struct deed fresh = *deed;
	fresh.undone = false;
	flips_do(record, &fresh);
	return true;
}

const struct entry *
record_slot(const struct record *record, enum call_type type)
{
	for (int i = 0; i < record->entry_count; i++)
		if (record->entries[i].stands && record->entries[i].said.type == type)
			return &record->entries[i];
	return NULL;
}

const struct entry *
record_reading(const struct record *record, const char *measure)
{
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		if (entry->stands && entry->said.type == CALL_MEASURE &&
		    strcmp(entry->said.name, measure) == 0)
			return entry;
	}
	return NULL;
}

int
record_flaw_count(const struct record *record)
{
	int count = 0;
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		count += entry->stands && entry->said.type == CALL_FLAW && !entry->said.none;
	}
	return count;
}

bool
record_empty(const struct record *record)
{
	for (int i = 0; i < record->entry_count; i++)
		if (record->entries[i].stands)
			return false;
	return true;
}

const char *
record_piece(const struct record *record)
{
	const struct entry *part = record_slot(record, CALL_PART);
	return part == NULL || part->said.other ? "" : part->said.name;
}

void
record_add_piece(const struct record *record, struct call *part)
{
	const struct entry *before = record_slot(record, CALL_PART);
	int count = 0;
	for (int i = 0; before != NULL && i < before->said.listed_count; i++)
		if (strcmp(before->said.listed[i].name, part->name) != 0 &&
		    count < CALL_LISTED_MAX - 1)
			part->listed[count++] = before->said.listed[i];
	snprintf(part->listed[count].name, sizeof part->listed[count].name, "%s", part->name);
	part->listed_count = count + 1;
}

bool
record_measured(const struct record *record, const char *piece, const char *measure)
{
	static const char *const sides[] = {"", "left", "right"};
	char name[CALL_NAME_MAX];
	for (size_t i = 0; i < sizeof sides / sizeof *sides; i++)
		if (piece_join(sides[i], measure, name, sizeof name) &&
		    piece_join(piece, name, name, sizeof name) && record_reading(record, name))
			return true;
	return false;
}

/* Adds what is missing of a kind to the `count` measures that are there. */
static int
add_missing(const struct record *record, const struct vocabulary *vocabulary, const char *kind_name,
	    const char *piece, int count, int missing[TERM_MEASURES_MAX])
{
	int kind = vocabulary_find(vocabulary, LIST_KIND, kind_name);
	if (kind < 0)
		return count;
	const struct term *term = vocabulary_term(vocabulary, LIST_KIND, kind);
	for (int i = 0; i < term->wanted_count && count < TERM_MEASURES_MAX; i++) {
		int measure = term->wanted[i];
		const char *name = vocabulary_term(vocabulary, LIST_MEASURE, measure)->name;
		if (!record_measured(record, piece, name))
			missing[count++] = measure;
	}
	return count;
}

int
record_missing_of(const struct record *record, const struct vocabulary *vocabulary,
		  const char *piece, int missing[TERM_MEASURES_MAX])
{
	return add_missing(record, vocabulary, piece, piece, 0, missing);
}

int
record_missing(const struct record *record, const struct vocabulary *vocabulary,
	       int missing[TERM_MEASURES_MAX])
{
	const struct entry *kind = record_slot(record, CALL_KIND);
	const struct entry *part = record_slot(record, CALL_PART);
	int count = 0;
	if (kind == NULL)
		return 0;
	if (!kind_is_set(vocabulary, vocabulary_find(vocabulary, LIST_KIND, kind->said.name)))
		return add_missing(record, vocabulary, kind->said.name, "", 0, missing);
	for (int i = 0; part != NULL && i < part->said.listed_count; i++) {
		const char *piece = part->said.listed[i].name;
		count = add_missing(record, vocabulary, piece, piece, count, missing);
	}
	return count;
}

static const struct entry *
flipped(const struct record *record, const struct deed *deed, bool stands)
{
	for (int f = 0; f < deed->flip_count; f++)
		if (deed->flips[f].stands == stands)
			return &record->entries[deed->flips[f].entry];
	return NULL;
}

const struct entry *
record_began(const struct record *record, const struct deed *deed)
{
	return flipped(record, deed, true);
}

const struct entry *
record_ended(const struct record *record, const struct deed *deed)
{
	return flipped(record, deed, false);
}
