/* The calls of an item, kept at hand. Inside desk/. */
#ifndef LAPEL_DESK_CALLS_H
#define LAPEL_DESK_CALLS_H

#include "desk_inside.h"

#include <jansson.h>

struct past_call {
	struct review_call known; /* its texts are owned by the list */
	bool has_meaning;
	struct call meaning;
};

struct past_calls {
	int count, room;
	struct past_call **rows; /* owned */
};

enum { PAST_CALLS_MAX = 500 };

/* The newest PAST_CALLS_MAX calls of the item, oldest first. False when they cannot be read; to be
 * finished in any case. */
bool past_calls_read(struct desk *desk, int64_t item, struct past_calls *calls);
/* Calls of no item that somebody should look at. */
bool past_calls_read_loose(struct desk *desk, struct past_calls *calls);
void past_calls_finish(struct past_calls *calls);

/* The call of that number; one that is not of the item (what was moved, facts that were kept) is
 * fetched and added. NULL when there is none. Borrowed from the list. */
const struct past_call *past_calls_find(struct desk *desk, struct past_calls *calls, int64_t call);

/* As the page knows it. */
json_t *past_call_json(const struct past_call *call);
/* "/sound/55" and "/note/55", or null. */
json_t *past_call_sound(const struct past_call *call);
json_t *past_call_note(const struct past_call *call);

bool past_call_by_desk(const struct past_call *call);
/* A "yes" of the desk's to no call of its own, but to the item: it was looked over. */
bool past_call_looks(const struct past_call *call);

#endif
