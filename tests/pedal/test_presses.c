#include "presses.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <linux/input-event-codes.h>

static void
a_line_is_a_press(void **unused)
{
	static const struct {
		const char *text;
		struct press press;
	} rows[] = {
		{"0 KEY_B 1", {0, KEY_B, true}},
		{"0.5 KEY_B 0\n", {500, KEY_B, false}},
		{"12 KEY_A 1\r\n", {12000, KEY_A, true}},
		{" \t 1.25 \t KEY_PAGEDOWN \t 0 \t ", {1250, KEY_PAGEDOWN, false}},
		{"3 BTN_LEFT 1", {3000, BTN_LEFT, true}},
		{"1 KEY_B 1# down", {1000, KEY_B, true}},
		{"# a comment\n\n \t\n\r\n2 KEY_B 1\n# another\n", {2000, KEY_B, true}},
		{"00000007 KEY_B 1", {7000, KEY_B, true}},
		{"999999999.999999999 KEY_B 1", {1000000000000, KEY_B, true}},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct problem problem = {""};
		struct presses *presses = presses_parse("presses", rows[i].text, &problem);
		assert_string_equal(problem.text, "");
		assert_int_equal(presses_count(presses), 1);
		assert_int_equal(presses_at(presses, 0)->at_ms, rows[i].press.at_ms);
		assert_int_equal(presses_at(presses, 0)->key, rows[i].press.key);
		assert_int_equal(presses_at(presses, 0)->down, rows[i].press.down);
		presses_destroy(presses);
	}
}

static void
seconds_become_milliseconds_half_up(void **unused)
{
	static const struct {
		const char *seconds;
		int64_t ms;
	} rows[] = {
		{"0.0004", 0},	       {"0.000499999", 0},
		{"0.0005", 1},	       {"0.0014", 1},
		{"0.0015", 2},	       {"0.0025", 3},
		{"0.9994", 999},       {"0.9995", 1000},
		{"0.999999999", 1000}, {"0.000000001", 0},
		{"1.0005", 1001},      {"2.6755", 2676},
		{"1.005", 1005},       {"4503599.6275", 4503599628},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		char text[64];
		struct problem problem = {""};
		snprintf(text, sizeof text, "%s KEY_B 1", rows[i].seconds);
		struct presses *presses = presses_parse("presses", text, &problem);
		assert_non_null(presses);
		assert_int_equal(presses_at(presses, 0)->at_ms, rows[i].ms);
		presses_destroy(presses);
	}
}

/* Each names the file, the line and what it found there. */
static void
what_is_no_press_is_named_with_file_and_line(void **unused)
{
	static const struct {
		const char *text, *told;
	} rows[] = {
		{"-1 KEY_B 1", "line 1: a time is not negative: \"-1\""},
		{"-0.0 KEY_B 1", "line 1: a time is not negative"},
		{"1 KEY_B 1\n\n# so\n0.9 KEY_B 0\n", "line 4: times may not go down"},
		{"1.0004 KEY_B 1\n1.0003 KEY_B 0\n", "line 2: times may not go down"},
		{"+1 KEY_B 1", "line 1: a time is seconds"},
		{".5 KEY_B 1", "line 1: a time is seconds"},
		{"5. KEY_B 1", "line 1: a time is seconds"},
		{"1e3 KEY_B 1", "line 1: a time is seconds"},
		{"1,5 KEY_B 1", "line 1: a time is seconds"},
		{"0x10 KEY_B 1", "line 1: a time is seconds"},
		{"nan KEY_B 1", "line 1: a time is seconds"},
		{"1.0000000001 KEY_B 1", "line 1: a time is seconds"},
		{"1000000000 KEY_B 1", "line 1: a time is seconds"},
		{"KEY_B 1", "line 1: a time is seconds"},
		{"1 KEY_BEE 1", "line 1: there is no key of this name (one is KEY_B): \"KEY_BEE\""},
		{"1 key_b 1", "line 1: there is no key"},
		{"1 48 1", "line 1: there is no key"},
		{"1 REL_X 1", "line 1: there is no key"},
		{"1 KEY_B 2", "line 1: the state of a key is 1 (down) or 0 (up), not: \"2\""},
		{"1 KEY_B down", "line 1: the state of a key"},
		{"1 KEY_B 01", "line 1: the state of a key"},
		{"1 KEY_B 1 1", "line 1: nothing may follow"},
		{"1 KEY_B", "line 1: a press is written SECONDS KEYNAME 0|1"},
		{"1", "line 1: a press is written"},
		{"1 # KEY_B 1", "line 1: a press is written"},
		{"1 KEY_B 1\r1 KEY_B 0\n", "line 1: the state of a key"},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct problem problem = {""};
		assert_null(presses_parse("rack.presses", rows[i].text, &problem));
		assert_int_equal(strncmp(problem.text, "rack.presses, ", 14), 0);
		if (strstr(problem.text, rows[i].told) == NULL)
			fail_msg("\"%s\": want \"%s\", got \"%s\"", rows[i].text, rows[i].told,
				 problem.text);
	}
}

static void
two_keys_may_change_at_the_same_time(void **unused)
{
	struct presses *presses =
		presses_parse("presses", "1.5 KEY_A 1\n1.5 KEY_B 1\n1.5 KEY_A 0\n", NULL);
	assert_int_equal(presses_count(presses), 3);
	assert_int_equal(presses_at(presses, 0)->key, KEY_A);
	assert_int_equal(presses_at(presses, 1)->key, KEY_B);
	assert_false(presses_at(presses, 2)->down);
	presses_destroy(presses);
}

static void
a_file_may_be_empty_or_very_long(void **unused)
{
	struct presses *presses = presses_parse("presses", "", NULL);
	assert_int_equal(presses_count(presses), 0);
	presses_destroy(presses);

	enum { LINES = 250000, LINE_MAX_BYTES = 32 };
	char *text = malloc(LINES * LINE_MAX_BYTES), *end = text;
	assert_non_null(text);
	for (int i = 0; i < LINES; i++)
		end += sprintf(end, "%d.%03d KEY_B %d\n", i / 5, i % 5 * 200, i % 2);
	presses = presses_parse("presses", text, NULL);
	assert_int_equal(presses_count(presses), LINES);
	assert_int_equal(presses_at(presses, LINES - 1)->at_ms, (LINES - 1) * INT64_C(200));
	presses_destroy(presses);
	free(text);
}

static void
names_of_keys_are_those_of_the_kernel(void **unused)
{
	assert_int_equal(presses_key("KEY_B"), KEY_B);
	assert_int_equal(presses_key("KEY_F13"), KEY_F13);
	assert_int_equal(presses_key("KEY_NOTHING"), -1);
	assert_int_equal(presses_key("EV_KEY"), -1);
	assert_int_equal(presses_key(""), -1);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_line_is_a_press),
		cmocka_unit_test(seconds_become_milliseconds_half_up),
		cmocka_unit_test(what_is_no_press_is_named_with_file_and_line),
		cmocka_unit_test(two_keys_may_change_at_the_same_time),
		cmocka_unit_test(a_file_may_be_empty_or_very_long),
		cmocka_unit_test(names_of_keys_are_those_of_the_kernel)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
