/* Which of the input devices is meant. Pure. */
#ifndef LAPEL_PEDAL_INPUT_DEVICE_H
#define LAPEL_PEDAL_INPUT_DEVICE_H

#include "pedal.h"

/* What udev knows of it; any of the texts may be NULL. */
struct input_device {
	const char *file;	      /* "/dev/input/event5" */
	const char *name;	      /* "Foot Pedal" */
	const char *vendor, *product; /* "1209", "0001" */
	bool has_keys;
	bool marked; /* by our udev rule, for what is wanted */
};

/* How well it fits: 0 not at all, more is better. A device that was chosen fits or not; otherwise
 * one that is marked fits better than one whose name says what it is. What is not an event file or
 * has no keys never fits. */
int input_device_fit(const struct input_device *device, const struct pedal_choice *choice);

#endif
