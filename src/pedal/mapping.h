/* What each switch of a pedal does, and the switches at work. Pure: time is an argument.
 *
 * A mapping is text, words parted by blanks:
 *
 *   KEY_B                                one switch: tap, double tap, hold and long hold are told
 *                                        apart and do what they usually do
 *   KEY_A:strike KEY_B:next KEY_C:repeat three switches: each does one thing, when it is pressed
 *   KEY_B.tap:repeat KEY_B.double:next   one switch whose gestures do other things than usual;
 *                                        those that are not named do what they usually do
 *
 * A key is named as in linux/input-event-codes.h; what can be done is next, repeat, strike, pause
 * and nothing. A key that stands alone is told apart by gestures, one with a colon is not. */
#ifndef LAPEL_PEDAL_MAPPING_H
#define LAPEL_PEDAL_MAPPING_H

#include "gesture.h"
#include "problem.h"

enum { MAPPING_SWITCHES_MAX = 8, MAPPING_GESTURES = 4, MAPPING_TEXT_MAX = 512 };

/* In the order of gesture_step from STEP_TAP on: what a tap, a double tap, ... usually does. */
enum mapping_action { ACTION_NEXT, ACTION_REPEAT, ACTION_STRIKE, ACTION_PAUSE, ACTION_NOTHING };

struct mapping_switch {
	int key;       /* code, as KEY_B */
	bool at_press; /* does `actions[0]` when pressed; no gestures */
	enum mapping_action actions[MAPPING_GESTURES]; /* of tap, double tap, hold, long hold */
};

struct mapping {
	struct mapping_switch switches[MAPPING_SWITCHES_MAX];
	int count;
};

/* Says what is wrong: an unknown key, gesture or action, a key that stands twice, none at all, more
 * than eight. *mapping is only written on success. */
bool mapping_parse(const char *text, struct mapping *mapping, struct problem *problem);

/* The text of a mapping, which mapping_parse would read back. */
void mapping_text(const struct mapping *mapping, char text[MAPPING_TEXT_MAX]);

/* Switches at work. The fields are this file's own. */
struct switches {
	struct mapping mapping;
	struct gesture_setting setting;
	struct {
		struct gesture_state gesture;
		bool down;
		int64_t down_ms; /* of a switch that acts at the press: for its bounces */
	} states[MAPPING_SWITCHES_MAX];
};

void switches_init(struct switches *switches, const struct mapping *mapping,
		   const struct gesture_setting *setting);

/* A change of a key at `at_ms`: as gesture_change, with the actions in place of the gestures (the
 * step whose usual meaning the action is). A key of no switch tells nothing. */
int switches_change(struct switches *switches, int key, bool down, int64_t at_ms,
		    enum gesture_step steps[4], int64_t step_ms[4]);

/* Time has come to `at_ms`: the steps of one switch that are due; to be called again until there
 * are none. */
int switches_time(struct switches *switches, int64_t at_ms, enum gesture_step steps[4],
		  int64_t step_ms[4]);
int64_t switches_deadline_ms(const struct switches *switches);

#endif
