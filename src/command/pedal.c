/* lapel pedal: shows what is pressed, and learns a mapping. */
#include "pedal.h"
#include "file_text.h"
#include "mapping.h"
#include "options.h"
#include "scan.h"
#include "settings.h"

#include <libevdev/libevdev.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const char help[] =
	"lapel pedal: show what is pressed, or learn what each switch does\n\n"
	"Usage: lapel pedal [OPTION...]\n\n"
	"  --device NAME      which pedal: a piece of its name, its numbers (1209:0001) or its\n"
	"                     file (/dev/input/event5); otherwise one that says it is a pedal\n"
	"  --learn            ask for each switch in turn, then print the line for the settings\n"
	"  --switches TEXT    what the switches do, other than the settings say: \"KEY_B\", or\n"
	"                     \"KEY_A:strike KEY_B:next KEY_C:repeat\"\n"
	"  --reader           show what a bar-code reader types, in place of a pedal\n"
	"  --keyboard         the keys of this terminal in place of a pedal\n"
	"  --presses FILE     presses from a file in place of a pedal\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"While it runs, the pedal's keys reach no other program. Ctrl-C ends it.\n";

struct options {
	const char *device, *switches, *presses, *settings;
	bool learn, reader, keyboard;
};

static volatile sig_atomic_t signalled;

static void
on_signal(int number)
{
	signalled = number;
}

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static const char *const step_words[] = {
	[STEP_DOWN] = "down: lapel falls silent",
	[STEP_HELD] = "held: the cue sounds",
	[STEP_TAP] = "next",
	[STEP_DOUBLE_TAP] = "repeat",
	[STEP_HOLD] = "strike that",
	[STEP_LONG_HOLD] = "pause or resume",
};

static const char *
key_name(int key)
{
	const char *name = libevdev_event_code_get_name(EV_KEY, (unsigned)key);
	return name == NULL ? "a key without a name" : name;
}

static void
show_steps(int count, const enum gesture_step *steps)
{
	for (int i = 0; i < count; i++)
		if (steps[i] != STEP_DOWN)
			printf("  -> %s\n", step_words[steps[i]]);
	fflush(stdout);
}

static void
let_time_pass(struct switches *switches, int64_t until_ms)
{
	enum gesture_step steps[4];
	int64_t step_ms[4], due_ms;
	while ((due_ms = switches_deadline_ms(switches)) <= until_ms && due_ms < INT64_MAX)
		show_steps(switches_time(switches, due_ms, steps, step_ms), steps);
}

/* Waits for the next news, at most until the switches want time; PEDAL_NONE: that has come. */
static enum pedal_news
await(struct pedal *pedal, const struct switches *switches, struct press *press)
{
	enum { LONG_MS = 1000 };
	enum pedal_news news = pedal_next(pedal, press);
	if (news != PEDAL_NONE)
		return news;
	int64_t due_ms = switches_deadline_ms(switches);
	int64_t wait_ms = due_ms == INT64_MAX ? LONG_MS : due_ms - now_ms();
	struct pollfd descriptor = {.fd = pedal_fd(pedal), .events = POLLIN};
	poll(&descriptor, 1, wait_ms < 0 ? 0 : wait_ms > LONG_MS ? LONG_MS : (int)wait_ms);
	return pedal_next(pedal, press);
}

static void
tell_there(const struct options *options, const struct pedal *pedal)
{
	bool evdev = strcmp(pedal->functions->name, "evdev") == 0;
	if (evdev)
		printf("%s \"%s\" is there\n", options->reader ? "the reader" : "the pedal",
		       pedal_evdev_device(pedal));
	fflush(stdout);
}

/* Why a device that is there cannot be opened, when that is another reason than before. */
static void
tell_trouble(const struct pedal *pedal, struct problem *told)
{
	if (strcmp(pedal->functions->name, "evdev") != 0 ||
	    strcmp(pedal_evdev_trouble(pedal), told->text) == 0)
		return;
	problem_say(told, "%s", pedal_evdev_trouble(pedal));
	if (told->text[0] != '\0')
		fprintf(stderr, "%s\n", told->text);
}

static void
show_press(const struct options *options, struct switches *switches, struct scan *scan,
	   const struct press *press)
{
	enum gesture_step steps[4];
	int64_t step_ms[4];
	char label[SCAN_LABEL_MAX];
	if (options->reader) {
		if (scan_key(scan, press->key, press->down, press->at_ms, label))
			printf("label %s\n", label);
		fflush(stdout);
		return;
	}
	let_time_pass(switches, press->at_ms);
	printf("%s %s\n", key_name(press->key), press->down ? "down" : "up");
	show_steps(switches_change(switches, press->key, press->down, press->at_ms, steps, step_ms),
		   steps);
}

static void
show(const struct options *options, struct pedal *pedal, struct switches *switches)
{
	struct scan scan = {.length = 0};
	struct problem told = {""};
	struct press press;
	while (signalled == 0) {
		tell_trouble(pedal, &told);
		enum pedal_news news = await(pedal, switches, &press);
		switch (news) {
		case PEDAL_PRESS:
			show_press(options, switches, &scan, &press);
			break;
		case PEDAL_THERE:
			tell_there(options, pedal);
			break;
		case PEDAL_GONE:
			puts("it is gone; plug it in again");
			fflush(stdout);
			break;
		case PEDAL_NONE:
			let_time_pass(switches, now_ms());
			break;
		case PEDAL_ENDED:
			let_time_pass(switches, INT64_MAX - 1);
			return;
		}
	}
}

