/* An utterance as the JSON object of the contract (design, section 6). */
#ifndef LAPEL_COMMAND_HEARD_JSON_H
#define LAPEL_COMMAND_HEARD_JSON_H

#include "ears.h"

#include <jansson.h>

/* A new object that the caller owns. `own_grammar`: without calls, which a caller's grammar has
 * none of. */
json_t *heard_json(const char *file, const struct ears_utterance *utterance, bool own_grammar);

/* The other readings: a new array of objects with text and confidence. */
json_t *heard_json_alternatives(const struct ears_utterance *utterance);

#endif
