/* Names in the radiotelephony alphabet. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "spelling.h"

#include <stdio.h>
#include <string.h>

/* The words are those of ICAO annex 10, volume II, as two public pages have them (standards.md
 * section 7.1 names them); alfa and juliett are so spelled on purpose. */
static void
each_letter_has_its_word(void **state)
{
	static const struct {
		const char *said, *name;
	} rows[] = {
		{"alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike",
		 "abcdefghijklm"},
		{"november oscar papa quebec romeo sierra tango uniform victor whiskey xray yankee "
		 "zulu",
		 "nopqrstuvwxyz"},
		{"hotel alfa lima", "hal"},
		{"x-ray seven zero", "x70"},
		{"Alpha Juliet Whisky", "ajw"},
		{"hotel hat", "h"},
		/* nonsense */
		{"", ""},
		{"hat", ""},
		{"twenty", ""},
		{"oh", ""},
		{"ray", ""},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct words words;
		char name[64] = "";
		assert_true(words_split(&words, rows[i].said));
		int used = spelling_read(&words, 0, name, sizeof name);
		assert_string_equal(name, rows[i].name);
		assert_int_equal(used > 0, name[0] != '\0');
	}
}

static void
what_is_said_is_read_back(void **state)
{
	char text[512], name[64];
	struct words words;
	spelling_say("quernby 7", text, sizeof text);
	assert_string_equal(text, "quebec uniform echo romeo november bravo yankee seven");
	assert_true(words_split(&words, text));
	assert_int_equal(spelling_read(&words, 0, name, sizeof name), 8);
	assert_string_equal(name, "quernby7");
}

static void
a_name_that_does_not_fit_is_none(void **state)
{
	struct words words;
	char name[4] = "";
	assert_true(words_split(&words, "alfa bravo charlie delta"));
	assert_int_equal(spelling_read(&words, 0, name, sizeof name), 0);
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_letter_has_its_word),
		cmocka_unit_test(what_is_said_is_read_back),
		cmocka_unit_test(a_name_that_does_not_fit_is_none),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
