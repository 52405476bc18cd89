/* What is told to the pages that are open, as it happens: server-sent events. Inside desk/. */
#ifndef LAPEL_DESK_EVENTS_H
#define LAPEL_DESK_EVENTS_H

#include <stdbool.h>
#include <stdint.h>

enum { EVENTS_READERS_MAX = 32, EVENTS_TEXT_MAX = 8192 };

struct events_reader; /* one open page */

struct events {
	struct events_reader *readers; /* a list */
	int count;
	int64_t last_ms; /* when something was told last */
};

/* Tells all readers that these items were changed; `more` that others were, too many to name. */
void events_tell_changed(struct events *events, const int64_t *items, int count, bool more);
/* Says something that means nothing when it was silent for long, so that both ends notice when the
 * other is gone. */
void events_keep_up(struct events *events, int64_t now_ms);
/* Lets all readers go; before the door is closed. */
void events_end(struct events *events);

#endif
