/* The user's settings: one INI file, given by --settings or in the XDG place; what lapel remembered
 * of a choice made on the command line where that file does not say; built-in otherwise. */
#ifndef LAPEL_COMMAND_SETTINGS_H
#define LAPEL_COMMAND_SETTINGS_H

#include "length.h"
#include "problem.h"
#include "takings.h"

#include <stddef.h>

enum { SETTING_TEXT_MAX = 1024, SETTINGS_MAX = 32 };

enum setting_origin { SETTING_BUILT_IN, SETTING_REMEMBERED, SETTING_FILE };

struct settings {
	enum length_unit unit;	    /* [units] length = in | cm */
	char currency[4];	    /* [price] currency = ISO 4217 code */
	int discount;		    /* [price] discount = percent, 0 to 90 */
	struct takings_terms terms; /* [price] fee = percent, fee_fixed = amount,
				       fee_on_postage = no | yes, postage = extra | included */
	int64_t mending_hour_minor; /* [mending] hour = amount */
	int repeats;		    /* [doubts] repeats = 0 to 9; 0: never */
	/* The amounts as the file has them: the currency that they are in may stand after them. */
	char fee_fixed[32], hour[32];
	char headset[SETTING_TEXT_MAX];	     /* [sound] headset = NAME; empty: the usual one */
	int keep_days;			     /* [sound] keep_days = 0 to 3650 */
	char pedal_key[SETTING_TEXT_MAX];    /* [pedal] key = KEY_B, or a mapping (mapping.h) */
	char pedal_device[SETTING_TEXT_MAX]; /* [pedal] device = NAME; empty: any pedal */
	char reader[SETTING_TEXT_MAX];	     /* [reader] device = NAME; empty: any reader */
	char bins[SETTING_TEXT_MAX];	     /* [lists] bins = FILE; empty: none */
	char learnt[SETTING_TEXT_MAX];	     /* [lists] learnt = FOLDER; lists/ in the XDG place */
	char voice[32];			     /* [voice] name = slt */
	double speed;			     /* [voice] speed = 0.5 to 2.0 */
	double loudness_db;		     /* [voice] loudness = -40 to 0 */
	char read_back[16];		     /* [voice] read_back = terse | normal | full */
	char person[64];		     /* [person] name = who dictates; empty: not told */
	bool pace_of_others;		     /* [pace] others = no | yes */
	struct {
		enum setting_origin from;
		int line;	     /* of its file */
	} origins[SETTINGS_MAX];     /* in the order of settings_row */
	char file[SETTING_TEXT_MAX]; /* the user's; empty: there is none */
};

/* `file` NULL: settings_place, if there is a file there. Names the file, the line and what is
 * allowed where something is wrong; unknown keys are wrong. A path in the file that is not absolute
 * is taken from the file's own folder. */
bool settings_read(struct settings *settings, const char *file, struct problem *problem);

/* $XDG_CONFIG_HOME/lapel/lapel.ini or ~/.config/lapel/lapel.ini. False without either variable. */
bool settings_place(char path[SETTING_TEXT_MAX]);

/* Keeps the headset that was named on the command line for the next time; "": the usual one again.
 * It holds where the user's file names none. */
bool settings_remember_headset(const char *name, struct problem *problem);

/* All settings there are, in the order in which they are shown. */
struct setting_row {
	const char *section, *key;
	const char *is; /* a line of explanation */
	const char *allowed;
	const char *was; /* an older name of the key that is still understood, or NULL */
	bool (*set)(struct settings *settings, const struct setting_row *row, const char *value);
	void (*print)(const struct settings *settings, const struct setting_row *row,
		      char text[SETTING_TEXT_MAX]);
	size_t text_at, text_size; /* of a text: its place in struct settings, and its room */
};
int settings_count(void);
const struct setting_row *settings_row(int index);

#endif
