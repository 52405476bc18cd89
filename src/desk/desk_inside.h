/* The inside of desk.h: what its files share. */
#ifndef LAPEL_DESK_DESK_INSIDE_H
#define LAPEL_DESK_DESK_INSIDE_H

#include "desk.h"
#include "events.h"
#include "review_listing.h"
#include "store.h"
#include "typed.h"

#include <microhttpd.h>

enum { DESK_KEY_MAX = 80, DESK_ADDRESS_MAX = 160 };

struct desk {
	struct desk_setting setting;
	struct typed_setting typed;
	struct MHD_Daemon *daemon;
	struct store *store;   /* the journal: what the desk writes down */
	struct review *review; /* all else */
	char key[DESK_KEY_MAX];
	char cookie[32]; /* its name */
	char address[DESK_ADDRESS_MAX];
	int port;
	int64_t session_began_ms; /* 0: nothing was written yet */
	struct listing_reach reach;
	int64_t version;   /* of the records that were followed last */
	bool follow_more;  /* there was more than one turn's worth */
	bool follow_again; /* it could not be written: later */
	int64_t looked_ms; /* when it was looked last whether anybody wrote */
	struct events events;
	struct writeup writeup; /* used again for each item */
	/* Records are large: one for the item at hand, one to try things on. */
	struct record record, other;
};

int64_t desk_now_ms(void);	 /* Unix time */
int64_t desk_monotonic_ms(void); /* for measuring */

/* The asking price of the record under the standing discount; NULL when there is none. */
const struct money *desk_asking(const struct desk *desk, const struct record *record,
				struct money *asking);

#endif
