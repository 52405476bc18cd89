/* How the work went, by day: read from the records, never written. */
#ifndef LAPEL_STORE_PACE_H
#define LAPEL_STORE_PACE_H

#include "problem.h"

#include <stdint.h>

enum {
	PACE_PAUSE_MS = 300000
}; /* a longer silence between two calls is a break, and counts so long */

struct pace_day {
	char day[11];		  /* "2026-03-14", local time */
	int64_t items;		  /* closed that day: done or set aside */
	int64_t calls;		  /* by voice and pedal */
	int64_t doubted, refused; /* of these */
	int64_t struck;		  /* how often something was taken back */
	int64_t worked_ms;	  /* between the calls of a session, breaks cut to PACE_PAUSE_MS */
};

/* The days on which something was said, the earliest first; the caller frees *days. `who`: the
 * calls of that person only; NULL: of all together. False when the database cannot be read. */
bool pace_read(const char *path, const char *who, struct pace_day **days, int *count,
	       struct problem *problem);

#endif
