/* What of an item somebody should look at, and how urgent that is. Inside desk/. */
#ifndef LAPEL_DESK_MATTER_H
#define LAPEL_DESK_MATTER_H

#include "calls.h"

/* By urgency; the listing keeps these numbers. */
enum matter_reason {
	MATTER_DOUBT = 1,   /* asked at the station and never answered: nothing was written */
	MATTER_CONFIRMED,   /* doubted, and said to be so */
	MATTER_IMPLAUSIBLE, /* stands, and hardly can be */
	MATTER_MISSING,	    /* a measure that the kind calls for */
	MATTER_NOTE,	    /* to be written out */
	MATTER_WORD,	    /* off the list, to be written out */
	MATTER_REFUSED,	    /* close to a call */
	MATTER_REST,	    /* nothing, but nobody looked it over */
	MATTER_LOOKED,	    /* nothing any more */
	MATTERS
};

const char *matter_name(enum matter_reason reason);
enum matter_reason matter_parse(const char *name); /* MATTERS when it is none */

/* All matters of the item as JSON, most urgent first, without their sound and choices; *urgency is
 * that of the first, MATTER_REST or MATTER_LOOKED when there is none. */
json_t *matters_of(struct desk *desk, const struct record *record, struct past_calls *calls,
		   enum matter_reason *urgency);
/* The matter of one call that was doubted or refused, whatever item it is of. */
json_t *matter_of_call(struct desk *desk, const struct record *record,
		       const struct past_call *call);

/* Adds what is looked up only when a page asks: whether there is sound, and (`choices`) what else
 * may have been said, of an item with this record (NULL: of none). */
void matters_complete(struct desk *desk, json_t *matters, bool choices,
		      const struct record *record);

/* The item was looked over at the desk after all that was said of it at the station. */
bool matters_looked(const struct past_calls *calls);

#endif
