/* What is said is cut where a speaker would breathe, and never within a word or a number. */
#include "clause.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static void
clauses(const char *text, char *told, size_t size)
{
	told[0] = '\0';
	for (size_t length; (length = clause_length(text)) > 0; text += length) {
		size_t at = strlen(told);
		snprintf(told + at, size - at, "%.*s|%d|", (int)length, text,
			 clause_pause_ms(text, length));
	}
}

static void
text_is_cut_where_one_would_breathe(void **state)
{
	static const struct {
		const char *text, *want;
	} rows[] = {
		{"chest twenty one", "chest twenty one|0|"},
		{"item four eighty two, a wool coat. Next?",
		 "item four eighty two, |100|a wool coat. |180|Next?|0|"},
		{"chest, twenty one inches, taken", "chest, twenty one inches, |100|taken|0|"},
		{"the chest is 21.5 wide", "the chest is 21.5 wide|0|"},
		{"at 12:30 o'clock: the end", "at 12:30 o'clock: |120|the end|0|"},
		{"thirteen,thirty", "thirteen,thirty|0|"},
		{"a word and more,   blanks", "a word and more,   |100|blanks|0|"},
		{"", ""},
		{"   ", "   |0|"},
		{", . ; !", ", . ; !|0|"},
	};
	char told[512];
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		clauses(rows[i].text, told, sizeof told);
		assert_string_equal(told, rows[i].want);
	}
}

static void
what_is_long_is_cut_between_words(void **state)
{
	const char *text =
		"one two three four five six seven eight nine ten eleven twelve thirteen "
		"fourteen fifteen sixteen seventeen eighteen nineteen twenty";
	size_t length = clause_length(text);
	assert_in_range(length, 60, CLAUSE_MAX + 1);
	assert_int_equal(text[length - 1], ' ');
	assert_int_equal(clause_pause_ms(text, length), 0);
}

static void
a_word_without_end_stays_whole(void **state)
{
	char word[500];
	memset(word, 'a', sizeof word - 1);
	word[sizeof word - 1] = '\0';
	assert_int_equal(clause_length(word), sizeof word - 1);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(text_is_cut_where_one_would_breathe),
		cmocka_unit_test(what_is_long_is_cut_between_words),
		cmocka_unit_test(a_word_without_end_stays_whole),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
