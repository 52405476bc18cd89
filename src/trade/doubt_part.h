/* The grounds for doubt, each asked on its own. Inside trade/. */
#ifndef LAPEL_TRADE_DOUBT_PART_H
#define LAPEL_TRADE_DOUBT_PART_H

#include "doubt.h"

/* Whether the call is a measure with a value that can be reckoned with. */
bool doubt_measurable(const struct call *call);

/* The standing reading of a measure, NULL when there is none that can be reckoned with. */
const struct call *doubt_reading(const struct record *record, const char *measure);

/* The name of the kind that stands; empty when none does. */
const char *doubt_kind(const struct record *record);

/* The measure and the kind that a reading is held against: of a piece of a set, the piece's. */
struct doubt_point {
	char piece[CALL_NAME_MAX]; /* "" when it is of none */
	const char *measure; /* of the list, or with its side: points into the reading's name */
	const char *kind;    /* "" when it is not known */
};
struct doubt_point doubt_point(const struct doubt_view *view, const char *name);

/* The standing reading of another measure of the same garment, or piece. */
const struct call *doubt_beside(const struct doubt_view *view, const struct doubt_point *point,
				const char *measure);

/* Whom the thing is made for, as far as was said: by its group, by a tag that is a child's age or
 * height, and otherwise by the view. */
enum wearer doubt_wearer(const struct doubt_view *view);

/* DOUBT_ASK, with the reason put together from the call in full and what is said of it: "CALL
 * REST". Always true. */
bool doubt_ask(struct doubt *doubt, const struct call *call, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

/* At odds with another measure of the garment. */
bool doubt_relation(const struct doubt_view *view, const struct call *call, struct doubt *doubt);

/* A measure at odds with the tag, and a tag with the measures. */
bool doubt_measure_tag(const struct doubt_view *view, const struct call *call, struct doubt *doubt);
bool doubt_size(const struct doubt_view *view, const struct call *call, struct doubt *doubt);

#endif
