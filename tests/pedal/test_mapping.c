/* What each switch of a pedal does. */
#include "mapping.h"

#include <linux/input-event-codes.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void
a_mapping_is_read_and_written_alike(void **state)
{
	static const struct {
		const char *text, *want; /* NULL: nonsense */
	} rows[] = {
		{"KEY_B", "KEY_B"},
		{"  KEY_B\t", "KEY_B"},
		{"KEY_A:strike KEY_B:next KEY_C:repeat", "KEY_A:strike KEY_B:next KEY_C:repeat"},
		{"KEY_B.tap:repeat KEY_B.double:next", "KEY_B.tap:repeat KEY_B.double:next"},
		{"KEY_B.tap:next", "KEY_B"},
		{"KEY_B.long:nothing", "KEY_B.long:nothing"},
		{"KEY_B KEY_B.hold:pause", "KEY_B.hold:pause"},
		{"KEY_A KEY_F13:pause", "KEY_A KEY_F13:pause"},
		{"", NULL},
		{"   ", NULL},
		{"B", NULL},
		{"KEY_", NULL},
		{"KEY_B:", NULL},
		{"KEY_B:jump", NULL},
		{"KEY_B.tap", NULL},
		{"KEY_B.twice:next", NULL},
		{"KEY_B KEY_B", NULL},
		{"KEY_B:next KEY_B:repeat", NULL},
		{"KEY_B:next KEY_B.tap:next", NULL},
		{"KEY_B.tap:next:repeat", NULL},
		{"KEY_A KEY_B KEY_C KEY_D KEY_E KEY_F KEY_G KEY_H KEY_I", NULL},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct mapping mapping;
		struct problem problem = {""};
		char text[MAPPING_TEXT_MAX];
		bool read = mapping_parse(rows[i].text, &mapping, &problem);
		if (read != (rows[i].want != NULL))
			fail_msg("\"%s\": %s", rows[i].text, read ? "was read" : problem.text);
		if (!read) {
			assert_true(problem.text[0] != '\0');
			continue;
		}
		mapping_text(&mapping, text);
		assert_string_equal(text, rows[i].want);
	}
}

static const struct {
	const char *name;
	int key;
} letters[] = {{"A", KEY_A}, {"B", KEY_B}, {"C", KEY_C}, {"X", KEY_X}};

static void
tell(char *told, size_t size, const enum gesture_step *steps, const int64_t *step_ms, int count)
{
	static const char *const names[] = {
		[STEP_DOWN] = "down",	      [STEP_HELD] = "held",   [STEP_TAP] = "next",
		[STEP_DOUBLE_TAP] = "repeat", [STEP_HOLD] = "strike", [STEP_LONG_HOLD] = "pause"};
	for (int i = 0; i < count; i++) {
		size_t length = strlen(told);
		snprintf(told + length, size - length, "%s%s@%lld", length > 0 ? " " : "",
			 names[steps[i]], (long long)step_ms[i]);
	}
}

/* "A+100 A-200 =900": A down at 100 ms, up at 200, time comes to 900. */
static void
live_through(const char *mapping_as_text, const char *story, char *told, size_t size)
{
	struct switches switches;
	struct mapping mapping;
	enum gesture_step steps[4];
	int64_t step_ms[4];
	assert_true(mapping_parse(mapping_as_text, &mapping, NULL));
	switches_init(&switches, &mapping, &gesture_usual);
	told[0] = '\0';
	for (const char *word = story; *word != '\0'; word += strspn(word, " ")) {
		char *after;
		if (*word == '=') {
			int64_t until_ms = strtoll(word + 1, &after, 10), due;
			while ((due = switches_deadline_ms(&switches)) <= until_ms)
				tell(told, size, steps, step_ms,
				     switches_time(&switches, due, steps, step_ms));
		} else {
			int key = 0;
			for (size_t i = 0; i < sizeof letters / sizeof *letters; i++)
				if (letters[i].name[0] == word[0])
					key = letters[i].key;
			int64_t at_ms = strtoll(word + 2, &after, 10);
			int count = switches_change(&switches, key, word[1] == '+', at_ms, steps,
						    step_ms);
			tell(told, size, steps, step_ms, count);
		}
		word = after;
	}
}

static void
switches_do_what_the_mapping_says(void **state)
{
	static const struct {
		const char *mapping, *story, *want;
	} rows[] = {
		{"KEY_B", "B+100 B-200 =900", "down@100 next@500"},
		{"KEY_B", "A+100 A-200 =900", ""},
		{"KEY_B.tap:repeat", "B+100 B-200 =900", "down@100 repeat@500"},
		{"KEY_B.tap:nothing", "B+100 B-200 =900", "down@100"},
		{"KEY_B.hold:pause", "B+100 =750 B-800 =900", "down@100 held@700 pause@825"},
		{"KEY_A:strike KEY_B:next KEY_C:repeat", "A+100 A-200 B+300 B-400 C+500 C-600",
		 "down@100 strike@100 down@300 next@300 down@500 repeat@500"},
		/* It acts when it is pressed, however long it is held. */
		{"KEY_A:next", "A+100 =5000 A-6000", "down@100 next@100"},
		/* A bounce is no second press, a quick second press is one. */
		{"KEY_A:next", "A+100 A-110 A+115 A-200", "down@100 next@100"},
		{"KEY_A:next", "A+100 A-150 A+180 A-250", "down@100 next@100 down@180 next@180"},
		{"KEY_A:next", "A+100 A+200 A-300 A-400", "down@100 next@100"},
		/* Two switches with gestures do not disturb each other. */
		{"KEY_A KEY_B", "A+100 B+150 A-200 B-250 =900",
		 "down@100 down@150 next@500 next@550"},
		{"KEY_A:nothing", "A+100 A-200", "down@100"},
	};
	char told[512];
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		live_through(rows[i].mapping, rows[i].story, told, sizeof told);
		if (strcmp(told, rows[i].want) != 0)
			fail_msg("%s, %s: want \"%s\", got \"%s\"", rows[i].mapping, rows[i].story,
				 rows[i].want, told);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_mapping_is_read_and_written_alike),
		cmocka_unit_test(switches_do_what_the_mapping_says),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
