/* Pictures of a set: each of its pieces has one, under its name. */
#include "scene.h"

#include "describe.h"
#include "pieces.h"

static int
begin(void **state)
{
	return !scene_open();
}

static int
end(void **state)
{
	scene_close();
	return 0;
}

static void
say_part(const char *name)
{
	struct call part = {.type = CALL_PART};
	strcpy(part.name, name);
	record_add_piece(&record, &part);
	say(&record, &part);
}

static void
say_suit(void)
{
	record_init(&record);
	say_kind(&record, "set");
	say_part("jacket");
	say_measure(&record, "jacket chest", "21", LENGTH_INCH);
	say_measure(&record, "jacket left sleeve", "24", LENGTH_INCH);
	say_flaw(&record, "moth hole", SIDE_LEFT, FACE_UNSAID, "jacket cuff");
	say_part("trousers");
	say_measure(&record, "trousers waist", "16 1/2", LENGTH_INCH);
	say_flaw(&record, "stain", SIDE_RIGHT, FACE_UNSAID, "trousers knee");
	say_flaw(&record, "snag", SIDE_UNSAID, FACE_UNSAID, "jacket");
}

static void
each_piece_has_what_was_measured_and_seen_of_it(void **state)
{
	say_suit();
	strcpy(at_hand, "a suit");
	struct picture *jacket = lay_out(NULL, &record), *trousers = jacket->below;
	check_picture(jacket);
	assert_non_null(trousers);
	assert_null(trousers->below);
	assert_string_equal(picture_heading(jacket), "jacket");
	assert_string_equal(picture_heading(trousers), "trousers");
	assert_float_equal(picture_whole_height(jacket), jacket->height + trousers->height, 1e-6);
	assert_int_equal(jacket->tape_count, 2);
	assert_string_equal(jacket->tapes[0].measure, "chest");
	assert_string_equal(jacket->tapes[0].value, "21 in");
	assert_string_equal(jacket->tapes[1].measure, "left sleeve");
	assert_true(jacket->tapes[1].point_count > 0);
	assert_int_equal(trousers->tape_count, 1);
	assert_string_equal(trousers->tapes[0].measure, "waist");
	/* Numbers are the record's, so that no two flaws of an item have one number. */
	assert_int_equal(jacket->mark_count, 1);
	assert_int_equal(jacket->marks[0].number, 1);
	assert_true(jacket->marks[0].place.x > jacket->origin.x);
	assert_string_equal(list_of(jacket),
			    "1 moth hole, left jacket cuff/3 snag, jacket (place not said)/"
			    "Left and right are the wearer's./");
	assert_int_equal(trousers->mark_count, 1);
	assert_int_equal(trousers->marks[0].number, 2);
	assert_true(trousers->marks[0].place.x < trousers->origin.x);
	picture_destroy(jacket);
}

static void
what_is_of_no_piece_comes_last(void **state)
{
	say_suit();
	say_flaw(&record, "odour", SIDE_UNSAID, FACE_UNSAID, "");
	struct picture *jacket = lay_out(NULL, &record);
	const struct picture *rest = jacket->below->below;
	check_picture(jacket);
	assert_non_null(rest);
	assert_null(picture_heading(rest));
	assert_string_equal(list_of(rest), "4 odour (place not said)/");
	picture_destroy(jacket);
}

static void
that_there_are_no_flaws_is_said_once(void **state)
{
	struct call none = {.type = CALL_FLAW, .none = true};
	record_init(&record);
	say_kind(&record, "set");
	say_part("jacket");
	say_part("skirt");
	say(&record, &none);
	struct picture *jacket = lay_out(NULL, &record);
	assert_string_equal(list_of(jacket), "");
	assert_string_equal(list_of(jacket->below), "no flaws found/");
	assert_null(jacket->below->below);
	picture_destroy(jacket);
}

static void
a_set_of_which_nothing_was_said_is_a_set(void **state)
{
	record_init(&record);
	say_kind(&record, "set");
	for (int i = 0; i < 2; i++) {
		struct picture *picture = lay_out("set", i == 0 ? &record : NULL);
		check_picture(picture);
		assert_null(picture->below);
		assert_null(picture_heading(picture));
		assert_int_equal(picture->tape_count, 0);
		picture_destroy(picture);
	}
}

static void
a_set_is_described_with_its_pieces(void **state)
{
	struct text title = {0}, words = {0};
	say_suit();
	struct picture *picture = lay_out(NULL, &record);
	describe_title(picture, &record, &title);
	assert_string_equal(text_chars(&title), "Sketch: set");
	describe_picture(picture, &record, &words);
	assert_string_equal(
		text_chars(&words),
		"Measures: jacket chest 21 in; jacket left sleeve 24 in; trousers waist "
		"16 1/2 in. Flaws: 1 moth hole, left jacket cuff; 2 stain, right trousers "
		"knee; 3 snag, jacket (place not said).");
	text_finish(&title);
	text_finish(&words);
	picture_destroy(picture);
}

static void
pieces_come_in_the_order_in_which_they_were_said(void **state)
{
	int pieces[PIECES_MAX + 1];
	say_suit();
	assert_int_equal(pieces_gather(vocabulary, &record, pieces), 2);
	assert_int_equal(pieces[0], vocabulary_find(vocabulary, LIST_KIND, "jacket"));
	assert_int_equal(pieces[1], vocabulary_find(vocabulary, LIST_KIND, "trousers"));
	record_init(&record);
	say_kind(&record, "set");
	assert_int_equal(pieces_gather(vocabulary, &record, pieces), 1);
	assert_int_equal(pieces[0], -1);
	say_none(&record, "waistcoat shoulder");
	assert_int_equal(pieces_gather(vocabulary, &record, pieces), 1);
	assert_int_equal(pieces[0], vocabulary_find(vocabulary, LIST_KIND, "waistcoat"));
}

static void
outside_a_set_no_name_is_taken_for_a_piece(void **state)
{
	record_init(&record);
	say_kind(&record, "shirt");
	say_measure(&record, "jacket chest", "21", LENGTH_INCH);
	struct picture *picture = lay_out(NULL, &record);
	assert_null(picture->below);
	assert_string_equal(list_of(picture), "also: jacket chest 21 in/");
	picture_destroy(picture);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_piece_has_what_was_measured_and_seen_of_it),
		cmocka_unit_test(what_is_of_no_piece_comes_last),
		cmocka_unit_test(that_there_are_no_flaws_is_said_once),
		cmocka_unit_test(a_set_of_which_nothing_was_said_is_a_set),
		cmocka_unit_test(a_set_is_described_with_its_pieces),
		cmocka_unit_test(pieces_come_in_the_order_in_which_they_were_said),
		cmocka_unit_test(outside_a_set_no_name_is_taken_for_a_piece),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
