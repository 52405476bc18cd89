/* The conversation: (event, state) -> (state, effects). Pure: no device, no clock, no database. */
#ifndef LAPEL_SESSION_SESSION_H
#define LAPEL_SESSION_SESSION_H

#include "doubt.h"
#include "event.h"

enum read_back { READ_BACK_TERSE, READ_BACK_NORMAL, READ_BACK_FULL };

struct session_setting {
	enum length_unit unit;
	enum read_back read_back;
	int64_t doubt_ms; /* how long a doubt stands before it is kept for the desk: 20000 */
	int64_t note_ms;  /* how long a note may be: 60000 */
	/* What a call that was heard well is held against (doubt.h). Borrowed: outlives the
	 * session; NULL: nothing, values are taken as they come. */
	const struct ranges *ranges;
	enum wearer wearer;
	int64_t mending_hour_minor; /* what an hour of mending is worth */
	int repeats; /* so many values equal to the item before are asked about; 0: never */
};
extern const struct session_setting session_usual;

struct session; /* opaque */

/* `vocabulary` is borrowed and outlives the session. NULL when memory ran out. */
struct session *session_create(const struct vocabulary *vocabulary,
			       const struct session_setting *setting);
void session_destroy(struct session *session); /* NULL is allowed */

/* Takes one event. All effects of the event before must have been fetched (an assert says so). */
void session_feed(struct session *session, const struct event *event);

/* The next effect in the order in which they are to be done; false when there are no more. */
bool session_next_effect(struct session *session, struct effect *effect);

/* When EVENT_TIME is wanted at the latest; INT64_MAX: not at all. */
int64_t session_deadline_ms(const struct session *session);

#endif
