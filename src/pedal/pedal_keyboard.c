#include "pedal.h"

#include <ctype.h>
#include <errno.h>
#include <linux/input-event-codes.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

const char pedal_keyboard_mapping[] = "KEY_SPACE:next KEY_ENTER:next KEY_N:next KEY_R:repeat "
				      "KEY_S:strike KEY_BACKSPACE:strike KEY_P:pause";

static const struct {
	char typed;
	int key;
} keys[] = {{' ', KEY_SPACE}, {'\n', KEY_ENTER}, {'\r', KEY_ENTER},	{'n', KEY_N},
	    {'r', KEY_R},     {'s', KEY_S},	 {'\b', KEY_BACKSPACE}, {'\177', KEY_BACKSPACE},
	    {'p', KEY_P}};

struct keyboard {
	struct pedal pedal;
	int descriptor;
	struct termios usual;
	struct press up; /* that follows the press told last; key 0: none */
	bool escape;	 /* within the sequence of an arrow or the like, which means nothing */
	bool ended;
};

static int64_t
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int
keyboard_fd(struct pedal *pedal)
{
	return ((struct keyboard *)pedal)->descriptor;
}

/* The key of a typed character, 0 when it has none. */
static int
key_of(struct keyboard *keyboard, char typed)
{
	if (typed == '\033') {
		keyboard->escape = true;
		return 0;
	}
	if (keyboard->escape) {
		keyboard->escape = typed == '[' || typed == 'O' || typed == ';' ||
				   isdigit((unsigned char)typed);
		return 0;
	}
	for (size_t i = 0; i < sizeof keys / sizeof *keys; i++)
		if (keys[i].typed == tolower((unsigned char)typed))
			return keys[i].key;
	return 0;
}

static enum pedal_news
keyboard_next(struct pedal *pedal, struct press *press)
{
	struct keyboard *keyboard = (struct keyboard *)pedal;
	if (keyboard->up.key != 0) {
		*press = keyboard->up;
		keyboard->up.key = 0;
		return PEDAL_PRESS;
	}
	while (!keyboard->ended) {
		char typed;
		ssize_t got = read(keyboard->descriptor, &typed, 1);
		if (got < 0 && (errno == EAGAIN || errno == EINTR))
			return PEDAL_NONE;
		/* With VMIN 0 a terminal gives 0 for nothing; one that hung up, too, and is told
		 * by poll, after which the caller looks here. */
		if (got == 0 && isatty(keyboard->descriptor))
			return PEDAL_NONE;
		if (got <= 0) {
			keyboard->ended = true;
			break;
		}
		int key = key_of(keyboard, typed);
		if (key == 0)
			continue;
		*press = (struct press){now_ms(), key, true};
		keyboard->up = (struct press){press->at_ms, key, false};
		return PEDAL_PRESS;
	}
	return PEDAL_ENDED;
}

static void
keyboard_close(struct pedal *pedal)
{
	struct keyboard *keyboard = (struct keyboard *)pedal;
	tcsetattr(keyboard->descriptor, TCSANOW, &keyboard->usual);
	free(keyboard);
}

static const struct pedal_functions keyboard_functions = {"keyboard", keyboard_fd, keyboard_next,
							  keyboard_close};

struct pedal *
pedal_keyboard_open(int descriptor, struct problem *problem)
{
	struct keyboard *keyboard = calloc(1, sizeof *keyboard);
	if (keyboard == NULL) {
		problem_say(problem, "cannot read the keyboard: out of memory");
		return NULL;
	}
	keyboard->pedal.functions = &keyboard_functions;
	keyboard->descriptor = descriptor;
	if (tcgetattr(descriptor, &keyboard->usual) != 0) {
		problem_say(problem, "there is no terminal whose keys could stand for the pedal");
		free(keyboard);
		return NULL;
	}
	struct termios raw = keyboard->usual;
	raw.c_lflag &= ~(tcflag_t)(ICANON | ECHO); /* Ctrl-C still ends the session */
	raw.c_cc[VMIN] = 0;
	raw.c_cc[VTIME] = 0;
	tcsetattr(descriptor, TCSANOW, &raw);
	return &keyboard->pedal;
}
