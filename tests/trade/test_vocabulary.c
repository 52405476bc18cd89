#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "lists.h"
#include "vocabulary.h"

#include <string.h>

static int
make(void **state)
{
	*state = vocabulary_create();
	return *state == NULL;
}

static int
drop(void **state)
{
	vocabulary_destroy(*state);
	return 0;
}

static void
a_line_is_a_term_and_comments_and_blank_lines_are_none(void **state)
{
	struct vocabulary *v = *state;
	struct problem problem = {""};
	assert_true(
		vocabulary_read(v, LIST_FLAW, "f",
				"# flaws\n\n hole \r\n  loose \t thread | pulled  thread, thread"
				" # seen often\ntear|",
				&problem));
	assert_int_equal(vocabulary_count(v, LIST_FLAW), 3);
	assert_string_equal(vocabulary_term(v, LIST_FLAW, 0)->name, "hole");
	const struct term *thread = vocabulary_term(v, LIST_FLAW, 1);
	assert_string_equal(thread->name, "loose thread");
	assert_int_equal(thread->also_count, 2);
	assert_string_equal(thread->also[0], "pulled thread");
	assert_string_equal(thread->also[1], "thread");
	assert_int_equal(vocabulary_find(v, LIST_FLAW, "tear"), 2);
	assert_int_equal(vocabulary_find(v, LIST_FLAW, "thread"), -1);
	assert_int_equal(vocabulary_find(v, LIST_PART, "hole"), -1);
}

static void
a_kind_calls_for_measures_of_the_list(void **state)
{
	struct vocabulary *v = *state;
	assert_true(vocabulary_read(v, LIST_MEASURE, "m",
				    "chest||flat\nlength||straight\ncollar||round", NULL));
	assert_true(vocabulary_read(v, LIST_KIND, "k", "shirt | | length, chest | collar", NULL));
	const struct term *shirt = vocabulary_term(v, LIST_KIND, 0);
	assert_int_equal(shirt->wanted_count, 2);
	assert_int_equal(shirt->wanted[0], 1);
	assert_int_equal(shirt->wanted[1], 0);
	assert_int_equal(shirt->helpful_count, 1);
	assert_int_equal(shirt->helpful[0], 2);
	assert_true(vocabulary_term(v, LIST_MEASURE, 0)->flat);
	assert_false(vocabulary_term(v, LIST_MEASURE, 1)->flat);
	assert_false(vocabulary_term(v, LIST_MEASURE, 2)->flat);
}

static void
bad_tables_are_refused_with_file_and_line_and_add_nothing(void **state)
{
	static const struct {
		enum list list;
		const char *text, *said;
	} rows[] = {
		{LIST_FLAW, "hole\n| rip\n", "f, line 2: a name is empty"},
		{LIST_FLAW, "hole | a,,b\n", "f, line 1: a name is empty"},
		{LIST_FLAW, "Hole\n", "f, line 1: \"Hole\" has to be written as it is said"},
		{LIST_FLAW, "x 9\n", "f, line 1: \"x 9\" has to be written"},
		{LIST_FLAW, "caf\xc3\xa9\n", "f, line 1: \"caf"},
		{LIST_FLAW, "hole\n\nhole\n", "f, line 3: \"hole\" is given twice"},
		{LIST_FLAW, "tear | rip\nrip\n", "f, line 2: \"rip\" is given twice"},
		{LIST_FLAW, "tear | rip, rip\n", "f, line 1: \"rip\" is given twice"},
		{LIST_FLAW, "tear | tear\n", "f, line 1: \"tear\" is given twice"},
		{LIST_PART, "tear | rip | flat\n", "f, line 1: more than 2 columns"},
		{LIST_FLAW, "other\n", "f, line 1: \"other\" means something of its own"},
		{LIST_MAKER, "mill | none\n", "f, line 1: \"none\" means something of its own"},
		{LIST_FLAW, "a | b,c,d,e,f,g,h,i,j\n", "f, line 1: more than 8 other ways"},
		{LIST_FIBRE, "a fibre of a very long name\n", "is longer than 23 letters"},
		{LIST_MEASURE, "chest\n", "f, line 1: how \"chest\" is measured"},
		{LIST_MEASURE, "chest || wide\n", "f, line 1: how \"chest\" is measured"},
		{LIST_COLOUR, "red || loud\n", "f, line 1: \"loud\" has to be a shade"},
		{LIST_KIND, "shirt || chest\n", "f, line 1: there is no measure \"chest\""},
		{LIST_KIND, "shirt || ,\n", "f, line 1: there is no measure \"\""},
		{LIST_BIN, "4-82\n", "f, line 1: \"4-82\" has to be written"},
		{LIST_FLAW, "/0/ hole\n", "f, line 1: \"/0/ hole\" has to begin with a number"},
		{LIST_FLAW, "/0.2 hole\n", "f, line 1: \"/0.2 hole\" has to begin"},
		{LIST_FLAW, "/rare/ hole\n", "f, line 1: \"/rare/ hole\" has to begin"},
		{LIST_FLAW, "/-1/ hole\n", "f, line 1: \"/-1/ hole\" has to begin"},
		{LIST_FLAW, "/0.2/\n", "f, line 1: a name is empty"},
		{LIST_FLAW, "hole | /0.2/ rip\n", "f, line 1: \"/0.2/ rip\" has to be written"},
	};
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct problem problem = {""};
		assert_false(vocabulary_read(*state, rows[i].list, "f", rows[i].text, &problem));
		if (strstr(problem.text, rows[i].said) == NULL)
			fail_msg("want '%s', got '%s'", rows[i].said, problem.text);
		assert_int_equal(vocabulary_count(*state, rows[i].list), 0);
	}
}

