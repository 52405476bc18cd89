/* A call as a JSON object with the fields of the contract (design, section 6), and back. */
#ifndef LAPEL_TRADE_CALL_JSON_H
#define LAPEL_TRADE_CALL_JSON_H

#include "call.h"

#include <jansson.h>

/* A new object with `type` and the type's fields (for measure: measure, value, unit, um, or
 * measure and none true; for keep: `what`, a call or null; and so on). The caller owns it. */
json_t *call_to_json(const struct call *call);

/* The reverse; false when the object is no call. `json` is borrowed for the call. */
bool call_from_json(const json_t *json, struct call *call);

#endif
