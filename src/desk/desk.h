/* The desk: a server of pages for the person who goes through what was dictated. It has one thread,
 * the caller's, and never blocks longer than one answer takes; what is long (an export, a listing
 * of old records that is worked out) is done a piece at a time between the others' answers. */
#ifndef LAPEL_DESK_DESK_H
#define LAPEL_DESK_DESK_H

#include "csv_record.h"
#include "problem.h"
#include "ranges.h"
#include "sketch.h"
#include "vocabulary.h"
#include "writeup.h"

struct desk; /* opaque */

/* All of it is borrowed until desk_close. */
struct desk_setting {
	const char *db;		/* the records */
	const char *address;	/* where to listen, as figures: "127.0.0.1" */
	int port;		/* 0: a free one */
	const char *key;	/* the secret; NULL: a new one */
	const char *learnt;	/* the folder of the user's own lists, for words that are learnt */
	const char *lists_mark; /* another one whenever the lists are others; "" does */
	struct vocabulary *vocabulary; /* learns */
	const struct ranges *ranges;
	const struct writeup_form *writeup_form;
	const struct sketch_book *sketches;
	const struct csv_record_setting *rows;
};

/* Opens the records, and the door. NULL with a problem. */
struct desk *desk_open(const struct desk_setting *setting, struct problem *problem);
void desk_close(struct desk *desk); /* NULL is allowed */

/* "http://127.0.0.1:40123/?key=...": whoever has it may read and write. */
const char *desk_address(const struct desk *desk);

/* To be waited on for reading, at most so many milliseconds; then desk_turn. */
int desk_fd(const struct desk *desk);
int desk_wait_ms(const struct desk *desk);
void desk_turn(struct desk *desk);

#endif
