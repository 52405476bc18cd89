/* Names under a piece of a set. */
#include "dictation.h"

#include "reading_order.h"
#include "set_piece.h"

static struct vocabulary *vocabulary;
static struct record record;

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
a_name_is_parted_into_piece_and_rest(void **state)
{
	static const struct {
		const char *name, *piece, *rest;
	} rows[] = {
		{"jacket chest", "jacket", "chest"},
		{"all in one leg opening", "all in one", "leg opening"},
		{"jacket left sleeve", "jacket", "left sleeve"},
		{"jacket", "jacket", ""},
		{"belt loop", NULL, "belt loop"}, /* a part of its own */
		{"chest", NULL, "chest"},
		{"jackets chest", NULL, "jackets chest"},
		{"left sleeve", NULL, "left sleeve"},
		{"", NULL, ""},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		const char *rest;
		int piece = piece_of(vocabulary, rows[i].name, &rest);
		assert_string_equal(rest, rows[i].rest);
		assert_int_equal(piece,
				 rows[i].piece == NULL
					 ? -1
					 : vocabulary_find(vocabulary, LIST_KIND, rows[i].piece));
	}
	assert_true(kind_is_set(vocabulary, vocabulary_find(vocabulary, LIST_KIND, "set")));
	assert_false(kind_is_set(vocabulary, vocabulary_find(vocabulary, LIST_KIND, "jacket")));
	assert_false(kind_is_set(vocabulary, -1));
}

static void
names_are_joined_where_they_fit(void **state)
{
	char joined[16];
	assert_true(piece_join("jacket", "chest", joined, sizeof joined));
	assert_string_equal(joined, "jacket chest");
	assert_true(piece_join("", "chest", joined, sizeof joined));
	assert_string_equal(joined, "chest");
	assert_false(piece_join("trousers", "leg opening", joined, sizeof joined));
}

static void
what_is_missing_of_a_set_is_missing_of_its_pieces(void **state)
{
	int missing[TERM_MEASURES_MAX];
	struct call part = {.type = CALL_PART, .name = "jacket"};
	struct deed deed;

	dictate_item(&record, vocabulary, "kind set");
	assert_int_equal(record_missing(&record, vocabulary, missing), 0);
	record_add_piece(&record, &part);
	assert_true(record_write(&record, &part, false, &deed));
	strcpy(part.name, "trousers");
	record_add_piece(&record, &part);
	assert_true(record_write(&record, &part, false, &deed));
	assert_string_equal(record_piece(&record), "trousers");
	dictate(&record, vocabulary, "jacket chest twenty jacket shoulder none");
	dictate(&record, vocabulary, "jacket left sleeve twenty four waist ten");
	assert_int_equal(record_missing_of(&record, vocabulary, "jacket", missing), 1);
	assert_int_equal(missing[0], vocabulary_find(vocabulary, LIST_MEASURE, "length"));
	assert_int_equal(record_missing_of(&record, vocabulary, "trousers", missing), 4);
	assert_int_equal(record_missing(&record, vocabulary, missing), 5);
}

static void
readings_of_a_set_stand_piece_by_piece(void **state)
{
	static const char *const order[] = {"jacket chest", "jacket length", "trousers waist",
					    "trousers hip"};
	const struct entry *readings[RECORD_ENTRIES_MAX];
	struct call part = {.type = CALL_PART, .name = "jacket"};
	struct deed deed;

	dictate_item(&record, vocabulary,
		     "kind set. trousers hip twenty. jacket length thirty trousers waist sixteen "
		     "jacket chest twenty");
	for (int i = 0; i < 2; i++) {
		record_add_piece(&record, &part);
		assert_true(record_write(&record, &part, false, &deed));
		strcpy(part.name, "trousers");
	}
	assert_int_equal(reading_order(&record, vocabulary, readings), 4);
	for (int i = 0; i < 4; i++)
		assert_string_equal(readings[i]->said.name, order[i]);
	assert_true(reading_is_flat(vocabulary, "jacket chest"));
	assert_false(reading_is_flat(vocabulary, "jacket length"));
	assert_string_equal(reading_point(vocabulary, "jacket left sleeve"), "sleeve");
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_name_is_parted_into_piece_and_rest),
		cmocka_unit_test(names_are_joined_where_they_fit),
		cmocka_unit_test(what_is_missing_of_a_set_is_missing_of_its_pieces),
		cmocka_unit_test(readings_of_a_set_stand_piece_by_piece),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
