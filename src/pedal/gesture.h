/* From presses to gestures: tap, double tap, hold, long hold. Pure: time is an argument.
 *
 *  down____up                        . . . . . window passes: TAP
 *  down____up . down____up                    DOUBLE_TAP (at the second up)
 *  down____up . down_________|TAP, HELD__up   HOLD (the first was a tap of its own)
 *  down__________|HELD______up                HOLD (0.6 s to 2 s)
 *  down__________|HELD__________|LONG_HOLD    at 2 s, whatever comes after
 *
 * Down for exactly hold_ms is a hold, for exactly long_ms a long hold; a press that comes exactly
 * window_ms after a release is the first of its own. A third tap is the first of its own, too.
 *
 * Bounce. A switch going down counts at once, since lapel has to fall silent at once. A switch
 * coming up counts when it has stayed up for bounce_ms; if it comes down before, it never came up:
 *
 *  down__ __ ____________up                   one press
 *  down_____________ _ __ _ up . . bounce     one press, as long as to the last up
 *  down up . . . . . . . bounce               a press, however short
 *
 * So what is told at a release is told bounce_ms after it, with that time, while how long the press
 * was and how long the window is are counted from the release. While it is not clear whether the
 * switch came up, HELD and LONG_HOLD wait. */
#ifndef LAPEL_PEDAL_GESTURE_H
#define LAPEL_PEDAL_GESTURE_H

#include <stdbool.h>
#include <stdint.h>

enum gesture_step {
	STEP_DOWN, /* the switch went down: lapel falls silent */
	STEP_HELD, /* it has been down for hold_ms: a cue marks it */
	STEP_TAP,
	STEP_DOUBLE_TAP,
	STEP_HOLD,
	STEP_LONG_HOLD
};

struct gesture_setting {
	int64_t hold_ms;   /* 600 */
	int64_t long_ms;   /* 2000: more than hold_ms */
	int64_t window_ms; /* 300: how long after a tap a second one makes it double */
	int64_t bounce_ms; /* 25: an up and down closer together than this are one press; 0 to
			      hold_ms */
};
extern const struct gesture_setting gesture_usual;

/* The fields are this file's own. */
struct gesture_state {
	struct gesture_setting setting;
	int64_t now_ms;
	bool down;   /* a press is under way */
	bool lifted; /* down, but the switch is up and may be bouncing, since lifted_ms */
	bool held_told, long_told; /* of this press */
	bool tapped;		   /* a tap ended at up_ms that may yet become double */
	int64_t down_ms, lifted_ms, up_ms;
};

void gesture_init(struct gesture_state *state, const struct gesture_setting *setting);

/* A change of the switch at `at_ms`. Steps that became due by then come first; up to four steps are
 * written, with the times at which they became due in `step_ms`, which never go down. Returns how
 * many. A down while down, or an up while up, is ignored. Time does not go back: a change that is
 * told late (a timer ran while the press was on its way) counts at the latest time told before. */
int gesture_change(struct gesture_state *state, bool down, int64_t at_ms,
		   enum gesture_step steps[4], int64_t step_ms[4]);

/* Time has come to `at_ms`: the steps that are due. */
int gesture_time(struct gesture_state *state, int64_t at_ms, enum gesture_step steps[4],
		 int64_t step_ms[4]);

/* When gesture_time is wanted, always later than the time told last; INT64_MAX: not at all. */
int64_t gesture_deadline_ms(const struct gesture_state *state);

#endif
