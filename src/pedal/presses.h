/* Presses from a file: lines `SECONDS KEYNAME 0|1`, KEYNAME as in linux/input-event-codes.h. */
#ifndef LAPEL_PEDAL_PRESSES_H
#define LAPEL_PEDAL_PRESSES_H

#include "problem.h"

#include <stdint.h>

struct press {
	int64_t at_ms; /* half-up from the seconds as written */
	int key;       /* code, as KEY_B */
	bool down;
};

struct presses; /* opaque: in order of time */

/* Names file and line of what is wrong: a time that goes down or is negative, an unknown key name,
 * a state that is neither 0 nor 1. `#` starts a comment; blank lines do not count. */
struct presses *presses_parse(const char *file, const char *text, struct problem *problem);
void presses_destroy(struct presses *presses); /* NULL is allowed */
int presses_count(const struct presses *presses);
const struct press *presses_at(const struct presses *presses, int index);

/* The code of a key name by libevdev; -1 when there is none such. */
int presses_key(const char *name);

#endif
