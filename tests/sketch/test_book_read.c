/* The table of sketches, as a user may write it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "book.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static struct problem problem;

static struct sketch_book *
read_book(const char *text)
{
	problem.text[0] = '\0';
	return sketch_book_read("mine.txt", text, &problem);
}

static const char KILT[] = "sketch | kilt\n"
			   "edge | M 0 0 L 10 0 L 20 50 L 0 50\n"
			   "seam | M 5 0 L 5 50\n"
			   "stitch once | M 1 1 L 1 9 M 3 1 L 3 9\n"
			   "button | 0 3, 2 5\n"
			   "tape | waist | M -10 0 L 10 0\n"
			   "tape back | length | M 0 0 L 0 50\n"
			   "pair | pocket 6 10\n"
			   "across | hem 12 50, belt loop 4 2\n"
			   "once | fly 1 5\n";

static int
strokes_of(const struct sketch *sketch, enum stroke_type type)
{
	int count = 0;
	for (int i = 0; i < sketch->stroke_count; i++)
		count += sketch->strokes[i].type == type;
	return count;
}

static void
a_sketch_is_read_with_both_its_halves(void **state)
{
	struct sketch_book *book = read_book(KILT);
	assert_non_null(book);
	const struct sketch *kilt = sketch_find(book, "kilt");
	assert_non_null(kilt);
	/* The shape is one, joined; the seam is two; what is there "once" is not mirrored. */
	assert_int_equal(strokes_of(kilt, STROKE_EDGE), 1);
	assert_int_equal(strokes_of(kilt, STROKE_SEAM), 2);
	assert_int_equal(strokes_of(kilt, STROKE_STITCH), 2);
	assert_int_equal(strokes_of(kilt, STROKE_BUTTON), 2);
	assert_true(path_holds(&kilt->strokes[0].path, (struct point){-15, 40}));
	assert_false(tape_find(kilt, "waist")->on_back);
	assert_true(tape_find(kilt, "length")->on_back);
	assert_int_equal(part_find(kilt, "pocket")->way, PART_PAIR);
	assert_int_equal(part_find(kilt, "belt loop")->way, PART_ACROSS);
	assert_int_equal(part_find(kilt, "fly")->way, PART_ONCE);
	assert_null(part_find(kilt, "sleeve"));
	assert_null(sketch_find(book, "skirt"));
	assert_float_equal(sketch_edge_distance(kilt, (struct point){0, 3}), 3, 1e-4);
	sketch_book_destroy(book);
}

static void
a_kind_can_be_drawn_like_another(void **state)
{
	char text[1024];
	snprintf(text, sizeof text, "%s%s", KILT,
		 "sketch | short kilt | kilt\n"
		 "edge | M 0 0 L 10 0 L 14 20 L 0 20\n"
		 "tape back | length | M 0 0 L 0 20\n"
		 "across | hem 9 20\n");
	struct sketch_book *book = read_book(text);
	assert_non_null(book);
	const struct sketch *kilt = sketch_find(book, "kilt");
	const struct sketch *like = sketch_find(book, "short kilt");
	assert_int_equal(strokes_of(like, STROKE_EDGE), 1);
	assert_float_equal(like->strokes[0].path.curves[1].to.y, 20, 1e-4);
	assert_int_equal(strokes_of(like, STROKE_SEAM), 2);
	assert_int_equal(like->tape_count, kilt->tape_count);
	assert_float_equal(path_end(&tape_find(like, "length")->path).y, 20, 1e-4);
	assert_float_equal(path_end(&tape_find(kilt, "length")->path).y, 50, 1e-4);
	assert_int_equal(like->part_count, kilt->part_count);
	assert_float_equal(part_find(like, "hem")->at.y, 20, 1e-4);
	sketch_book_destroy(book);
}

static void
how_a_measure_is_taken_depends_on_the_kind(void **state)
{
	struct sketch_book *book = read_book("how | waist | | along the top\n"
					     "how | waist | coat, dress | at the narrowest\n");
	assert_non_null(book);
	assert_string_equal(sketch_how(book, "waist", "dress"), "at the narrowest");
	assert_string_equal(sketch_how(book, "waist", "coat"), "at the narrowest");
	assert_string_equal(sketch_how(book, "waist", "skirt"), "along the top");
	assert_string_equal(sketch_how(book, "waist", NULL), "along the top");
	assert_string_equal(sketch_how(book, "left waist", "coat"), "at the narrowest");
	assert_null(sketch_how(book, "hip", "coat"));
	sketch_book_destroy(book);
}

