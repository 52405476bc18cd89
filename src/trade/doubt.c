#include "doubt.h"

#include "doubt_part.h"
#include "phrase.h"
#include "reading_order.h"
#include "set_piece.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PHRASE_MAX = 192 };

bool
doubt_measurable(const struct call *call)
{
	/* What length_read gives at most, so that no product of two overflows. */
	enum { NUMERATOR_MAX = 1000000, DENOMINATOR_MAX = 1000 };
	return call->type == CALL_MEASURE && call->has_length && !call->none &&
	       call->name[0] != '\0' && call->length.numerator >= 0 &&
	       call->length.numerator <= NUMERATOR_MAX && call->length.denominator > 0 &&
	       call->length.denominator <= DENOMINATOR_MAX;
}

const struct call *
doubt_reading(const struct record *record, const char *measure)
{
	const struct entry *entry = record_reading(record, measure);
	return entry != NULL && doubt_measurable(&entry->said) ? &entry->said : NULL;
}

const char *
doubt_kind(const struct record *record)
{
	const struct entry *entry = record_slot(record, CALL_KIND);
	return entry != NULL ? entry->said.name : "";
}

struct doubt_point
doubt_point(const struct doubt_view *view, const char *name)
{
	struct doubt_point point = {.kind = doubt_kind(view->record)};
	int piece = piece_of(view->vocabulary, name, &point.measure);
	if (piece >= 0) {
		point.kind = vocabulary_term(view->vocabulary, LIST_KIND, piece)->name;
		snprintf(point.piece, sizeof point.piece, "%s", point.kind);
	}
	return point;
}

const struct call *
doubt_beside(const struct doubt_view *view, const struct doubt_point *point, const char *measure)
{
	char name[CALL_NAME_MAX];
	return piece_join(point->piece, measure, name, sizeof name)
		       ? doubt_reading(view->record, name)
		       : NULL;
}

enum wearer
doubt_wearer(const struct doubt_view *view)
{
	const struct entry *group = record_slot(view->record, CALL_GROUP);
	const struct entry *size = record_slot(view->record, CALL_SIZE);
	enum wearer wearer = group == NULL ? WEARER_UNSAID : wearer_parse(group->said.name);
	if (wearer == WEARER_UNSAID && size != NULL && size_is_childs(size->said.name))
		wearer = WEARER_CHILDREN;
	return wearer == WEARER_UNSAID ? view->wearer : wearer;
}

bool
doubt_ask(struct doubt *doubt, const struct call *call, const char *format, ...)
{
	va_list arguments;
	doubt->severity = DOUBT_ASK;
	phrase_call(call, PHRASE_FULL, doubt->reason, sizeof doubt->reason);
	size_t length = strlen(doubt->reason);
	va_start(arguments, format);
	vsnprintf(doubt->reason + length, sizeof doubt->reason - length, format, arguments);
	va_end(arguments);
	return true;
}

/* Where the length lies; children's wear has no soft range. */
static enum range_place
place_for(enum wearer wearer, const struct range *range, struct length length)
{
	enum range_place place = range_place(range, length);
	bool soft = place == RANGE_BELOW_SOFT || place == RANGE_ABOVE_SOFT;
	return soft && wearer == WEARER_CHILDREN ? RANGE_WITHIN : place;
}

static const char *
unit_words(enum length_unit unit)
{
	return length_unit_say((struct length){2, 1, unit});
}

/* Whether the value looks like the way all round of what is measured flat. */
static bool
looks_round(const struct doubt_view *view, const struct range *range, const struct call *call)
{
	struct length half = call->length;
	half.denominator *= 2;
	return reading_is_flat(view->vocabulary, call->name) &&
	       place_for(doubt_wearer(view), range, half) == RANGE_WITHIN;
}

static bool
doubt_range(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	struct doubt_point point = doubt_point(view, call->name);
	const struct range *range = ranges_find(view->ranges, point.measure, point.kind);
	enum wearer wearer = doubt_wearer(view);
	enum length_unit unit = call->length.unit;
	enum length_unit other = unit == LENGTH_INCH ? LENGTH_CENTIMETRE : LENGTH_INCH;

	if (range == NULL)
		return false;
	enum range_place place = place_for(wearer, range, call->length);
	if (place == RANGE_WITHIN)
		return false;
	bool hard = place == RANGE_BELOW_HARD || place == RANGE_ABOVE_HARD;
	bool above = place == RANGE_ABOVE_SOFT || place == RANGE_ABOVE_HARD;
	const char *more = above ? "more" : "less";

	doubt->second = *call;
	doubt->second.length.unit = other;
	doubt->second.unit_said = true;
	doubt->has_second = place_for(wearer, range, doubt->second.length) == RANGE_WITHIN;
	if (hard) {
		doubt_ask(doubt, call, " is %s than any %s: %s%s", more,
			  range->kind[0] != '\0' ? range->kind : "garment",
			  doubt->has_second ? unit_words(other) : "say it again",
			  doubt->has_second ? "?" : "");
		doubt->severity = DOUBT_IMPOSSIBLE;
		return true;
	}
	if (above && looks_round(view, range, call) && (call->unit_said || !doubt->has_second)) {
		doubt->has_second = false;
		return doubt_ask(doubt, call, " is more than usual: is it flat?");
	}
	if (doubt->has_second)
		return doubt_ask(doubt, call, " is %s than usual: %s or %s?", more,
				 unit_words(unit), unit_words(other));
	return doubt_ask(doubt, call, " is %s than usual: is that right?", more);
}

