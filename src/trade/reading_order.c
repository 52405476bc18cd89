#include "reading_order.h"

#include "set_piece.h"

#include <string.h>

/* Where in the order a measure of a kind (or -1) comes: an index into the kind's wanted ones, then
 * its helpful ones, then the list. */
static int
rank_in_kind(const struct vocabulary *vocabulary, int kind, const char *name)
{
	const struct term *term = kind < 0 ? NULL : vocabulary_term(vocabulary, LIST_KIND, kind);
	int measure = vocabulary_find(vocabulary, LIST_MEASURE, name);
	for (int i = 0; term != NULL && i < term->wanted_count; i++)
		if (term->wanted[i] == measure)
			return i;
	for (int i = 0; term != NULL && i < term->helpful_count; i++)
		if (term->helpful[i] == measure)
			return TERM_MEASURES_MAX + i;
	int listed = 2 * TERM_MEASURES_MAX;
	return listed + (measure >= 0 ? measure : vocabulary_count(vocabulary, LIST_MEASURE));
}

/* Of a set, in the order in which its pieces were said; those that were not come last. */
static int
rank_of_piece(const struct vocabulary *vocabulary, const struct record *record, int piece)
{
	const struct entry *part = record_slot(record, CALL_PART);
	int count = part == NULL ? 0 : part->said.listed_count, i = 0;
	while (i < count && strcmp(part->said.listed[i].name,
				   vocabulary_term(vocabulary, LIST_KIND, piece)->name) != 0)
		i++;
	return i < count ? i : CALL_LISTED_MAX + piece;
}

static int
rank(const struct vocabulary *vocabulary, const struct record *record, int kind, const char *name)
{
	enum { PIECE = 1 << 16 };
	const char *measure;
	int piece = piece_of(vocabulary, name, &measure);
	if (piece < 0)
		return rank_in_kind(vocabulary, kind, name);
	return PIECE * (1 + rank_of_piece(vocabulary, record, piece)) +
	       rank_in_kind(vocabulary, piece, measure);
}

int
reading_order(const struct record *record, const struct vocabulary *vocabulary,
	      const struct entry *readings[RECORD_ENTRIES_MAX])
{
	int ranks[RECORD_ENTRIES_MAX];
	const struct entry *said = record_slot(record, CALL_KIND);
	int kind = said == NULL ? -1 : vocabulary_find(vocabulary, LIST_KIND, said->said.name);
	int count = 0;

	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		if (!entry->stands || entry->said.type != CALL_MEASURE)
			continue;
		int place = rank(vocabulary, record, kind, entry->said.name);
		int at = count++;
		for (; at > 0 && ranks[at - 1] > place; at--) {
			ranks[at] = ranks[at - 1];
			readings[at] = readings[at - 1];
		}
		ranks[at] = place;
		readings[at] = entry;
	}
	return count;
}

const char *
reading_point(const struct vocabulary *vocabulary, const char *measure)
{
	static const char *const sides[] = {"left ", "right "};
	const char *point;
	piece_of(vocabulary, measure, &point);
	for (int i = 0; i < 2; i++)
		if (strncmp(point, sides[i], strlen(sides[i])) == 0)
			return point + strlen(sides[i]);
	return point;
}

bool
reading_is_flat(const struct vocabulary *vocabulary, const char *measure)
{
	int index = vocabulary_find(vocabulary, LIST_MEASURE, measure);
	if (index < 0)
		index = vocabulary_find(vocabulary, LIST_MEASURE,
					reading_point(vocabulary, measure));
	return index >= 0 && vocabulary_term(vocabulary, LIST_MEASURE, index)->flat;
}
