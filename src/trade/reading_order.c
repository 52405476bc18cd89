#include "reading_order.h"

#include <string.h>

/* Where in the order a measure comes: an index into the kind's wanted ones, then its helpful ones,
 * then the list. */
static int
rank(const struct vocabulary *vocabulary, const struct term *kind, const char *name)
{
	int measure = vocabulary_find(vocabulary, LIST_MEASURE, name);
	for (int i = 0; kind != NULL && i < kind->wanted_count; i++)
		if (kind->wanted[i] == measure)
			return i;
	for (int i = 0; kind != NULL && i < kind->helpful_count; i++)
		if (kind->helpful[i] == measure)
			return TERM_MEASURES_MAX + i;
	int listed = 2 * TERM_MEASURES_MAX;
	return listed + (measure >= 0 ? measure : vocabulary_count(vocabulary, LIST_MEASURE));
}

int
reading_order(const struct record *record, const struct vocabulary *vocabulary,
	      const struct entry *readings[RECORD_ENTRIES_MAX])
{
	int ranks[RECORD_ENTRIES_MAX];
	const struct entry *said = record_slot(record, CALL_KIND);
	int kind = said == NULL ? -1 : vocabulary_find(vocabulary, LIST_KIND, said->said.name);
	const struct term *term = kind < 0 ? NULL : vocabulary_term(vocabulary, LIST_KIND, kind);
	int count = 0;

	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		if (!entry->stands || entry->said.type != CALL_MEASURE)
			continue;
		int place = rank(vocabulary, term, entry->said.name);
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
reading_point(const char *measure)
{
	static const char *const sides[] = {"left ", "right "};
	for (int i = 0; i < 2; i++)
		if (strncmp(measure, sides[i], strlen(sides[i])) == 0)
			return measure + strlen(sides[i]);
	return measure;
}

bool
reading_is_flat(const struct vocabulary *vocabulary, const char *measure)
{
	int index = vocabulary_find(vocabulary, LIST_MEASURE, measure);
	if (index < 0)
		index = vocabulary_find(vocabulary, LIST_MEASURE, reading_point(measure));
	return index >= 0 && vocabulary_term(vocabulary, LIST_MEASURE, index)->flat;
}
