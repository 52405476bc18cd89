#include "mapping.h"

#include "presses.h"

#include <libevdev/libevdev.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const action_names[] = {"next", "repeat", "strike", "pause", "nothing"};
static const char *const gesture_names[] = {"tap", "double", "hold", "long"};

enum { ACTIONS = sizeof action_names / sizeof *action_names };

static int
find_name(const char *const *names, int count, const char *name)
{
	for (int i = 0; i < count; i++)
		if (strcmp(names[i], name) == 0)
			return i;
	return -1;
}

static struct mapping_switch *
find_switch(struct mapping *mapping, int key)
{
	for (int i = 0; i < mapping->count; i++)
		if (mapping->switches[i].key == key)
			return &mapping->switches[i];
	return NULL;
}

static struct mapping_switch *
add_switch(struct mapping *mapping, int key, struct problem *problem)
{
	if (mapping->count == MAPPING_SWITCHES_MAX) {
		problem_say(problem, "a pedal has no more than %d switches", MAPPING_SWITCHES_MAX);
		return NULL;
	}
	struct mapping_switch *added = &mapping->switches[mapping->count++];
	*added = (struct mapping_switch){
		.key = key, .actions = {ACTION_NEXT, ACTION_REPEAT, ACTION_STRIKE, ACTION_PAUSE}};
	return added;
}

/* "KEY_B", "KEY_B:next" or "KEY_B.tap:next"; cut up in place. */
static bool
read_word(struct mapping *mapping, char *word, struct problem *problem)
{
	char *action_name = strchr(word, ':');
	if (action_name != NULL)
		*action_name++ = '\0';
	char *gesture_name = strchr(word, '.');
	if (gesture_name != NULL)
		*gesture_name++ = '\0';
	int key = presses_key(word), action = ACTION_NEXT, gesture = 0;
	if (key < 0)
		return problem_say(problem, "there is no key \"%.40s\" (one is KEY_B)", word);
	if (gesture_name != NULL && action_name == NULL)
		return problem_say(problem,
				   "what \"%.40s.%.40s\" does is missing: put :next after it, or "
				   ":repeat, :strike, :pause, :nothing",
				   word, gesture_name);
	if (action_name != NULL && (action = find_name(action_names, ACTIONS, action_name)) < 0)
		return problem_say(problem,
				   "a switch cannot do \"%.40s\": choose next, repeat, strike, "
				   "pause or nothing",
				   action_name);
	if (gesture_name != NULL &&
	    (gesture = find_name(gesture_names, MAPPING_GESTURES, gesture_name)) < 0)
		return problem_say(
			problem, "there is no gesture \"%.40s\": choose tap, double, hold or long",
			gesture_name);
	struct mapping_switch *found = find_switch(mapping, key);
	if (found != NULL && (gesture_name == NULL || found->at_press))
		return problem_say(problem, "the key %.40s stands twice", word);
	if (found == NULL && (found = add_switch(mapping, key, problem)) == NULL)
		return false;
	found->at_press = action_name != NULL && gesture_name == NULL;
	if (action_name != NULL)
		found->actions[gesture] = (enum mapping_action)action;
	return true;
}

bool
mapping_parse(const char *text, struct mapping *mapping, struct problem *problem)
{
	struct mapping read = {.count = 0};
	char copy[MAPPING_TEXT_MAX], *rest;
	if (strlen(text) >= sizeof copy)
		return problem_say(problem, "the mapping of the pedal is too long");
	strcpy(copy, text);
	for (char *word = strtok_r(copy, " \t", &rest); word != NULL;
	     word = strtok_r(NULL, " \t", &rest))
		if (!read_word(&read, word, problem))
			return false;
	if (read.count == 0)
		return problem_say(problem, "the pedal has no switch: name a key, such as KEY_B");
	*mapping = read;
	return true;
}

static void
append(char text[MAPPING_TEXT_MAX], const char *key, const char *gesture, const char *action)
{
	size_t length = strlen(text);
	snprintf(text + length, MAPPING_TEXT_MAX - length, "%s%s%s%s%s%s", length > 0 ? " " : "",
		 key, gesture[0] != '\0' ? "." : "", gesture, action[0] != '\0' ? ":" : "", action);
}

