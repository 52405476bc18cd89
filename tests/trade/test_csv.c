#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "csv.h"

#include <stdio.h>
#include <string.h>

static void
cell_is_written(const char *cell, const char *expected)
{
	struct csv_rows rows = {.cells = 0};
	csv_add_text(&rows, cell);
	assert_string_equal(text_chars(&rows.text), expected);
	text_finish(&rows.text);
}

/* RFC 4180, section 2, and the two check values "'=1+1" and "24"" waist". */
static void
cells_of_text_are_quoted_where_they_must_be(void **state)
{
	static const struct {
		const char *cell, *written;
	} cases[] = {
		{"", ""},
		{"shirt", "shirt"},
		{"two words ", "two words "},
		{"21 1/2", "21 1/2"},
		{"cotton, linen", "\"cotton, linen\""},
		{"24\" waist", "\"24\"\" waist\""},
		{"\"", "\"\"\"\""},
		{"two\nlines", "\"two\nlines\""},
		{"two\r\nlines", "\"two\r\nlines\""},
		{"Orlscombe & Daughters", "Orlscombe & Daughters"},
		{"a=1", "a=1"},
		{"e-mail", "e-mail"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		cell_is_written(cases[i].cell, cases[i].written);
}

/* CWE-1236; symfony's advisory CVE-2021-41270. */
static void
no_cell_of_text_is_a_formula(void **state)
{
	static const struct {
		const char *cell, *written;
	} cases[] = {
		{"=1+1", "\"'=1+1\""},
		{"+1", "\"'+1\""},
		{"-3", "\"'-3\""},
		{"@SUM(A1)", "\"'@SUM(A1)\""},
		{"\tx", "\"'\tx\""},
		{"\rx", "\"'\rx\""},
		{"  =1", "\"'  =1\""},
		{" \xC2\xA0=1", "\"' \xC2\xA0=1\""},
		{"\xEF\xBC\x9D"
		 "1",
		 "\"'\xEF\xBC\x9D"
		 "1\""},
		{"fine\n=1", "\"'fine\n=1\""},
		{"'", "\"''\""},
		{"'tis", "\"''tis\""},
		{"=\"x\"", "\"'=\"\"x\"\"\""},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		cell_is_written(cases[i].cell, cases[i].written);
}

static void
a_number_may_be_negative_but_only_a_number(void **state)
{
	struct csv_rows rows = {.cells = 0};
	static const char *const cells[] = {"-3", "14.69", "546100", "-3-3", "-", "", "1.", "1e5"};
	for (size_t i = 0; i < sizeof cells / sizeof *cells; i++)
		csv_add_number(&rows, cells[i]);
	csv_end_row(&rows);
	assert_string_equal(text_chars(&rows.text), "-3,14.69,546100,\"'-3-3\",\"'-\",,1.,1e5\r\n");
	text_finish(&rows.text);
}

static void
rows_end_in_carriage_return_and_line_feed(void **state)
{
	struct csv_rows rows = {.cells = 0};
	csv_add_text(&rows, "number");
	csv_add_text(&rows, "bin");
	csv_end_row(&rows);
	csv_add_text(&rows, "1307");
	csv_add_text(&rows, "");
	csv_end_row(&rows);
	assert_string_equal(text_chars(&rows.text), "number,bin\r\n1307,\r\n");
	text_finish(&rows.text);
}

/* All rows of a text as "cell|cell/cell|cell/", fed in pieces of `step` bytes. */
static enum csv_result
read_all(const char *bytes, size_t count, size_t step, char *all, size_t size,
	 struct csv_reader *reader)
{
	size_t at = 0;
	enum csv_result result = CSV_MORE;

	csv_reader_start(reader);
	all[0] = '\0';
	while (result != CSV_WRONG && (at < count || result == CSV_ROW)) {
		size_t used = 0;
		size_t some = count - at < step ? count - at : step;
		result = at < count ? csv_read(reader, bytes + at, some, &used) : CSV_MORE;
		at += used;
		if (result == CSV_MORE && at == count)
			result = csv_read_end(reader);
		if (result == CSV_MORE && at == count)
			break;
		for (int i = 0; result == CSV_ROW && i < reader->count; i++) {
			size_t length = strlen(all);
			snprintf(all + length, size - length, "%s%s", i > 0 ? "|" : "",
				 csv_cell(reader, i));
		}
		if (result == CSV_ROW && strlen(all) + 2 < size)
			strcat(all, "/");
	}
	return result;
}

static void
rows_are_read_however_their_bytes_come(void **state)
{
	static const struct {
		const char *text, *rows;
	} cases[] = {
		{"", ""},
		{"a", "a/"},
		{"a\r\n", "a/"},
		{"a,b\r\nc,d\r\n", "a|b/c|d/"},
		{"a,b\nc,d", "a|b/c|d/"},
		{"a,\r\n,b\r\n", "a|/|b/"},
		{"a\r\n\r\nb", "a//b/"},
		{"\"a,b\",\"c\"\"d\"\r\n", "a,b|c\"d/"},
		{"\"two\r\nlines\",x\r\n", "two\r\nlines|x/"},
		{"\"\",\"\"", "|/"},
		{" a , b ", " a | b /"},
		{"\"'=1+1\",'-3,''tis", "=1+1|-3|'tis/"},
		{"\xEF\xBB\xBFnumber,bin\r\n1,2\r\n", "number|bin/1|2/"},
		{"\xEF\xBB\xBF\"number\",bin", "number|bin/"},
		{"a,", "a|/"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		for (size_t step = 1; step <= 7; step += 2) {
			struct csv_reader reader;
			char all[256];
			enum csv_result result = read_all(cases[i].text, strlen(cases[i].text),
							  step, all, sizeof all, &reader);
			assert_int_not_equal(result, CSV_WRONG);
			assert_string_equal(all, cases[i].rows);
			csv_reader_finish(&reader);
		}
	}
}

static void
what_is_no_csv_is_refused_with_its_line(void **state)
{
	static const struct {
		const char *text;
		size_t count; /* 0: to the zero */
		int line;
		const char *says;
	} cases[] = {
		{"a,b\r\nc,d\"e\"\r\n", 0, 2, "a quote stands inside"},
		{"a\r\nb\r\n \"c\"\r\n", 0, 3, "a quote stands inside"},
		{"\"a\"b\r\n", 0, 1, "something follows the quote"},
		{"a\r\n\"b", 0, 2, "never closed"},
		{"\"a\nb\nc\"\n\"d", 0, 4, "never closed"},
		{"a\rb", 0, 1, "carriage return stands alone"},
		{"a\0b", 3, 1, "zero byte"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct csv_reader reader;
		char all[256];
		size_t count = cases[i].count > 0 ? cases[i].count : strlen(cases[i].text);
		assert_int_equal(read_all(cases[i].text, count, 3, all, sizeof all, &reader),
				 CSV_WRONG);
		assert_int_equal(reader.line, cases[i].line);
		if (strstr(reader.wrong, cases[i].says) == NULL)
			fail_msg("\"%s\" does not say \"%s\"", reader.wrong, cases[i].says);
		/* And nothing is read after it. */
		size_t used = 9;
		assert_int_equal(csv_read(&reader, "x,y\r\n", 5, &used), CSV_WRONG);
		assert_int_equal(used, 0);
		csv_reader_finish(&reader);
	}
}

static void
a_row_without_end_is_refused(void **state)
{
	char many[4096], commas[1024];
	struct csv_reader reader;
	enum csv_result result = CSV_MORE;
	size_t used;

	memset(many, 'x', sizeof many);
	memset(commas, ',', sizeof commas);
	csv_reader_start(&reader);
	for (int i = 0; i < 2 * CSV_ROW_MAX / (int)sizeof many && result == CSV_MORE; i++)
		result = csv_read(&reader, many, sizeof many, &used);
	assert_int_equal(result, CSV_WRONG);
	csv_reader_finish(&reader);

	csv_reader_start(&reader);
	assert_int_equal(csv_read(&reader, commas, sizeof commas, &used), CSV_WRONG);
	assert_non_null(strstr(reader.wrong, "too many cells"));
	csv_reader_finish(&reader);
}

/* Any text at all comes back as it was; random texts of the letters that matter. */
static void
what_is_written_is_read_back(void **state)
{
	static const char letters[] = "'\"=+-@,\r\n\t ;a1\xC2\xA0";
	uint32_t random = 20261125;

	for (int round = 0; round < 4000; round++) {
		char cells[3][12];
		struct csv_rows rows = {.cells = 0};
		struct csv_reader reader;
		size_t used;
		for (int i = 0; i < 3; i++) {
			size_t length;
			for (length = 0; length < sizeof cells[i] - 1; length++) {
				random = random * 1664525u + 1013904223u;
				if (random >> 29 == 0)
					break;
				cells[i][length] = letters[(random >> 16) % (sizeof letters - 1)];
			}
			cells[i][length] = '\0';
			csv_add_text(&rows, cells[i]);
		}
		csv_end_row(&rows);
		csv_reader_start(&reader);
		assert_int_equal(csv_read(&reader, rows.text.chars, rows.text.length, &used),
				 CSV_ROW);
		assert_int_equal(used, rows.text.length);
		assert_int_equal(reader.count, 3);
		for (int i = 0; i < 3; i++)
			assert_string_equal(csv_cell(&reader, i), cells[i]);
		csv_reader_finish(&reader);
		text_finish(&rows.text);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(cells_of_text_are_quoted_where_they_must_be),
		cmocka_unit_test(no_cell_of_text_is_a_formula),
		cmocka_unit_test(a_number_may_be_negative_but_only_a_number),
		cmocka_unit_test(rows_end_in_carriage_return_and_line_feed),
		cmocka_unit_test(rows_are_read_however_their_bytes_come),
		cmocka_unit_test(what_is_no_csv_is_refused_with_its_line),
		cmocka_unit_test(a_row_without_end_is_refused),
		cmocka_unit_test(what_is_written_is_read_back),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
