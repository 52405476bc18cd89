#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "label.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

struct row {
	const char *text;
	int used;
	const char *label;
};

static void
check(bool by_too, const struct row *rows, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct words words;
		char label[LABEL_MAX] = "untouched";
		assert_true(words_split(&words, rows[i].text));
		int used = label_read(&words, 0, by_too, label);
		const char *want = rows[i].used > 0 ? rows[i].label : "untouched";
		if (used != rows[i].used || strcmp(label, want) != 0)
			fail_msg("\"%s\": used %d, label %s", rows[i].text, used, label);
	}
}

static void
groups_are_joined_as_written(void **state)
{
	static const struct row ROWS[] = {
		{"four eighty two", 3, "482"},
		{"four eight two", 3, "482"},
		{"twenty seven fifteen", 3, "2715"},
		{"thirteen oh seven", 3, "1307"},
		{"oh oh four two", 4, "0042"},
		{"nought one", 2, "01"},
		{"seven", 1, "7"},
		{"zero", 1, "0"},
		/* a ten takes the unit after it: 21, never 201 */
		{"twenty one", 2, "21"},
		{"two oh one", 3, "201"},
		{"twenty one five", 3, "215"},
		{"twenty oh one", 3, "2001"},
		{"thirty twelve", 2, "3012"},
		{"fifty fifty five", 3, "5055"},
		{"one two three four five six", 6, "123456"},
		{"four eighty two next", 3, "482"},
		{"seven and", 1, "7"},
	};
	check(false, ROWS, COUNT(ROWS));
}

static void
hundred_and_thousand_build_a_cardinal(void **state)
{
	static const struct row ROWS[] = {
		{"six hundred", 2, "600"},
		{"one thousand five", 3, "1005"},
		{"one hundred and five", 4, "105"},
		{"a hundred", 2, "100"},
		{"twelve hundred", 2, "1200"},
		{"nineteen hundred five", 3, "1905"},
		{"two thousand and twenty six", 5, "2026"},
		{"six hundred and", 2, "600"},
		/* half cardinal, half groups: not guessed */
		{"four eighty two hundred", 0, NULL},
		{"six hundred four eighty two", 0, NULL},
		{"one hundred oh five", 0, NULL},
		{"twenty thousand", 0, NULL},
		{"zero hundred", 0, NULL},
	};
	check(false, ROWS, COUNT(ROWS));
}

static void
a_trouser_size_has_by_in_it(void **state)
{
	static const struct row ROWS[] = {
		{"thirty two by thirty", 4, "32x30"},
		{"thirty two by thirty four", 5, "32x34"},
		{"eight by ten by", 3, "8x10"},
		{"thirty two", 2, "32"},
		{"thirty two by", 2, "32"},
		{"thirty two by hand", 2, "32"},
		{"by thirty", 0, NULL},
	};
	static const struct row WITHOUT[] = {{"thirty two by thirty", 2, "32"}};
	check(true, ROWS, COUNT(ROWS));
	check(false, WITHOUT, COUNT(WITHOUT));
}

static void
other_words_and_too_many_digits_are_no_label(void **state)
{
	static const struct row ROWS[] = {
		{"", 0, NULL},
		{"bin", 0, NULL},
		{"a", 0, NULL},
		{"and four", 0, NULL},
		{"point five", 0, NULL},
		{"one one one one one one one one one one one one "
		 "one one one one one one one one one one one",
		 23, "11111111111111111111111"},
		{"one one one one one one one one one one one one "
		 "one one one one one one one one one one one one",
		 0, NULL},
	};
	static const struct row BY[] = {
		{"one one one one one one one one one one one one by "
		 "one one one one one one one one one one one one",
		 0, NULL},
	};
	check(false, ROWS, COUNT(ROWS));
	check(true, BY, COUNT(BY));
}

static void
labels_are_said_as_people_say_them(void **state)
{
	static const struct {
		const char *label, *text;
	} CASES[] = {
		{"482", "four eighty two"},
		{"2715", "twenty seven fifteen"},
		{"1307", "thirteen oh seven"},
		{"600", "six hundred"},
		{"1300", "thirteen hundred"},
		{"2000", "two thousand"},
		{"2005", "twenty oh five"},
		{"407", "four oh seven"},
		{"7", "seven"},
		{"0", "zero"},
		{"21", "twenty one"},
		{"07", "oh seven"},
		{"0042", "oh oh four two"},
		{"12305", "one two three oh five"},
		{"32x30", "thirty two by thirty"},
		{"one size", "one size"},
		{"x30", "x30"},
		{"32x", "32x"},
		{"B12", "B12"},
		{"", ""},
	};
	char text[256];
	for (size_t i = 0; i < COUNT(CASES); i++) {
		label_say(CASES[i].label, text, sizeof text);
		assert_string_equal(text, CASES[i].text);
	}
}

static void
read_back(const char *label)
{
	struct words words;
	char text[256], again[LABEL_MAX] = "";
	label_say(label, text, sizeof text);
	assert_true(words_split(&words, text));
	assert_int_equal(label_read(&words, 0, true, again), words.count);
	assert_string_equal(again, label);
}

static void
what_is_said_is_read_back(void **state)
{
	char label[LABEL_MAX];
	for (int number = 0; number <= 99999; number++) {
		snprintf(label, sizeof label, "%d", number);
		read_back(label);
	}
	for (int digits = 2; digits <= 6; digits++) {
		for (int number = 0; number < 1000; number++) {
			snprintf(label, sizeof label, "%0*d", digits, number);
			read_back(label);
		}
	}
	for (int waist = 20; waist <= 60; waist++) {
		for (int inseam = 20; inseam <= 40; inseam++) {
			snprintf(label, sizeof label, "%dx%d", waist, inseam);
			read_back(label);
		}
	}
	read_back("12345678901234567890123");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(groups_are_joined_as_written),
		cmocka_unit_test(hundred_and_thousand_build_a_cardinal),
		cmocka_unit_test(a_trouser_size_has_by_in_it),
		cmocka_unit_test(other_words_and_too_many_digits_are_no_label),
		cmocka_unit_test(labels_are_said_as_people_say_them),
		cmocka_unit_test(what_is_said_is_read_back),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
