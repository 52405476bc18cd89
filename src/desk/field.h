/* The fields of an item as the page names them. Inside desk/. */
#ifndef LAPEL_DESK_FIELD_H
#define LAPEL_DESK_FIELD_H

#include "calls.h"

enum { FIELD_NAME_MAX = CALL_NAME_MAX + 16 };

/* Whether the call, written, fills a field or adds a flaw; not orders, answers, notes, bare values.
 */
bool field_writes(const struct call *call);

/* "number", "measure:chest", "flaw:123" (of the entry; 0: "flaw:new"), "colour change". Empty for
 * what has no field. */
void field_name(const struct call *call, int64_t entry, char name[FIELD_NAME_MAX]);

/* A field's name, taken apart. */
struct field_place {
	enum call_type type;
	char measure[CALL_NAME_MAX];
	int64_t flaw; /* the entry; 0: a new one */
};
bool field_parse(const char *name, struct field_place *place);

/* The standing entry of the field; NULL when it is empty. */
const struct entry *field_entry(const struct record *record, const struct field_place *place);

/* One field as the page knows it. */
json_t *field_json(struct desk *desk, const struct record *record, struct past_calls *calls,
		   const struct field_place *place);

/* All fields of the record, in the order in which they are read. */
json_t *fields_json(struct desk *desk, const struct record *record, struct past_calls *calls);

#endif
