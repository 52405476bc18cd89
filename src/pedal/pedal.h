/* Where presses come from: a table of functions with three drivers, a pedal (or a bar-code reader)
 * through libevdev, a file of presses, and the keys of the terminal. */
#ifndef LAPEL_PEDAL_PEDAL_H
#define LAPEL_PEDAL_PEDAL_H

#include "presses.h"
#include "problem.h"

#include <stdbool.h>
#include <stdint.h>

enum pedal_news {
	PEDAL_NONE,  /* nothing now */
	PEDAL_PRESS, /* *press: a key went down or up */
	PEDAL_GONE,  /* the device was unplugged; keys that were down have been told as up before */
	PEDAL_THERE, /* a device was found, at the beginning or again */
	PEDAL_ENDED  /* nothing will come any more */
};

struct pedal;

struct pedal_functions {
	const char *name; /* "evdev", "presses", "keyboard" */
	int (*fd)(struct pedal *pedal);
	enum pedal_news (*next)(struct pedal *pedal, struct press *press);
	void (*close)(struct pedal *pedal);
};

/* The first member of each driver's own struct. */
struct pedal {
	const struct pedal_functions *functions;
};

/* Which input device. */
enum pedal_sort { PEDAL_SORT_SWITCH, PEDAL_SORT_READER };
struct pedal_choice {
	enum pedal_sort sort;
	/* A piece of the device's name (letters' case does not count), its numbers as "1209:0001",
	 * or its file, "/dev/input/event5". NULL or "": the first device that udev marks as
	 * LAPEL_PEDAL (LAPEL_READER), or else whose name says that it is one. */
	const char *device;
	bool grab; /* its keys reach no other program */
};

/* Waits for the device to appear when it is not there, and again after it went, whatever its event
 * number is then. NULL only when udev or memory fails. Times are CLOCK_MONOTONIC in milliseconds.
 */
struct pedal *pedal_evdev_open(const struct pedal_choice *choice, struct problem *problem);

/* The device's name while it is there, otherwise ""; and why one that was found could not be opened
 * (""; no problem). Of a pedal by pedal_evdev_open only; borrowed until the next call. */
const char *pedal_evdev_device(const struct pedal *pedal);
const char *pedal_evdev_trouble(const struct pedal *pedal);

/* What else is there that has keys, as it can be named, for a sentence: `"USB Keyboard"
 * (/dev/input/event3), ...`; "" when there is nothing. Of a pedal by pedal_evdev_open only. */
enum { PEDAL_OTHERS_MAX = 400 };
void pedal_evdev_others(const struct pedal *pedal, char text[PEDAL_OTHERS_MAX]);

/* The presses of a file, which are borrowed and outlive the pedal; all of them are there at once,
 * with the times that the file gives them. */
struct pedal *pedal_presses_open(const struct presses *presses, struct problem *problem);

/* The keys of the terminal `descriptor`, which is set to give each key at once and is set back by
 * pedal_close. A terminal tells only that a key was typed: so each comes as down and up. */
struct pedal *pedal_keyboard_open(int descriptor, struct problem *problem);

/* For the terminal's keys: space, Enter and n next, r repeat, s or backspace strike, p pause. */
extern const char pedal_keyboard_mapping[];

int pedal_fd(struct pedal *pedal);				      /* to poll for input, or -1 */
enum pedal_news pedal_next(struct pedal *pedal, struct press *press); /* does not wait */
void pedal_close(struct pedal *pedal);				      /* NULL is allowed */

#endif