static void
a_name_may_say_how_often_it_is_said(void **state)
{
	assert_true(
		vocabulary_read(*state, LIST_FLAW, "f", "hole\n/0.2/ tear | rip\n/3/stain", NULL));
	assert_string_equal(vocabulary_term(*state, LIST_FLAW, 0)->weight, "1");
	assert_string_equal(vocabulary_term(*state, LIST_FLAW, 1)->weight, "0.2");
	assert_string_equal(vocabulary_term(*state, LIST_FLAW, 1)->name, "tear");
	assert_string_equal(vocabulary_term(*state, LIST_FLAW, 2)->weight, "3");
	assert_string_equal(vocabulary_term(*state, LIST_FLAW, 2)->name, "stain");
}

static void
bins_may_have_digits(void **state)
{
	assert_true(vocabulary_read(*state, LIST_BIN, "b", "482\na12 | a twelve\n17", NULL));
	assert_int_equal(vocabulary_find(*state, LIST_BIN, "17"), 2);
}

static void
the_longest_name_that_stands_there_is_matched(void **state)
{
	static const struct {
		const char *words;
		int at, index, used;
	} rows[] = {
		{"collar stand", 0, 1, 2},   {"collar twenty", 0, 0, 1},
		{"stained collar", 1, 0, 1}, {"shirt tail", 0, 2, 2},
		{"shirt", 0, -1, 0},	     {"collars", 0, -1, 0},
		{"collar", 1, -1, 0},	     {"", 0, -1, 0},
	};
	assert_true(vocabulary_read(*state, LIST_PART, "p",
				    "collar\ncollar stand\nhem | shirt tail, edge", NULL));
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct words words;
		int used = -1;
		assert_true(words_split(&words, rows[i].words));
		assert_int_equal(vocabulary_match(*state, LIST_PART, &words, rows[i].at, &used),
				 rows[i].index);
		assert_int_equal(used, rows[i].used);
	}
}

static void
a_list_may_be_read_from_two_tables_and_terms_stay_where_they_are(void **state)
{
	struct vocabulary *v = *state;
	assert_true(vocabulary_read(v, LIST_MAKER, "shipped", "marlock\n", NULL));
	const struct term *marlock = vocabulary_term(v, LIST_MAKER, 0);
	char many[4096] = "";
	for (int i = 0; i < 26 * 10; i++)
		sprintf(many + strlen(many), "m%c %c\n", 'a' + i / 10, 'a' + i % 10);
	assert_true(vocabulary_read(v, LIST_MAKER, "user's", many, NULL));
	assert_int_equal(vocabulary_count(v, LIST_MAKER), 261);
	assert_ptr_equal(vocabulary_term(v, LIST_MAKER, 0), marlock);
	assert_string_equal(marlock->name, "marlock");
	assert_false(vocabulary_read(v, LIST_MAKER, "again", "marlock\n", NULL));
}

static void
the_shipped_lists_are_good_and_have_what_the_trade_needs(void **state)
{
	static const struct {
		enum list list;
		const char *name;
	} rows[] = {
		{LIST_KIND, "all in one"},
		{LIST_KIND, "t shirt"},
		{LIST_KIND, "shoes"},
		{LIST_KIND, "tie"},
		{LIST_MEASURE, "leg opening"},
		{LIST_MEASURE, "head round"},
		{LIST_MEASURE, "back rise"},
		{LIST_FLAW, "missing button"},
		{LIST_FLAW, "broken zip"},
		{LIST_FLAW, "odour"},
		{LIST_PART, "placket"},
		{LIST_ROUTE, "return to owner"},
		{LIST_MAKER, "orlscombe and daughters"},
		{LIST_TAG, "double extra large"},
		{LIST_FIBRE, "elastane"},
		{LIST_PARCEL, "padded bag"},
		{LIST_COLOUR, "striped"},
	};
	static const char *const flat[] = {"chest", "waist", "hip", "thigh", "leg opening", "hem"};
	struct vocabulary *v = lists_read();
	(void)state;
	assert_non_null(v);
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
		if (vocabulary_find(v, rows[i].list, rows[i].name) < 0)
			fail_msg("'%s' is not on its list", rows[i].name);
	for (int i = 0; i < vocabulary_count(v, LIST_MEASURE); i++) {
		const struct term *measure = vocabulary_term(v, LIST_MEASURE, i);
		bool in_flat = false;
		for (size_t j = 0; j < sizeof flat / sizeof flat[0]; j++)
			in_flat |= strcmp(flat[j], measure->name) == 0;
		assert_int_equal(measure->flat, in_flat);
	}
	for (int i = 0; i < vocabulary_count(v, LIST_KIND); i++) {
		const struct term *kind = vocabulary_term(v, LIST_KIND, i);
		bool set = strcmp(kind->name, "set") == 0;
		assert_true(set ? kind->wanted_count == 0 : kind->wanted_count >= 1);
	}
	vocabulary_destroy(v);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(
			a_line_is_a_term_and_comments_and_blank_lines_are_none, make, drop),
		cmocka_unit_test_setup_teardown(a_kind_calls_for_measures_of_the_list, make, drop),
		cmocka_unit_test_setup_teardown(
			bad_tables_are_refused_with_file_and_line_and_add_nothing, make, drop),
		cmocka_unit_test_setup_teardown(a_name_may_say_how_often_it_is_said, make, drop),
		cmocka_unit_test_setup_teardown(bins_may_have_digits, make, drop),
		cmocka_unit_test_setup_teardown(the_longest_name_that_stands_there_is_matched, make,
						drop),
		cmocka_unit_test_setup_teardown(
			a_list_may_be_read_from_two_tables_and_terms_stay_where_they_are, make,
			drop),
		cmocka_unit_test(the_shipped_lists_are_good_and_have_what_the_trade_needs),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
