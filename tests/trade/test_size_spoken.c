/* Sizes as they are said. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "lists.h"
#include "size_spoken.h"

#include <string.h>

static struct vocabulary *vocabulary;

static int
begin(void **state)
{
	vocabulary = lists_read();
	return vocabulary == NULL;
}

static int
end(void **state)
{
	vocabulary_destroy(vocabulary);
	return 0;
}

static void
a_size_is_read_longest_first_and_said_again(void **state)
{
	static const struct {
		const char *said, *first, *second;
		const char *again; /* NULL: as it was said */
	} rows[] = {
		{"medium", "medium", "", NULL},
		{"double extra large", "double extra large", "", NULL},
		{"twelve", "12", "", NULL},
		{"thirty two by thirty", "32x30", "", NULL},
		{"one size", "one size", "1", NULL},
		{"two extra large", "double extra large", "2", "double extra large"},
		{"six years", "6 years", "6", NULL},
		{"one year", "1 years", "1", NULL},
		{"six to seven years", "6 to 7 years", "6", NULL},
		{"eighteen to twenty four months", "18 to 24 months", "18", NULL},
		{"one sixteen centimetres", "116 cm", "116", NULL},
		/* nonsense */
		{"years", "", "", NULL},
		{"to seven years", "", "", NULL},
		{"blue", "", "", NULL},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct words words;
		char name[64] = "", text[128];
		assert_true(words_split(&words, rows[i].said));
		int used = size_read(vocabulary, &words, 0, 0, name, sizeof name);
		assert_string_equal(name, rows[i].first);
		assert_int_equal(used, name[0] == '\0' ? 0 : words.count);
		if (used == 0)
			continue;
		size_say(name, text, sizeof text);
		assert_string_equal(text, rows[i].again != NULL ? rows[i].again : rows[i].said);
		name[0] = '\0';
		size_read(vocabulary, &words, 0, 1, name, sizeof name);
		assert_string_equal(name, rows[i].second);
		assert_int_equal(size_read(vocabulary, &words, 0, 2, name, sizeof name), 0);
	}
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_size_is_read_longest_first_and_said_again),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
