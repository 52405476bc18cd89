/* What cairo writes, made fit to stand in a page. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "svg.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static struct text
finished(const char *svg, const char *title, const char *description)
{
	struct text text = {0};
	svg_finish(svg, strlen(svg), title, description, &text);
	assert_false(text.failed);
	return text;
}

static void
words_come_first_and_the_picture_is_an_image(void **state)
{
	struct text text = finished("<?xml?>\n<svg width=\"1\">\n<g/>\n</svg>\n", "blazer",
				    "Measures: chest 20 in.");
	assert_string_equal(text_chars(&text), "<?xml?>\n<svg width=\"1\" role=\"img\">\n"
					       "<title>blazer</title>\n"
					       "<desc>Measures: chest 20 in.</desc>\n"
					       "\n<g/>\n</svg>\n");
	text_finish(&text);
	text = finished("<svg >\n</svg>", "blazer", "");
	assert_string_equal(text_chars(&text),
			    "<svg  role=\"img\">\n<title>blazer</title>\n\n</svg>");
	text_finish(&text);
}

static void
words_cannot_break_the_picture(void **state)
{
	static const struct {
		const char *said, *written;
	} ROWS[] = {
		{"plain", "<title>plain</title>"},
		{"a & b", "<title>a &amp; b</title>"},
		{"</title><script>", "<title>&lt;/title&gt;&lt;script&gt;</title>"},
		{"]]>", "<title>]]&gt;</title>"},
		{"bell\x07 and escape\x1b", "<title>bell and escape</title>"},
		{"caf\xc3\xa9", "<title>caf\xc3\xa9</title>"},
		{"id=\"x\" href=\"#x\"", "<title>id=\"x\" href=\"#x\"</title>"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct text text = finished("<svg ></svg>", ROWS[i].said, "");
		if (strstr(text_chars(&text), ROWS[i].written) == NULL)
			fail_msg("%s", text_chars(&text));
		text_finish(&text);
	}
}

static void
ids_and_what_refers_to_them_get_the_same_prefix(void **state)
{
	struct text text = finished("<svg ><g id=\"glyph0-1\"/><use xlink:href=\"#glyph0-1\"/>"
				    "<g clip-path=\"url(#clip1)\"/></svg>",
				    "t", "");
	const char *whole = text_chars(&text), *id = strstr(whole, " id=\"");
	char prefix[16] = "", expected[64];
	assert_non_null(id);
	memcpy(prefix, id + 5, 10);
	snprintf(expected, sizeof expected, " id=\"%sglyph0-1\"", prefix);
	assert_non_null(strstr(whole, expected));
	snprintf(expected, sizeof expected, "href=\"#%sglyph0-1\"", prefix);
	assert_non_null(strstr(whole, expected));
	snprintf(expected, sizeof expected, "url(#%sclip1)", prefix);
	assert_non_null(strstr(whole, expected));
	text_finish(&text);
}

static void
the_number_of_the_surface_does_not_count(void **state)
{
	struct text one = finished("<svg ><g id=\"surface1\"/></svg>", "t", "");
	struct text other = finished("<svg ><g id=\"surface2047\"/></svg>", "t", "");
	struct text another = finished("<svg ><g id=\"surface1\"/><g/></svg>", "t", "");
	assert_string_equal(text_chars(&one), text_chars(&other));
	assert_non_null(strstr(text_chars(&one), "-surface\"/></svg>"));
	/* Another picture has other ids. */
	assert_null(strstr(text_chars(&another), strstr(text_chars(&one), "<g id=\"")));
	text_finish(&one);
	text_finish(&other);
	text_finish(&another);
}

static void
what_is_cut_short_is_passed_on(void **state)
{
	static const char *const rows[] = {"", "<sv", "<svg ", "<svg id=\"surface",
					   "<svg ><g id=\""};
	for (size_t i = 0; i < COUNT(rows); i++) {
		struct text text = finished(rows[i], "t", "d");
		assert_int_equal(strncmp(text_chars(&text), rows[i], strlen(rows[i]) > 5 ? 5 : 0),
				 0);
		text_finish(&text);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(words_come_first_and_the_picture_is_an_image),
		cmocka_unit_test(words_cannot_break_the_picture),
		cmocka_unit_test(ids_and_what_refers_to_them_get_the_same_prefix),
		cmocka_unit_test(the_number_of_the_surface_does_not_count),
		cmocka_unit_test(what_is_cut_short_is_passed_on),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
