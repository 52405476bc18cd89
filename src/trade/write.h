/* What the conversation asks of the store, and what it answers. The two never see each other: the
 * command between them carries these. */
#ifndef LAPEL_TRADE_WRITE_H
#define LAPEL_TRADE_WRITE_H

#include "record.h"

enum verdict { VERDICT_TAKEN, VERDICT_DOUBTED, VERDICT_REFUSED };
enum source { SOURCE_VOICE, SOURCE_PEDAL, SOURCE_DESK };

const char *verdict_name(enum verdict verdict); /* "taken", "doubted", "refused" */
const char *source_name(enum source source);	/* "voice", "pedal", "desk" */

enum { WRITE_TEXT_MAX = 512 };

enum item_change {
	ITEM_UNCHANGED,
	ITEM_OPENED,   /* this write makes the item; its record.item was 0 */
	ITEM_REOPENED, /* a done or set-aside item is worked on again */
	ITEM_CLOSED,   /* done */
	ITEM_PUT_ASIDE
};

/* One call with all that it does, stored in one transaction before it is answered. */
struct write {
	uint64_t token;	    /* the session's number of this write; the answer carries it */
	uint64_t utterance; /* the listener's number of the utterance; 0 for a pedal's call */
	int64_t item;  /* the store's number of the item that it belongs to; 0 with ITEM_OPENED,
			  or when it belongs to none ("where am I" before anything is open) */
	int64_t at_ms; /* from the session's start */
	enum source source;
	enum verdict verdict;
	double confidence; /* 0 to 1; 1 for a pedal's */
	bool has_call;	   /* false: words that made no call */
	struct call said;
	char text[WRITE_TEXT_MAX]; /* the words heard, or the gesture's name */
	const char *long_text;	   /* in its place: a note written out; or NULL. Borrowed */
	enum item_change change;
	bool has_deed;
	/* Flips index `record`'s entries; those with id 0 are new. They were said by this call,
	 * unless their entry.call is not 0: facts that hold for every item, or what was moved. */
	struct deed deed;
	int64_t settles;	     /* the doubted call that this one answers, or 0 */
	const struct record *record; /* borrowed until the write is answered */
	/* "These belong to": `item` and `deed` are those of the item that gets them; the item that
	 * they were dictated to loses them in the same transaction. Else moved_from is 0. */
	int64_t moved_from;
	enum item_change from_change;
	struct deed from_deed;		  /* DEED_MOVED: only flips, no new entries */
	const struct record *from_record; /* borrowed until the write is answered */
};

struct written {
	uint64_t token;
	bool stored;
	int64_t call; /* the store's numbers */
	int64_t item;
	int64_t first_entry; /* 0 when no entry was added; new ones count up in record's order */
	char why_not[200];   /* when not stored: in words that can be said aloud */
};

#endif
