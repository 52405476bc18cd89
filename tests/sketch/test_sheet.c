/* The sheet that shows where each measure is taken. */
#include "garment.h"

static struct vocabulary *vocabulary;
static struct sketch_book *book;
static struct problem problem;

struct bytes {
	char bytes[1 << 20];
	size_t count;
};

static bool
keep(void *to, const void *bytes, size_t count)
{
	struct bytes *kept = to;
	if (count > sizeof kept->bytes - kept->count)
		return false;
	memcpy(kept->bytes + kept->count, bytes, count);
	kept->count += count;
	return true;
}

static bool
keep_nothing(void *to, const void *bytes, size_t count)
{
	return false;
}

static int
begin(void **state)
{
	return !shop_open(&vocabulary, &book);
}

static int
end(void **state)
{
	shop_close(vocabulary, book);
	return 0;
}

static struct bytes *
sheet_of(const struct sketch_book *of)
{
	struct bytes *bytes = calloc(1, sizeof *bytes);
	if (!sketch_sheet(of, vocabulary, "memory", keep, bytes, &problem))
		fail_msg("%s", problem.text);
	return bytes;
}

/* How often the words stand in the bytes, which have zeros among them. */
static int
count_of(const struct bytes *bytes, const char *words)
{
	int count = 0;
	for (size_t i = 0; i + strlen(words) <= bytes->count; i++)
		count += memcmp(bytes->bytes + i, words, strlen(words)) == 0;
	return count;
}

static void
the_sheet_is_a_pdf_on_a4(void **state)
{
	struct bytes *sheet = sheet_of(book);
	assert_int_equal(memcmp(sheet->bytes, "%PDF-", 5), 0);
	/* 210 x 297 mm (ISO 216) are 595.275591 x 841.889764 points of 1/72 in. */
	assert_true(count_of(sheet, "/MediaBox [ 0 0 595.275591 841.889764 ]") >= 1);
	assert_int_equal(count_of(sheet, "%%EOF"), 1);
	free(sheet);
}

static void
the_same_lists_give_the_same_sheet_on_any_day(void **state)
{
	struct bytes *one = sheet_of(book), *other = sheet_of(book);
	assert_int_equal(one->count, other->count);
	assert_memory_equal(one->bytes, other->bytes, one->count);
	assert_int_equal(count_of(one, "/CreationDate ("), 1);
	assert_int_equal(count_of(one, "20000101000000Z)"), 1);
	free(one);
	free(other);
}

static void
kinds_without_a_sketch_are_told_in_words(void **state)
{
	struct sketch_book *none = sketch_book_read("none", "", &problem);
	struct bytes *words = sheet_of(none), *sketches = sheet_of(book);
	assert_true(words->count > 1000);
	assert_true(words->count < sketches->count);
	free(words);
	free(sketches);
	sketch_book_destroy(none);
}

static void
a_place_that_takes_nothing_is_named(void **state)
{
	assert_false(sketch_sheet(book, vocabulary, "the shelf", keep_nothing, NULL, &problem));
	assert_non_null(strstr(problem.text, "the shelf"));
	assert_false(sketch_sheet_file(book, vocabulary, "/no/such/folder/sheet.pdf", &problem));
	assert_non_null(strstr(problem.text, "/no/such/folder/sheet.pdf"));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_sheet_is_a_pdf_on_a4),
		cmocka_unit_test(the_same_lists_give_the_same_sheet_on_any_day),
		cmocka_unit_test(kinds_without_a_sketch_are_told_in_words),
		cmocka_unit_test(a_place_that_takes_nothing_is_named),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
