/* Doubts by the tag: the size that a garment is marked with against what the tape says. */
#include "doubt_part.h"
#include "phrase.h"

#include <string.h>

/* The measures that a tag says something of. */
static const char *const TAGGED[] = {"chest", "waist", "inseam"};

/* Whether the tag's size does not go with this measure. */
static bool
at_odds(const struct doubt_view *view, const char *size, const struct call *measure)
{
	struct span span;
	struct doubt_point point = doubt_point(view, measure->name);
	int waist_in, inseam_in;

	if (strcmp(point.measure, "chest") == 0)
		return size_chest(size, doubt_wearer(view), point.kind, &span) &&
		       (range_compare(measure->length, span.low_um) < 0 ||
			range_compare(measure->length, span.high_um) >= 0);
	if (!size_pair(size, &waist_in, &inseam_in))
		return false;
	if (strcmp(point.measure, "waist") == 0)
		span = size_waist(waist_in);
	else if (strcmp(point.measure, "inseam") == 0)
		span = size_inseam(inseam_in);
	else
		return false;
	return range_compare(measure->length, span.low_um) < 0 ||
	       range_compare(measure->length, span.high_um) > 0;
}

bool
doubt_measure_tag(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	char size[192];
	const struct entry *tag = record_slot(view->record, CALL_SIZE);
	if (tag == NULL || !at_odds(view, tag->said.name, call))
		return false;
	phrase_call(&tag->said, PHRASE_VALUE, size, sizeof size);
	return doubt_ask(doubt, call, ", and the tag says %s: is that right?", size);
}

bool
doubt_size(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	char phrase[192];
	for (size_t i = 0; i < sizeof TAGGED / sizeof TAGGED[0]; i++) {
		const struct call *reading = doubt_reading(view->record, TAGGED[i]);
		if (reading == NULL || !at_odds(view, call->name, reading))
			continue;
		phrase_call(reading, PHRASE_FULL, phrase, sizeof phrase);
		return doubt_ask(doubt, call, ", with %s: is that right?", phrase);
	}
	return false;
}