/* The key that is pressed next, skipping those that were learned already; -1: there is no more. */
static int
learn_key(struct pedal *pedal, const struct switches *nothing)
{
	struct problem told = {""};
	struct press press;
	while (signalled == 0) {
		tell_trouble(pedal, &told);
		enum pedal_news news = await(pedal, nothing, &press);
		if (news == PEDAL_ENDED)
			return -1;
		if (news == PEDAL_PRESS && press.down)
			return press.key;
	}
	return -1;
}

/* Three questions; a switch that is pressed again for the second one is the only one there is. */
static int
learn(struct pedal *pedal, const struct switches *nothing)
{
	static const char *const wanted[] = {"next", "repeat", "strike"};
	enum { WANTED = sizeof wanted / sizeof *wanted };
	struct problem problem = {""};
	struct mapping mapping;
	char text[MAPPING_TEXT_MAX] = "";
	int keys[WANTED], count = 0;
	fputs("Press each switch once when asked. Has the pedal one switch only, press that "
	      "again.\n",
	      stderr);
	for (; count < WANTED; count++) {
		fprintf(stderr, "Press the switch for: %s\n", wanted[count]);
		keys[count] = learn_key(pedal, nothing);
		if (keys[count] < 0 || (count > 0 && keys[count] == keys[0]))
			break;
	}
	if (count == 0) {
		problem_say(&problem, "nothing was pressed, so nothing was learned");
		return command_failed(&problem);
	}
	for (int i = 0; i < count; i++) {
		size_t length = strlen(text);
		snprintf(text + length, sizeof text - length, "%s%s", i > 0 ? " " : "",
			 key_name(keys[i]));
		if (count > 1)
			snprintf(text + strlen(text), sizeof text - strlen(text), ":%s", wanted[i]);
	}
	if (!mapping_parse(text, &mapping, &problem))
		return command_failed(&problem);
	printf("[pedal]\nkey = %s\n", text);
	return DONE;
}

/* It is waited for: so what may be amiss is said now. */
static void
tell_missing(const struct pedal_choice *choice, const struct pedal *pedal)
{
	const char *sort = choice->sort == PEDAL_SORT_READER ? "bar-code reader" : "pedal";
	char others[PEDAL_OTHERS_MAX];
	pedal_evdev_others(pedal, others);
	if (choice->device != NULL && choice->device[0] != '\0')
		fprintf(stderr, "no %s \"%.60s\" is there yet: plug it in", sort, choice->device);
	else
		fprintf(stderr,
			"no %s is there yet: plug it in, or, where it does not call itself one, "
			"give a "
			"piece of its name with --device",
			sort);
	if (others[0] != '\0')
		fprintf(stderr, "; with keys there are %s", others);
	else
		fputs("; no device with keys is there at all", stderr);
	fputs(". Ctrl-C ends the waiting.\n", stderr);
}

static struct pedal *
open_pedal(const struct options *options, const struct settings *settings,
	   const struct presses *presses, struct problem *problem)
{
	const char *usual = options->reader ? settings->reader : settings->pedal_device;
	struct pedal_choice choice = {options->reader ? PEDAL_SORT_READER : PEDAL_SORT_SWITCH,
				      options->device != NULL ? options->device : usual, true};
	if (presses != NULL)
		return pedal_presses_open(presses, problem);
	if (options->keyboard)
		return pedal_keyboard_open(STDIN_FILENO, problem);
	struct pedal *pedal = pedal_evdev_open(&choice, problem);
	if (pedal == NULL || pedal_evdev_device(pedal)[0] != '\0')
		return pedal;
	if (pedal_evdev_trouble(pedal)[0] == '\0')
		tell_missing(&choice, pedal);
	return pedal;
}

static int
show_or_learn(const struct options *options)
{
	struct problem problem = {""};
	struct settings settings;
	struct mapping mapping;
	struct presses *presses = NULL;
	if (!settings_read(&settings, options->settings, &problem))
		return command_failed(&problem);
	const char *text = options->switches != NULL ? options->switches
			   : options->keyboard	     ? pedal_keyboard_mapping
						     : settings.pedal_key;
	if (!mapping_parse(text, &mapping, &problem))
		return command_failed(&problem);
	if (options->presses != NULL) {
		char *content = file_text(options->presses, &problem);
		if (content != NULL)
			presses = presses_parse(options->presses, content, &problem);
		free(content);
		if (presses == NULL)
			return command_failed(&problem);
	}
	struct switches switches;
	switches_init(&switches, &mapping, &gesture_usual);
	int status = DONE;
	struct pedal *pedal = open_pedal(options, &settings, presses, &problem);
	if (pedal == NULL)
		status = command_failed(&problem);
	else if (options->learn)
		status = learn(pedal, &switches);
	else
		show(options, pedal, &switches);
	pedal_close(pedal);
	presses_destroy(presses);
	return status;
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const struct option_row rows[] = {
		{"device", &options.device, NULL},    {"switches", &options.switches, NULL},
		{"presses", &options.presses, NULL},  {"settings", &options.settings, NULL},
		{"learn", NULL, &options.learn},      {"reader", NULL, &options.reader},
		{"keyboard", NULL, &options.keyboard}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.learn && options.reader)
		return command_wrong_use(command, "a bar-code reader has nothing to learn");
	struct sigaction action = {.sa_handler = on_signal};
	sigaction(SIGTERM, &action, NULL);
	sigaction(SIGINT, &action, NULL);
	return show_or_learn(&options);
}

const struct command command_pedal = {"pedal", "show what is pressed, learn the switches", help,
				      run};