static void
a_table_that_is_not_written_so_is_refused_with_its_line(void **state)
{
	static const struct {
		const char *text, *line, *word;
	} ROWS[] = {
		{"scetch | kilt\n", "line 1", "scetch"},
		{"sketch |\n", "line 1", "empty"},
		{"sketch | kilt | skirt\n", "line 1", "no sketch of \"skirt\""},
		{"sketch | kilt\n\nsketch | kilt\n", "line 3", "already"},
		{"sketch | kilt | kilt\n", "line 1", "no sketch of \"kilt\""},
		{"edge | M 0 0 L 1 0\n", "line 1", "before the first"},
		{"sketch | kilt\nedge\n", "line 2", "columns"},
		{"sketch | kilt\nedge |\n", "line 2", "begin with M"},
		{"sketch | kilt\nedge twice | M 0 0 L 1 0\n", "line 2", "edge twice"},
		{"sketch | kilt\nedge | M 0 0 L 1 0 | M 0 0\n", "line 2", "columns"},
		{"sketch | kilt\nseam | M 0 0 L 1 0 M 2\n", "line 2", "begin with M"},
		{"sketch | kilt\nseam once | M 0 0 L 1 0 L\n", "line 2", "something else"},
		{"sketch | kilt\nbutton | 1\n", "line 2", "two numbers"},
		{"sketch | kilt\nbutton back | 1 1\n", "line 2", "button back"},
		{"sketch | kilt\ntape | waist\n", "line 2", "columns"},
		{"sketch | kilt\ntape | | M 0 0 L 1 0\n", "line 2", "empty"},
		{"sketch | kilt\ntape | waist | M 0 0 L 1 0 M 0 0 L 1 0\n", "line 2", "one path"},
		{"sketch | kilt\ntape | a | M 0 0 L 1 0\ntape | a | M 0 0 L 1 0\n", "line 3",
		 "already"},
		{"sketch | kilt\npair | pocket\n", "line 2", "pocket"},
		{"sketch | kilt\npair | pocket 1\n", "line 2", "two numbers"},
		{"sketch | kilt\npair | 1 2\n", "line 2", "empty"},
		{"sketch | kilt\npair | pocket 1 2 3\n", "line 2", "two numbers"},
		{"sketch | kilt\npair | pocket 1 2\nonce | pocket 1 2\n", "line 3", "already"},
		{"sketch | kilt\nonce | a part with a name of far too many letters 1 2\n", "line 2",
		 "longer"},
		{"how | waist | | along\nhow | waist | | across\n", "line 2", "already"},
		{"how | waist | kilt |\n", "line 1", "empty"},
		{"how | | kilt | along\n", "line 1", "empty"},
		{"how | waist | a | b | c\n", "line 1", "columns"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct sketch_book *book = read_book(ROWS[i].text);
		if (book != NULL || strstr(problem.text, "mine.txt, ") == NULL ||
		    strstr(problem.text, ROWS[i].line) == NULL ||
		    strstr(problem.text, ROWS[i].word) == NULL)
			fail_msg("%s: %s", ROWS[i].text, problem.text);
	}
}

static void
an_empty_table_has_no_sketches(void **state)
{
	struct sketch_book *book = read_book("# nothing yet\n\n");
	assert_non_null(book);
	assert_null(sketch_find(book, "kilt"));
	assert_null(sketch_how(book, "waist", "kilt"));
	sketch_book_destroy(book);
	sketch_book_destroy(NULL);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_sketch_is_read_with_both_its_halves),
		cmocka_unit_test(a_kind_can_be_drawn_like_another),
		cmocka_unit_test(how_a_measure_is_taken_depends_on_the_kind),
		cmocka_unit_test(a_table_that_is_not_written_so_is_refused_with_its_line),
		cmocka_unit_test(an_empty_table_has_no_sketches),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
