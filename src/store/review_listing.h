/* The listing: a line for each item, by which the desk finds it and knows how urgent it is. It is
 * worked out from the records by whoever knows the lists of the trade; here it is kept, and kept
 * track of how far that has come. */
#ifndef LAPEL_STORE_REVIEW_LISTING_H
#define LAPEL_STORE_REVIEW_LISTING_H

#include "review.h"

enum { LISTING_LISTS_MAX = 40 };

/* How far the listing has been worked out. */
struct listing_reach {
	int64_t call, deed;	       /* all that changed up to these is in it */
	int64_t item;		       /* all items up to this one are in it */
	char lists[LISTING_LISTS_MAX]; /* the mark of the lists that it was worked out with */
};

/* A line. Texts are borrowed; NULL where nothing of the kind stands. */
struct listing {
	int64_t item;
	const char *number, *bin, *kind, *maker, *route;
	const char *state, *day; /* `day` (local time) is worked out by listing_put */
	const char *title;
	int urgency;	     /* 1 first; those above LISTING_QUEUE_LAST need no look any more */
	const char *matters; /* a JSON array: what for */
	const char *words;   /* for listing_put: what it is found by */
};

enum { LISTING_QUEUE_LAST = 8 };

bool listing_reach_read(struct review *review, struct listing_reach *reach);

/* The items that were changed by anybody since `reach`, each once, `most` at most; *to is how far
 * that reaches. The count, or -1. */
int listing_changed(struct review *review, const struct listing_reach *reach, int64_t *items,
		    int most, struct listing_reach *to);
/* Items after reach->item, in their order; *to as above. */
int listing_to_come(struct review *review, const struct listing_reach *reach, int64_t *items,
		    int most, struct listing_reach *to);
/* Up to the newest call and deed, from before the first item: where all is worked out anew. */
bool listing_from_the_start(struct review *review, const char *lists, struct listing_reach *to);
/* How many items are to come, about. */
int64_t listing_behind(struct review *review, const struct listing_reach *reach);

/* Puts the lines in, in place of those of the same items, and the reach, all at once. False when
 * somebody else has moved the reach from `from` meanwhile, or it could not be written: then nothing
 * is changed. */
bool listing_put(struct review *review, const struct listing *lines, int count,
		 const struct listing_reach *from, const struct listing_reach *to);

typedef bool listing_visitor(void *user, const struct listing *line);

/* The queue from (urgency, item) on, excluding that one; of one urgency only (0: all up to
 * LISTING_QUEUE_LAST), of one day only (NULL: all). */
struct listing_queue {
	int urgency;
	const char *day;
	int after_urgency;
	int64_t after_item;
	int most;
};
bool listing_queue(struct review *review, const struct listing_queue *queue, listing_visitor *visit,
		   void *user);
/* How many items there are of each urgency, 0 to `most`. */
bool listing_counts(struct review *review, const char *day, int64_t *counts, int most);

/* The line of one item; false when there is none. */
bool listing_line(struct review *review, int64_t item, listing_visitor *visit, void *user);

/* What is looked for: NULL or "" is anything. */
struct listing_wanted {
	const char *words; /* all of them, each as the beginning of a word */
	const char *number, *bin, *kind, *maker, *route, *state;
	const char *from, *to; /* days, inclusive */
	int64_t before;	       /* items below it; 0: all */
	int64_t after;	       /* items above it, and then in rising order; 0: falling order */
	bool rising;
	int most;
};
bool listing_search(struct review *review, const struct listing_wanted *wanted,
		    listing_visitor *visit, void *user);

/* How many items stand at each value of a column: "route" or "state". */
bool listing_tally(struct review *review, bool routes, review_tally_visitor *visit, void *user);

#endif