/* Left and right are made alike. A centimetre is what a tape laid twice may differ by (trade habit,
 * from memory). */
static bool
doubt_side(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	enum { TOLERANCE_UM = 10000 };
	static const char *const sides[] = {"left ", "right "};
	struct doubt_point point = doubt_point(view, call->name);
	char twin[CALL_NAME_MAX + 1], phrase[PHRASE_MAX];

	for (int i = 0; i < 2; i++) {
		size_t length = strlen(sides[i]);
		if (strncmp(point.measure, sides[i], length) != 0)
			continue;
		snprintf(twin, sizeof twin, "%s%s", sides[1 - i], point.measure + length);
		const struct call *reading = doubt_beside(view, &point, twin);
		if (reading == NULL ||
		    llabs(length_um(reading->length) - length_um(call->length)) <= TOLERANCE_UM)
			return false;
		phrase_call(reading, PHRASE_FULL, phrase, sizeof phrase);
		return doubt_ask(doubt, call, " differs from %s: is that right?", phrase);
	}
	return false;
}

/* Whether the item before has the same reading. */
static bool
repeats(const struct record *before, const struct call *call)
{
	const struct call *then = doubt_reading(before, call->name);
	return then != NULL && length_um(then->length) == length_um(call->length);
}

/* The garment before may have been measured once more, or its values said from memory. Once one was
 * another, or they were confirmed to be this one's too, no more is asked. */
static bool
doubt_repeat(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	int count = 1;
	if (view->before == NULL || view->repeats <= 0 || !repeats(view->before, call))
		return false;
	const char *kind = doubt_kind(view->record), *kind_before = doubt_kind(view->before);
	if (kind[0] != '\0' && kind_before[0] != '\0' && strcmp(kind, kind_before) != 0)
		return false;
	for (int i = 0; i < view->record->entry_count; i++) {
		const struct entry *entry = &view->record->entries[i];
		if (!entry->stands || !doubt_measurable(&entry->said) ||
		    strcmp(entry->said.name, call->name) == 0 ||
		    doubt_reading(view->before, entry->said.name) == NULL)
			continue;
		if (entry->confirmed || !repeats(view->before, &entry->said))
			return false;
		count++;
	}
	if (count < view->repeats)
		return false;
	return doubt_ask(doubt, call, ", %s the item before: is that right?",
			 count == 1 ? "the same as" : "again the same as");
}

/* What was measured before the kind was said has to fit it. */
static bool
doubt_kind_said(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	char phrase[PHRASE_MAX];
	for (int i = 0; i < view->record->entry_count; i++) {
		const struct entry *entry = &view->record->entries[i];
		if (!entry->stands || entry->confirmed || !doubt_measurable(&entry->said))
			continue;
		const char *rest;
		if (piece_of(view->vocabulary, entry->said.name, &rest) >= 0)
			continue; /* a piece's, whose kind stands */
		const struct range *range = ranges_find(view->ranges, entry->said.name, call->name);
		if (range == NULL || range->kind[0] == '\0' ||
		    place_for(doubt_wearer(view), range, entry->said.length) == RANGE_WITHIN)
			continue;
		phrase_call(&entry->said, PHRASE_FULL, phrase, sizeof phrase);
		return doubt_ask(doubt, call, ", with %s: is that right?", phrase);
	}
	return false;
}

static bool
doubt_measure(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	if (!doubt_measurable(call))
		return false;
	const struct entry *now = record_reading(view->record, call->name);
	if (now != NULL && now->confirmed && call_same(&now->said, call))
		return false;
	return doubt_range(view, call, doubt) || doubt_side(view, call, doubt) ||
	       doubt_relation(view, call, doubt) || doubt_measure_tag(view, call, doubt) ||
	       doubt_repeat(view, call, doubt);
}

bool
doubt_call(const struct doubt_view *view, const struct call *call, struct doubt *doubt)
{
	*doubt = (struct doubt){.severity = DOUBT_NONE};
	if (call->type == CALL_MEASURE)
		return doubt_measure(view, call, doubt);
	if (call->type == CALL_SIZE)
		return doubt_size(view, call, doubt);
	if (call->type == CALL_KIND)
		return doubt_kind_said(view, call, doubt);
	return false;
}
