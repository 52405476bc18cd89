#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "number.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

struct row {
	const char *text;
	int used, value;
};

typedef int reader(const struct words *words, int at, int *value);

static void
check(reader *read, const struct row *rows, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct words words;
		int value = -1;
		assert_true(words_split(&words, rows[i].text));
		int used = read(&words, 0, &value);
		if (used != rows[i].used || (used > 0 && value != rows[i].value))
			fail_msg("\"%s\": used %d, value %d", rows[i].text, used, value);
		if (used == 0)
			assert_int_equal(value, -1);
	}
}

static void
digits_are_one_word(void **state)
{
	static const struct {
		const char *text;
		bool oh_too;
		int used, value;
	} CASES[] = {
		{"zero", false, 1, 0}, {"nought", false, 1, 0}, {"nine", false, 1, 9},
		{"oh", true, 1, 0},    {"one", true, 1, 1},	{"oh", false, 0, 0},
		{"ten", true, 0, 0},   {"o", true, 0, 0},	{"nines", true, 0, 0},
		{"", true, 0, 0},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct words words;
		int value = 0;
		assert_true(words_split(&words, CASES[i].text));
		assert_int_equal(number_digit(&words, 0, CASES[i].oh_too, &value), CASES[i].used);
		assert_int_equal(value, CASES[i].value);
	}
}

static void
below_a_hundred_a_ten_takes_its_unit(void **state)
{
	static const struct row ROWS[] = {
		{"seven", 1, 7},
		{"thirteen", 1, 13},
		{"thirty", 1, 30},
		{"twenty one", 2, 21},
		{"Twenty-One", 2, 21},
		{"ninety nine", 2, 99},
		{"nought", 1, 0},
		{"twenty zero", 1, 20},
		{"twenty oh", 1, 20},
		{"twenty ten", 1, 20},
		{"nineteen one", 1, 19},
		{"", 0, 0},
		{"oh", 0, 0},
		{"a", 0, 0},
		{"hundred", 0, 0},
		{"and one", 0, 0},
		{"twentyone", 0, 0},
	};
	check(number_below_hundred, ROWS, COUNT(ROWS));
}

static void
a_cardinal_takes_hundreds_thousands_and_and(void **state)
{
	static const struct row ROWS[] = {
		{"a hundred", 2, 100},
		{"hundred", 1, 100},
		{"a hundred and four", 4, 104},
		{"one hundred four", 3, 104},
		{"one hundred and one", 4, 101},
		{"nine hundred ninety nine", 4, 999},
		{"twelve hundred", 2, 1200},
		{"nineteen hundred and five", 4, 1905},
		{"twenty seven hundred", 3, 2700},
		{"a thousand", 2, 1000},
		{"two thousand five", 3, 2005},
		{"two thousand and five", 4, 2005},
		{"one thousand a hundred", 4, 1100},
		{"nine thousand nine hundred ninety nine", 6, 9999},
		{"zero", 1, 0},
		{"seventy", 1, 70},
		/* what comes after belongs to something else */
		{"a hundred and", 2, 100},
		{"a hundred and a half", 2, 100},
		{"one hundred zero", 2, 100},
		{"twenty one and", 2, 21},
		{"four eighty two", 1, 4},
		{"one thousand twelve hundred", 3, 1012},
		/* no cardinals, or past 9999 */
		{"a", 0, 0},
		{"and four", 0, 0},
		{"oh", 0, 0},
		{"point five", 0, 0},
		{"half", 0, 0},
		{"ten thousand", 0, 0},
		{"a million", 0, 0},
		{"", 0, 0},
	};
	check(number_cardinal, ROWS, COUNT(ROWS));
}

static void
an_amount_goes_on_to_millions(void **state)
{
	static const struct row ROWS[] = {
		{"twelve thousand five hundred", 4, 12500},
		{"a hundred and fifty thousand", 5, 150000},
		{"two million", 2, 2000000},
		{"one million two hundred thousand and six", 7, 1200006},
		{"a million and a half", 2, 1000000},
		{"twelve hundred thousand", 2, 1200}, /* and the caller sees that it goes on */
		{"zero thousand", 1, 0},
		{"a", 0, 0},
		{"dollars", 0, 0},
	};
	check(number_amount, ROWS, COUNT(ROWS));
}

static void
one_can_tell_whether_a_number_goes_on(void **state)
{
	static const struct {
		const char *text;
		bool goes_on;
	} CASES[] = {
		{"one", true},	    {"oh", true},     {"hundred", true},   {"thousand", true},
		{"million", true},  {"zero", true},   {"a hundred", true}, {"a", false},
		{"and one", false}, {"", false},      {"half", false},	   {"inches", false},
		{"no", false},	    {"first", false},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct words words;
		assert_true(words_split(&words, CASES[i].text));
		assert_int_equal(number_goes_on(&words, 0), CASES[i].goes_on);
	}
}

static void
numbers_are_said_without_and(void **state)
{
	static const struct {
		int value;
		const char *text;
	} CASES[] = {
		{0, "zero"},
		{13, "thirteen"},
		{30, "thirty"},
		{21, "twenty one"},
		{104, "one hundred four"},
		{1200, "one thousand two hundred"},
		{9999, "nine thousand nine hundred ninety nine"},
		{150000, "one hundred fifty thousand"},
		{-1, ""},
		{1000000000, ""},
	};
	char text[128];
	for (size_t i = 0; i < COUNT(CASES); i++) {
		number_say(CASES[i].value, text, sizeof text);
		assert_string_equal(text, CASES[i].text);
	}
}

static void
what_is_said_is_read_back(void **state)
{
	struct words words;
	char text[128];
	int value;
	for (int number = 0; number <= 9999; number++) {
		number_say(number, text, sizeof text);
		assert_true(words_split(&words, text));
		assert_int_equal(number_cardinal(&words, 0, &value), words.count);
		assert_int_equal(value, number);
	}
	for (int number = 10000; number <= 999999999 - 77777; number += 77777) {
		number_say(number, text, sizeof text);
		assert_true(words_split(&words, text));
		assert_int_equal(number_amount(&words, 0, &value), words.count);
		assert_int_equal(value, number);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(digits_are_one_word),
		cmocka_unit_test(below_a_hundred_a_ten_takes_its_unit),
		cmocka_unit_test(a_cardinal_takes_hundreds_thousands_and_and),
		cmocka_unit_test(an_amount_goes_on_to_millions),
		cmocka_unit_test(one_can_tell_whether_a_number_goes_on),
		cmocka_unit_test(numbers_are_said_without_and),
		cmocka_unit_test(what_is_said_is_read_back),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
