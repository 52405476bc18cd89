#include "plain_text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static void
letters_lose_their_marks_and_the_rest_is_space(void **unused)
{
	static const struct {
		const char *text, *plain;
	} rows[] = {
		{"chest twenty one and a half", "chest twenty one and a half"},
		{"thirteen, or thirty?", "thirteen, or thirty?"},
		{"caf\u00e9 ol\u00e9", "cafe ole"},
		{"cafe\u0301", "cafe"},
		{"Stra\u00dfe, \u00c6sir, \u00deor, \u00ff", "Strasse, Aesir, Thor, y"},
		{"the left\u2019s \u2018cuff\u2019", "the left's 'cuff'"},
		{"twenty \u2014 one", "twenty one"},
		{"2 \u00d7 20", "2 20"},
		{"\u20ac 12.50", "12.50"},
		{"  tabs\tand\nlines\r\n ", "tabs and lines"},
		{"\u4e0a\u8863", ""},
		{"\U0001f455 shirt", "shirt"},
		{"", ""},
		{" \t\n", ""},
		/* not UTF-8: a stray byte, a cut character, an overlong zero, past the last one */
		{"a\xff"
		 "b",
		 "a b"},
		{"a\xc3", "a"},
		{"a\xe2\x82", "a"},
		{"\xc0\x80z", "z"},
		{"\xe0\x80\x80z", "z"},
		{"\xf5\x80\x80\x80z", "z"},
		{"\x01\x02\x7f", ""},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		char *plain = plain_text(rows[i].text);
		assert_string_equal(plain, rows[i].plain);
		free(plain);
	}
}

static void
a_word_that_does_not_end_is_cut(void **unused)
{
	char text[10001];
	memset(text, 'a', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	char *plain = plain_text(text);
	assert_int_equal(strlen(plain), 10000 + 10000 / PLAIN_TEXT_WORD_MAX - 1);
	assert_int_equal(strcspn(plain, " "), PLAIN_TEXT_WORD_MAX);
	free(plain);
}

static void
pieces_end_with_a_sentence_or_else_with_a_word(void **unused)
{
	char text[4 * PLAIN_TEXT_PIECE_MAX];
	assert_int_equal(plain_text_piece(""), 0);
	assert_int_equal(plain_text_piece("short. enough."), 14);

	memset(text, 'a', sizeof text);
	text[sizeof text - 1] = '\0';
	assert_int_equal(plain_text_piece(text), PLAIN_TEXT_PIECE_MAX);
	memcpy(text + 200, " b ", 3);
	assert_int_equal(plain_text_piece(text), 203);
	memcpy(text + 100, ". ", 2);
	assert_int_equal(plain_text_piece(text), 102);
}

static void
all_of_a_text_is_in_its_pieces(void **unused)
{
	char text[8000];
	for (size_t i = 0; i < sizeof text; i++)
		text[i] = i % 7 == 6 ? ' ' : i % 97 == 95 ? '.' : 'a';
	text[sizeof text - 1] = '\0';
	char *plain = plain_text(text);
	size_t total = 0, length;
	while ((length = plain_text_piece(plain + total)) > 0) {
		assert_true(length <= PLAIN_TEXT_PIECE_MAX + 1);
		total += length;
	}
	assert_int_equal(total, strlen(plain));
	free(plain);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(letters_lose_their_marks_and_the_rest_is_space),
		cmocka_unit_test(a_word_that_does_not_end_is_cut),
		cmocka_unit_test(pieces_end_with_a_sentence_or_else_with_a_word),
		cmocka_unit_test(all_of_a_text_is_in_its_pieces)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
