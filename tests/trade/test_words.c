#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "words.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static void
text_is_cut_at_blanks_hyphens_and_commas(void **state)
{
	static const struct {
		const char *text;
		int count;
		const char *last;
	} CASES[] = {
		{"chest", 1, "chest"},
		{"chest twenty one", 3, "one"},
		{"  Chest\tTwenty-One\n", 3, "one"},
		{"two thousand, five", 3, "five"},
		{"NOUGHT", 1, "nought"},
		{"side, left-hand", 3, "hand"},
		{"", 0, NULL},
		{" \t ", 0, NULL},
		{"-", 0, NULL},
		{", - ,", 0, NULL},
		{"caf\xc3\x89", 1, "caf\xc3\x89"}, /* only ASCII has a lower case here */
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct words words;
		assert_true(words_split(&words, CASES[i].text));
		assert_int_equal(words.count, CASES[i].count);
		if (CASES[i].last != NULL)
			assert_true(words_is(&words, words.count - 1, CASES[i].last));
	}
}

static void
too_long_a_text_has_no_words(void **state)
{
	struct words words;
	char text[2 * WORDS_TEXT_MAX];

	memset(text, 'a', sizeof text);
	text[WORDS_TEXT_MAX] = '\0';
	assert_false(words_split(&words, text));
	assert_int_equal(words.count, 0);
	text[WORDS_TEXT_MAX - 1] = '\0';
	assert_true(words_split(&words, text));
	assert_int_equal(words.count, 1);

	for (int i = 0; i <= WORDS_MAX; i++)
		memcpy(text + 2 * (size_t)i, "a ", 3);
	assert_false(words_split(&words, text));
	assert_int_equal(words.count, 0);
	text[2 * WORDS_MAX] = '\0';
	assert_true(words_split(&words, text));
	assert_int_equal(words.count, WORDS_MAX);
}

static void
a_phrase_matches_word_by_word(void **state)
{
	static const struct {
		int at;
		const char *phrase;
		int used;
	} CASES[] = {
		{0, "read it all", 3}, {1, "it", 1},
		{2, "all", 1},	       {0, "read", 1},
		{0, "read it al", 0},  {0, "read it all of", 0},
		{1, "read", 0},	       {3, "all", 0},
		{-1, "read", 0},       {0, "", 0},
		{0, "rea", 0},
	};
	struct words words;
	assert_true(words_split(&words, "read it all"));
	for (size_t i = 0; i < COUNT(CASES); i++)
		assert_int_equal(words_match(&words, CASES[i].at, CASES[i].phrase), CASES[i].used);
}

static void
there_is_no_word_past_the_ends(void **state)
{
	struct words words;
	assert_true(words_split(&words, "next"));
	assert_true(words_is(&words, 0, "next"));
	assert_false(words_is(&words, 1, "next"));
	assert_false(words_is(&words, -1, "next"));
	assert_false(words_is(&words, 0, "nex"));
}

static void
appended_words_have_one_space_between_and_never_overflow(void **state)
{
	char text[12] = "";
	words_append(text, sizeof text, "");
	assert_string_equal(text, "");
	words_append(text, sizeof text, "twenty");
	words_append(text, sizeof text, "");
	words_append(text, sizeof text, "one");
	assert_string_equal(text, "twenty one");
	words_append(text, sizeof text, "and");
	words_append(text, sizeof text, "more");
	assert_int_equal(strlen(text), sizeof text - 1);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(text_is_cut_at_blanks_hyphens_and_commas),
		cmocka_unit_test(too_long_a_text_has_no_words),
		cmocka_unit_test(a_phrase_matches_word_by_word),
		cmocka_unit_test(there_is_no_word_past_the_ends),
		cmocka_unit_test(appended_words_have_one_space_between_and_never_overflow),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
