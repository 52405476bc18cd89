/* The pedal, the terminal's keys and the bar-code reader of a session on the devices. */
#include "live_part.h"

#include <stdio.h>
#include <string.h>

static void
tell_steps(struct live *live, int count, const enum gesture_step *steps, const int64_t *step_ms)
{
	for (int i = 0; i < count; i++) {
		int64_t at_ms = live_told_ms(live, step_ms[i] - live->start_ms);
		/* Silence first: the ears may be at work, and are waited for after it. */
		if (steps[i] == STEP_DOWN)
			voice_hush(live->voice, at_ms);
		listening_hold(live->listening);
		working_session_gesture(&live->work, steps[i], at_ms);
		listening_release(live->listening);
	}
}

void
live_let_switches_wait(struct live *live, struct switches *switches, int64_t until_ms)
{
	enum gesture_step steps[4];
	int64_t step_ms[4], due_ms;
	while ((due_ms = switches_deadline_ms(switches)) <= until_ms)
		tell_steps(live, switches_time(switches, due_ms, steps, step_ms), steps, step_ms);
}

static void
say_of_pedal(struct live *live, struct foot *foot, bool there)
{
	const char *words = there ? "the pedal is back" : "the pedal is gone";
	fprintf(stderr, "lapel: %s\n", there && !foot->seen ? "the pedal is there" : words);
	if (!there || foot->seen)
		voice_say(live->voice, live_now_ms(live), NULL, words, NULL);
	foot->seen = true;
}

void
live_tell_trouble(struct foot *foot)
{
	if (strcmp(foot->pedal->functions->name, "evdev") != 0 ||
	    strcmp(pedal_evdev_trouble(foot->pedal), foot->told.text) == 0)
		return;
	problem_say(&foot->told, "%s", pedal_evdev_trouble(foot->pedal));
	if (foot->told.text[0] != '\0')
		fprintf(stderr, "lapel: %s\n", foot->told.text);
}

void
live_take_presses(struct live *live, struct foot *foot)
{
	enum gesture_step steps[4];
	int64_t step_ms[4];
	struct press press;
	for (;;) {
		enum pedal_news news = pedal_next(foot->pedal, &press);
		switch (news) {
		case PEDAL_NONE:
			live_tell_trouble(foot);
			return;
		case PEDAL_ENDED:
			pedal_close(foot->pedal);
			foot->pedal = NULL;
			return;
		case PEDAL_THERE:
		case PEDAL_GONE:
			say_of_pedal(live, foot, news == PEDAL_THERE);
			break;
		case PEDAL_PRESS:
			live_let_switches_wait(live, &foot->switches, press.at_ms);
			tell_steps(live,
				   switches_change(&foot->switches, press.key, press.down,
						   press.at_ms, steps, step_ms),
				   steps, step_ms);
			break;
		}
	}
}

static void
say_of_reader(struct live *live, bool there)
{
	const char *words = there ? "the reader is back" : "the reader is gone";
	fprintf(stderr, "lapel: %s\n", there && !live->reader.seen ? "the reader is there" : words);
	if (!there || live->reader.seen)
		voice_say(live->voice, live_now_ms(live), NULL, words, NULL);
	live->reader.seen = true;
}

static void
open_scanned(struct live *live, const char *label, int64_t at_ms)
{
	voice_hush(live->voice, at_ms);
	listening_hold(live->listening);
	working_session_scan(&live->work, label, at_ms);
	listening_release(live->listening);
}

void
live_take_scans(struct live *live)
{
	char label[SCAN_LABEL_MAX];
	struct press press;
	while (live->reader.device != NULL) {
		enum pedal_news news = pedal_next(live->reader.device, &press);
		switch (news) {
		case PEDAL_NONE:
			return;
		case PEDAL_ENDED:
			pedal_close(live->reader.device);
			live->reader.device = NULL;
			return;
		case PEDAL_THERE:
		case PEDAL_GONE:
			memset(&live->reader.scan, 0, sizeof live->reader.scan);
			say_of_reader(live, news == PEDAL_THERE);
			break;
		case PEDAL_PRESS:
			if (scan_key(&live->reader.scan, press.key, press.down, press.at_ms, label))
				open_scanned(live, label,
					     live_told_ms(live, press.at_ms - live->start_ms));
			break;
		}
	}
}
