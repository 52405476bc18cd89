/* The user's settings: one INI file, given by --settings or in the XDG place; built-in otherwise.
 */
#ifndef LAPEL_COMMAND_SETTINGS_H
#define LAPEL_COMMAND_SETTINGS_H

#include "length.h"
#include "problem.h"
#include "takings.h"

enum { SETTING_TEXT_MAX = 1024 };

struct settings {
	enum length_unit unit;	    /* [units] length = in | cm */
	char currency[4];	    /* [price] currency = ISO 4217 code */
	int discount;		    /* [price] discount = percent, 0 to 90 */
	struct takings_terms terms; /* [price] fee = percent, fee_fixed = amount, fee_on_postage =
				       no | yes, postage = extra | included */
	int64_t mending_hour_minor; /* [mending] hour = amount */
	int repeats;		    /* [doubts] repeats = 0 to 9; 0: never */
	/* The amounts as the file has them: the currency that they are in may stand after them. */
	char fee_fixed[32], hour[32];
	char pedal_key[32];	     /* [pedal] key = KEY_B */
	int keep_days;		     /* [sound] keep_days = 0 to 3650 */
	char bins[SETTING_TEXT_MAX]; /* [lists] bins = FILE; empty: none */
	char voice[32];		     /* [voice] name = slt */
	char rate[16];		     /* [voice] rate = 0.5 to 2.0 */
	char read_back[16];	     /* [voice] read_back = terse | normal | full */
};

/* `file` NULL: $XDG_CONFIG_HOME/lapel/lapel.ini or ~/.config/lapel/lapel.ini, if there is one.
 * Names the file, the line and what is allowed where something is wrong; unknown keys are wrong. A
 * path in the file that is not absolute is taken from the file's own folder. */
bool settings_read(struct settings *settings, const char *file, struct problem *problem);

#endif
