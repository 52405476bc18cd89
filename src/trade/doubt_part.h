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
