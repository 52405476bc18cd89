#include "gesture.h"

#include <assert.h>

const struct gesture_setting gesture_usual = {
	.hold_ms = 600, .long_ms = 2000, .window_ms = 300, .bounce_ms = 25};

enum { STEPS_MAX = 4 };

/* Where steps go. */
struct told {
	enum gesture_step *steps;
	int64_t *step_ms;
	int count;
};

void
gesture_init(struct gesture_state *state, const struct gesture_setting *setting)
{
	assert(0 <= setting->bounce_ms && setting->bounce_ms <= setting->hold_ms);
	assert(0 < setting->hold_ms && setting->hold_ms < setting->long_ms);
	assert(0 <= setting->window_ms);
	*state = (struct gesture_state){.setting = *setting, .now_ms = INT64_MIN};
}

static void
tell(struct told *told, enum gesture_step step, int64_t at_ms)
{
	assert(told->count < STEPS_MAX);
	told->steps[told->count] = step;
	told->step_ms[told->count] = at_ms;
	told->count++;
}

int64_t
gesture_deadline_ms(const struct gesture_state *state)
{
	const struct gesture_setting *setting = &state->setting;
	if (state->lifted)
		return state->lifted_ms + setting->bounce_ms;
	if (state->down && !state->held_told)
		return state->down_ms + setting->hold_ms;
	if (state->down && !state->long_told)
		return state->down_ms + setting->long_ms;
	if (!state->down && state->tapped)
		return state->up_ms + setting->window_ms;
	return INT64_MAX;
}

/* The switch has been up long enough: the press ended at lifted_ms. */
static void
press_ended(struct gesture_state *state, int64_t at_ms, struct told *told)
{
	state->down = state->lifted = false;
	state->up_ms = state->lifted_ms;
	if (state->long_told)
		return;
	if (state->held_told) {
		tell(told, STEP_HOLD, at_ms);
	} else if (state->tapped) {
		state->tapped = false;
		tell(told, STEP_DOUBLE_TAP, at_ms);
	} else {
		state->tapped = true;
	}
}

/* What the deadline was for, at `at_ms`, which is not before it. */
static void
deadline_reached(struct gesture_state *state, int64_t at_ms, struct told *told)
{
	if (state->lifted) {
		press_ended(state, at_ms, told);
	} else if (!state->down || !state->held_told) {
		/* The window has passed, or what followed the tap is a hold: it was one tap. */
		if (state->tapped)
			tell(told, STEP_TAP, at_ms);
		state->tapped = false;
		state->held_told = state->down;
		if (state->down)
			tell(told, STEP_HELD, at_ms);
	} else {
		state->long_told = true;
		tell(told, STEP_LONG_HOLD, at_ms);
	}
}

/* Time passes to `at_ms`, one deadline after the other. A deadline that had to wait until it was
 * clear whether the switch came up is reached now. */
static void
pass(struct gesture_state *state, int64_t at_ms, struct told *told)
{
	if (at_ms < state->now_ms)
		at_ms = state->now_ms;
	int64_t deadline_ms = gesture_deadline_ms(state);
	for (; deadline_ms <= at_ms && deadline_ms < INT64_MAX;
	     deadline_ms = gesture_deadline_ms(state)) {
		if (state->now_ms < deadline_ms)
			state->now_ms = deadline_ms;
		deadline_reached(state, state->now_ms, told);
	}
	state->now_ms = at_ms;
}

int
gesture_change(struct gesture_state *state, bool down, int64_t at_ms,
	       enum gesture_step steps[STEPS_MAX], int64_t step_ms[STEPS_MAX])
{
	struct told told = {steps, step_ms, 0};
	pass(state, at_ms, &told);
	if (down && !state->down) {
		state->down = true;
		state->held_told = state->long_told = false;
		state->down_ms = state->now_ms;
		tell(&told, STEP_DOWN, state->now_ms);
	} else if (down) {
		state->lifted = false; /* a bounce, if the switch was up at all */
	} else if (state->down && !state->lifted) {
		state->lifted = true;
		state->lifted_ms = state->now_ms;
	}
	pass(state, at_ms, &told);
	return told.count;
}

int
gesture_time(struct gesture_state *state, int64_t at_ms, enum gesture_step steps[STEPS_MAX],
	     int64_t step_ms[STEPS_MAX])
{
	struct told told = {steps, step_ms, 0};
	pass(state, at_ms, &told);
	return told.count;
}
