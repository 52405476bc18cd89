/* The marks of flaws, and the list that says in words what the picture shows and cannot show. */
#include "scene.h"

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

static const struct picture_mark *
mark_of(const struct picture *picture, int number)
{
	for (int i = 0; i < picture->mark_count; i++)
		if (picture->marks[i].number == number)
			return &picture->marks[i];
	return NULL;
}

static void
a_flaw_is_marked_on_the_wearers_side_and_told_in_words(void **state)
{
	static const struct {
		const char *kind;
		enum side side;
		enum face face;
		const char *part;
		int marks;
		int viewers_side; /* of the first mark: -1 left, 0 middle, 1 right */
		bool hidden;
		const char *list;
	} ROWS[] = {
		{"shirt", SIDE_LEFT, FACE_UNSAID, "cuff", 1, 1, false,
		 "1 hole, left cuff/Left and right are the wearer's./"},
		{"shirt", SIDE_RIGHT, FACE_UNSAID, "cuff", 1, -1, false,
		 "1 hole, right cuff/Left and right are the wearer's./"},
		{"shirt", SIDE_UNSAID, FACE_UNSAID, "cuff", 2, 1, false,
		 "1 hole, cuff (side not said)/"},
		{"shirt", SIDE_UNSAID, FACE_UNSAID, "hem", 1, 0, false, "1 hole, hem/"},
		{"shirt", SIDE_LEFT, FACE_FRONT, "hem", 1, 1, false,
		 "1 hole, left front hem/Left and right are the wearer's./"},
		{"shirt", SIDE_UNSAID, FACE_INSIDE, "hem", 1, 0, true,
		 "1 hole, inside hem/Ring: on the back or inside./"},
		{"shirt", SIDE_RIGHT, FACE_BACK, "", 1, -1, true,
		 "1 hole, right back/Left and right are the wearer's. Ring: on the back or/"
		 "inside./"},
		{"shirt", SIDE_UNSAID, FACE_UNSAID, "back", 1, 0, true,
		 "1 hole, back/Ring: on the back or inside./"},
		{"shirt", SIDE_UNSAID, FACE_UNSAID, "", 0, 0, false, "1 hole (place not said)/"},
		{"shirt", SIDE_UNSAID, FACE_UNSAID, "knee", 0, 0, false, "1 hole, knee/"},
		{"trousers", SIDE_RIGHT, FACE_UNSAID, "knee", 1, -1, false,
		 "1 hole, right knee/Left and right are the wearer's./"},
		{"trousers", SIDE_LEFT, FACE_UNSAID, "crotch", 1, 0, false,
		 "1 hole, left crotch/Left and right are the wearer's./"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		record_init(&record);
		say_kind(&record, ROWS[i].kind);
		say_flaw(&record, "hole", ROWS[i].side, ROWS[i].face, ROWS[i].part);
		snprintf(at_hand, sizeof at_hand, "row %zu", i);
		struct picture *picture = lay_out(NULL, &record);
		check_picture(picture);
		if (picture->mark_count != ROWS[i].marks)
			fail_msg("%s: %d marks", at_hand, picture->mark_count);
		if (ROWS[i].marks > 0) {
			const struct picture_mark *mark = mark_of(picture, 1);
			double off_middle = mark->centre.x - picture->origin.x;
			int side = off_middle > 6 ? 1 : off_middle < -6 ? -1 : 0;
			if (side != ROWS[i].viewers_side || mark->hidden != ROWS[i].hidden)
				fail_msg("%s: at %.1f", at_hand, off_middle);
		}
		if (strcmp(list_of(picture), ROWS[i].list) != 0)
			fail_msg("%s: %s", at_hand, list_of(picture));
		picture_destroy(picture);
	}
}

static void
forty_flaws_in_one_place_still_do_not_overlap(void **state)
{
	record_init(&record);
	say_kind(&record, "skirt");
	for (int i = 0; i < 40; i++)
		say_flaw(&record, "moth hole", SIDE_LEFT, FACE_UNSAID, "pocket");
	for (int i = 0; i < 4; i++)
		say_value(kind_measure(
				  vocabulary,
				  vocabulary_term(vocabulary, LIST_KIND,
						  vocabulary_find(vocabulary, LIST_KIND, "skirt")),
				  i),
			  i);
	snprintf(at_hand, sizeof at_hand, "forty flaws");
	struct picture *picture = lay_out(NULL, &record);
	check_picture(picture);
	assert_true(picture->mark_count > 20);
	assert_non_null(strstr(list_of(picture), "40 moth hole, left pocket/"));
	picture_destroy(picture);
}

static void
nothing_of_the_record_is_missing(void **state)
{
	record_init(&record);
	say_kind(&record, "t shirt");
	say_measure(&record, "chest", "52", LENGTH_CENTIMETRE);
	say_none(&record, "shoulder");
	say_measure(&record, "inseam", "30 1/2", LENGTH_INCH);
	say_measure(&record, "left sleeve", "21", LENGTH_CENTIMETRE);
	struct picture *picture = lay_out(NULL, &record);
	check_picture(picture);
	assert_int_equal(picture->tape_count, 4);
	assert_string_equal(picture->tapes[0].measure, "chest");
	assert_string_equal(picture->tapes[0].value, "52 cm");
	assert_true(picture->tapes[0].labelled);
	assert_string_equal(list_of(picture), "also: shoulder none, inseam 30 1/2 in/");
	picture_destroy(picture);
}

static void
left_and_right_of_a_measure_are_the_wearers(void **state)
{
	record_init(&record);
	say_kind(&record, "shirt");
	say_measure(&record, "left sleeve", "60", LENGTH_CENTIMETRE);
	say_measure(&record, "right sleeve", "61", LENGTH_CENTIMETRE);
	struct picture *picture = lay_out(NULL, &record);
	check_picture(picture);
	assert_true(picture->tapes[0].points[0].x > picture->origin.x);
	assert_true(picture->tapes[1].points[0].x < picture->origin.x);
	picture_destroy(picture);
}

static void
no_flaws_found_is_told_only_when_it_was_said(void **state)
{
	struct call none = {.type = CALL_FLAW, .none = true};
	record_init(&record);
	say_kind(&record, "skirt");
	struct picture *picture = lay_out(NULL, &record);
	assert_string_equal(list_of(picture), "");
	picture_destroy(picture);
	say(&record, &none);
	picture = lay_out(NULL, &record);
	assert_string_equal(list_of(picture), "no flaws found/");
	check_picture(picture);
	picture_destroy(picture);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_flaw_is_marked_on_the_wearers_side_and_told_in_words),
		cmocka_unit_test(forty_flaws_in_one_place_still_do_not_overlap),
		cmocka_unit_test(nothing_of_the_record_is_missing),
		cmocka_unit_test(left_and_right_of_a_measure_are_the_wearers),
		cmocka_unit_test(no_flaws_found_is_told_only_when_it_was_said),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
