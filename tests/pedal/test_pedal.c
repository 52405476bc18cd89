/* The drivers that need no device: a file of presses, and the keys of a terminal. */
#include "mapping.h"
#include "pedal.h"

#include <fcntl.h>
#include <linux/input-event-codes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include <cmocka.h>

static void
presses_come_in_order_and_end(void **state)
{
	struct presses *presses = presses_parse("a", "1.0 KEY_B 1\n1.2 KEY_B 0\n", NULL);
	struct pedal *pedal = pedal_presses_open(presses, NULL);
	struct press press;
	assert_int_equal(pedal_fd(pedal), -1);
	assert_int_equal(pedal_next(pedal, &press), PEDAL_PRESS);
	assert_true(press.at_ms == 1000 && press.key == KEY_B && press.down);
	assert_int_equal(pedal_next(pedal, &press), PEDAL_PRESS);
	assert_true(press.at_ms == 1200 && press.key == KEY_B && !press.down);
	assert_int_equal(pedal_next(pedal, &press), PEDAL_ENDED);
	assert_int_equal(pedal_next(pedal, &press), PEDAL_ENDED);
	pedal_close(pedal);
	presses_destroy(presses);
	pedal_close(NULL);
}

static void
keys_of_a_terminal_are_pressed_and_released(void **state)
{
	int outer = posix_openpt(O_RDWR | O_NOCTTY), inner;
	if (outer < 0 || grantpt(outer) != 0 || unlockpt(outer) != 0) {
		print_message("skipped: there are no pseudo-terminals here (/dev/pts)\n");
		skip();
	}
	inner = open(ptsname(outer), O_RDWR | O_NOCTTY);
	if (inner < 0) {
		print_message("skipped: there are no pseudo-terminals here (/dev/pts)\n");
		skip();
	}
	struct termios before, after;
	tcgetattr(inner, &before);
	struct problem problem = {""};
	struct pedal *pedal = pedal_keyboard_open(inner, &problem);
	struct press press;
	assert_non_null(pedal);
	assert_int_equal(pedal_next(pedal, &press), PEDAL_NONE);
	/* An arrow key sends a sequence, which means nothing; nor does x. */
	static const char typed[] = "x\033[A n\177R";
	static const int want[] = {KEY_SPACE, KEY_N, KEY_BACKSPACE, KEY_R};
	assert_int_equal(write(outer, typed, strlen(typed)), strlen(typed));
	for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
		assert_int_equal(pedal_next(pedal, &press), PEDAL_PRESS);
		assert_int_equal(press.key, want[i]);
		assert_true(press.down);
		assert_int_equal(pedal_next(pedal, &press), PEDAL_PRESS);
		assert_int_equal(press.key, want[i]);
		assert_false(press.down);
	}
	assert_int_equal(pedal_next(pedal, &press), PEDAL_NONE);
	pedal_close(pedal);
	tcgetattr(inner, &after);
	assert_int_equal(after.c_lflag, before.c_lflag);
	close(inner);
	close(outer);
}

static void
no_terminal_is_told(void **state)
{
	int pipe_ends[2];
	struct problem problem = {""};
	assert_int_equal(pipe(pipe_ends), 0);
	assert_null(pedal_keyboard_open(pipe_ends[0], &problem));
	assert_non_null(strstr(problem.text, "terminal"));
	close(pipe_ends[0]);
	close(pipe_ends[1]);
}

static void
the_mapping_of_the_terminals_keys_can_be_read(void **state)
{
	struct mapping mapping;
	struct problem problem = {""};
	if (!mapping_parse(pedal_keyboard_mapping, &mapping, &problem))
		fail_msg("%s", problem.text);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(presses_come_in_order_and_end),
		cmocka_unit_test(keys_of_a_terminal_are_pressed_and_released),
		cmocka_unit_test(no_terminal_is_told),
		cmocka_unit_test(the_mapping_of_the_terminals_keys_can_be_read),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