void
mapping_text(const struct mapping *mapping, char text[MAPPING_TEXT_MAX])
{
	text[0] = '\0';
	for (int i = 0; i < mapping->count; i++) {
		const struct mapping_switch *one = &mapping->switches[i];
		const char *key = libevdev_event_code_get_name(EV_KEY, (unsigned)one->key);
		bool usual = true;
		if (one->at_press) {
			append(text, key, "", action_names[one->actions[0]]);
			continue;
		}
		for (int gesture = 0; gesture < MAPPING_GESTURES; gesture++) {
			if ((int)one->actions[gesture] == gesture)
				continue;
			append(text, key, gesture_names[gesture],
			       action_names[one->actions[gesture]]);
			usual = false;
		}
		if (usual)
			append(text, key, "", "");
	}
}

void
switches_init(struct switches *switches, const struct mapping *mapping,
	      const struct gesture_setting *setting)
{
	memset(switches, 0, sizeof *switches);
	switches->mapping = *mapping;
	switches->setting = *setting;
	for (int i = 0; i < mapping->count; i++)
		gesture_init(&switches->states[i].gesture, setting);
}

/* Gestures become the steps of what they do here; what does nothing is left out. */
static int
translate(const struct mapping_switch *one, int count, enum gesture_step steps[4],
	  int64_t step_ms[4])
{
	int kept = 0;
	for (int i = 0; i < count; i++) {
		enum gesture_step step = steps[i];
		if (step >= STEP_TAP) {
			enum mapping_action action = one->actions[step - STEP_TAP];
			if (action == ACTION_NOTHING)
				continue;
			step = (enum gesture_step)(STEP_TAP + (int)action);
		}
		steps[kept] = step;
		step_ms[kept++] = step_ms[i];
	}
	return kept;
}

/* A switch that does one thing does it when it goes down; its bounces do nothing. */
static int
press_at_once(struct switches *switches, int which, bool down, int64_t at_ms,
	      enum gesture_step steps[4], int64_t step_ms[4])
{
	bool was_down = switches->states[which].down;
	int64_t *changed_ms = &switches->states[which].down_ms;
	bool bounce = *changed_ms > 0 && at_ms - *changed_ms < switches->setting.bounce_ms;
	switches->states[which].down = down;
	if (!was_down && !down)
		return 0;
	*changed_ms = at_ms;
	if (!down || was_down || bounce)
		return 0;
	steps[0] = STEP_DOWN;
	steps[1] = STEP_TAP;
	step_ms[0] = step_ms[1] = at_ms;
	return translate(&switches->mapping.switches[which], 2, steps, step_ms);
}

int
switches_change(struct switches *switches, int key, bool down, int64_t at_ms,
		enum gesture_step steps[4], int64_t step_ms[4])
{
	for (int i = 0; i < switches->mapping.count; i++) {
		const struct mapping_switch *one = &switches->mapping.switches[i];
		if (one->key != key)
			continue;
		if (one->at_press)
			return press_at_once(switches, i, down, at_ms, steps, step_ms);
		return translate(
			one,
			gesture_change(&switches->states[i].gesture, down, at_ms, steps, step_ms),
			steps, step_ms);
	}
	return 0;
}

int64_t
switches_deadline_ms(const struct switches *switches)
{
	int64_t first = INT64_MAX;
	for (int i = 0; i < switches->mapping.count; i++) {
		int64_t due = gesture_deadline_ms(&switches->states[i].gesture);
		if (due < first)
			first = due;
	}
	return first;
}

int
switches_time(struct switches *switches, int64_t at_ms, enum gesture_step steps[4],
	      int64_t step_ms[4])
{
	for (int i = 0; i < switches->mapping.count; i++) {
		if (gesture_deadline_ms(&switches->states[i].gesture) > at_ms)
			continue;
		int count = gesture_time(&switches->states[i].gesture, at_ms, steps, step_ms);
		count = translate(&switches->mapping.switches[i], count, steps, step_ms);
		if (count > 0)
			return count;
	}
	return 0;
}
