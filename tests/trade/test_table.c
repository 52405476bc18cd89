/* A plain table of the user's, line by line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "table.h"

/* "line 2: a/b c; line 4: d": all that a table says, or what is wrong with it. */
static const char *
read(const char *text)
{
	static char all[4096];
	struct table table;
	struct problem problem = {""};
	size_t used = 0;
	all[0] = '\0';
	table_start(&table, "t.txt", text, &problem);
	while (table_next(&table)) {
		used += (size_t)snprintf(all + used, sizeof all - used,
					 "%sline %d: ", used > 0 ? "; " : "", table.line);
		for (int i = 0; i < table.count; i++)
			used += (size_t)snprintf(all + used, sizeof all - used, "%s%s",
						 i > 0 ? "/" : "", table.columns[i]);
		for (int i = table.count; i < TABLE_COLUMNS_MAX; i++)
			assert_string_equal(table.columns[i], "");
	}
	return table.failed ? strcpy(all, problem.text) : all;
}

static void
columns_are_tidied_and_comments_left_out(void **state)
{
	static const struct {
		const char *text, *read;
	} ROWS[] = {
		{"", ""},
		{"\n\n  \t\n# nothing\n", ""},
		{"a", "line 1: a"},
		{"a\n", "line 1: a"},
		{"a|b", "line 1: a/b"},
		{"  a \t b |c  \r\n", "line 1: a b/c"},
		{"# one\na | b # why\n\nd", "line 2: a/b; line 4: d"},
		{"a||", "line 1: a//"},
		{"|", "line 1: /"},
		{"1|2|3|4|5|6|7|8", "line 1: 1/2/3/4/5/6/7/8"},
		{"1|2|3|4|5|6|7|8|9", "t.txt, line 1: more than 8 columns parted by |"},
		{"good\n1|2|3|4|5|6|7|8|9\nnever",
		 "t.txt, line 2: more than 8 columns parted by |"},
	};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++)
		assert_string_equal(read(ROWS[i].text), ROWS[i].read);
}

static void
a_line_may_be_long_but_not_endless(void **state)
{
	static char text[2 * TABLE_LINE_MAX];
	memset(text, 'x', TABLE_LINE_MAX - 1);
	assert_int_equal(strlen(read(text)), strlen("line 1: ") + TABLE_LINE_MAX - 1);
	text[TABLE_LINE_MAX - 1] = 'x';
	assert_string_equal(read(text), "t.txt, line 1: longer than 1023 letters");
	text[4] = '#'; /* a comment may be as long as it likes */
	assert_string_equal(read(text), "line 1: xxxx");
}

static void
numbers_are_digits_within_a_limit(void **state)
{
	static const struct {
		const char *text;
		int64_t most, number; /* -1: none */
	} ROWS[] = {
		{"0", 10, 0},
		{"10", 10, 10},
		{"11", 10, -1},
		{"007", 10, 7},
		{"", 10, -1},
		{"-1", 10, -1},
		{"+1", 10, -1},
		{" 1", 10, -1},
		{"1 ", 10, -1},
		{"1.5", 10, -1},
		{"0x1", 10, -1},
		{"9223372036854775807", INT64_MAX, INT64_MAX},
		{"9223372036854775808", INT64_MAX, -1},
		{"99999999999999999999999999", INT64_MAX, -1},
	};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		int64_t number = -1;
		bool good = table_number(ROWS[i].text, ROWS[i].most, &number);
		if (number != ROWS[i].number || good != (number >= 0))
			fail_msg("\"%s\" up to %jd: %jd", ROWS[i].text, (intmax_t)ROWS[i].most,
				 (intmax_t)number);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(columns_are_tidied_and_comments_left_out),
		cmocka_unit_test(a_line_may_be_long_but_not_endless),
		cmocka_unit_test(numbers_are_digits_within_a_limit),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
