/* What holds of every picture: labels and marks lie inside it, and none lies over another one or
 * over a measured line. Held against every kind with every choice of its measures. */
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

static void
every_choice_of_measures_has_its_labels_beside_its_lines(void **state)
{
	int turn = 0, over = 0;
	for (int k = 0; k < vocabulary_count(vocabulary, LIST_KIND); k++) {
		const struct term *kind = vocabulary_term(vocabulary, LIST_KIND, k);
		int measures = kind->wanted_count + kind->helpful_count;
		for (int choice = 0; choice < 2 << measures; choice++, turn++) {
			record_init(&record);
			say_kind(&record, kind->name);
			for (int i = 0; i < measures; i++)
				if (choice >> i & 1)
					say_value(kind_measure(vocabulary, kind, i), turn / 3 + i);
			if (choice >> measures & 1)
				say_six_flaws(sketch_find(book, kind->name), turn);
			snprintf(at_hand, sizeof at_hand, "%s, choice %d", kind->name, choice);
			struct picture *picture = lay_out(NULL, &record);
			for (int i = 0; i < picture->tape_count; i++)
				if (!picture->tapes[i].labelled)
					fail_msg("%s: no room for %s", at_hand,
						 picture->tapes[i].measure);
			check_picture(picture);
			over += labels_over_the_outline(picture);
			picture_destroy(picture);
		}
	}
	/* It can be avoided in every one of them. */
	assert_int_equal(over, 0);
}

static void
the_sheet_shows_all_measures_by_name(void **state)
{
	for (int k = 0; k < vocabulary_count(vocabulary, LIST_KIND); k++) {
		const struct term *kind = vocabulary_term(vocabulary, LIST_KIND, k);
		snprintf(at_hand, sizeof at_hand, "%s by name", kind->name);
		struct picture *picture = lay_out(kind->name, NULL);
		assert_int_equal(picture->tape_count, kind->wanted_count + kind->helpful_count);
		for (int i = 0; i < picture->tape_count; i++) {
			assert_string_equal(picture->tapes[i].measure,
					    kind_measure(vocabulary, kind, i));
			assert_string_equal(picture->tapes[i].value, "");
			assert_true(picture->tapes[i].labelled);
			assert_int_equal(picture->tapes[i].wanted, i < kind->wanted_count);
		}
		check_picture(picture);
		assert_int_equal(labels_over_the_outline(picture), 0);
		picture_destroy(picture);
	}
}

static void
a_label_without_room_is_told_in_the_list(void **state)
{
	/* A sketch as small as a dot of lines, with more tapes than can be told apart. */
	char text[2048] = "sketch | skirt\nedge | M 0 0 L 1 0 L 1 1 L 0 1\n";
	static const char *const measures[] = {"waist", "length", "hip", "hem"};
	for (size_t i = 0; i < COUNT(measures); i++) {
		char row[512];
		snprintf(row, sizeof row,
			 "tape | %s | M -1 0 L 1 0 L 1 0.1 L -1 0.1 L -1 0.2 L 1 0.2 L 1 0.3 L -1 "
			 "0.3 L -1 0.4 L 1 0.4 L 1 0.5 L -1 0.5 L -1 0.6 L 1 0.6 L 1 0.7 L -1 0.7 "
			 "L -1 0.8 L 1 0.8 L 1 0.9 L -1 0.9 L -1 1 L 1 1\n",
			 measures[i]);
		strcat(text, row);
	}
	struct sketch_book *own = sketch_book_read("own", text, &problem);
	assert_non_null(own);
	record_init(&record);
	say_kind(&record, "skirt");
	for (int i = 0; i < 40; i++)
		say_measure(&record, measures[i % 4], "20 1/2", LENGTH_INCH);
	struct picture *picture = picture_create(own, vocabulary, NULL, &record, ruler, &problem);
	assert_non_null(picture);
	snprintf(at_hand, sizeof at_hand, "crowded");
	check_picture(picture);
	for (int i = 0; i < picture->tape_count; i++)
		if (!picture->tapes[i].labelled)
			assert_non_null(strstr(list_of(picture), picture->tapes[i].measure));
	picture_destroy(picture);
	sketch_book_destroy(own);
}

static void
what_has_no_picture_is_said(void **state)
{
	static const struct {
		const char *kind, *text, *word;
	} ROWS[] = {
		{NULL, "", "kind was not said"},
		{"kilt", "", "no kind \"kilt\""},
		{"skirt", "", "no sketch of \"skirt\""},
		{"skirt", "sketch | skirt\nseam | M 0 0 L 1 1\n", "outline"},
		{"skirt", "sketch | skirt\nedge | M 0 0 L 0 1\n", "outline"},
	};
	record_init(&record);
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct sketch_book *own = sketch_book_read("own", ROWS[i].text, &problem);
		struct picture *picture =
			picture_create(own, vocabulary, ROWS[i].kind, &record, ruler, &problem);
		assert_null(picture);
		if (strstr(problem.text, ROWS[i].word) == NULL)
			fail_msg("%s", problem.text);
		sketch_book_destroy(own);
	}
}

static void
the_same_record_is_laid_out_the_same(void **state)
{
	record_init(&record);
	say_kind(&record, "trousers");
	say_measure(&record, "waist", "40.5", LENGTH_CENTIMETRE);
	say_measure(&record, "inseam", "80", LENGTH_CENTIMETRE);
	say_six_flaws(sketch_find(book, "trousers"), 3);
	struct picture *one = lay_out(NULL, &record), *other = lay_out("trousers", &record);
	assert_int_equal(one->line_count, other->line_count);
	assert_memory_equal(one->lines, other->lines, (size_t)one->line_count * sizeof *one->lines);
	assert_memory_equal(one->marks, other->marks, sizeof one->marks);
	assert_true(one->height == other->height);
	for (int i = 0; i < one->tape_count; i++)
		assert_memory_equal(&one->tapes[i].label, &other->tapes[i].label,
				    sizeof one->tapes[i].label);
	picture_destroy(one);
	picture_destroy(other);
}

/* A picture is shown 360 pixels wide; common practice, no source: 11 pixels can be read. */
static void
letters_are_large_enough_where_the_picture_is_small(void **state)
{
	assert_int_equal(PICTURE_WIDTH, 360);
	for (int i = 0; i < LETTERING_COUNT; i++)
		assert_true(lettering_size((enum lettering)i) >= 11);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_choice_of_measures_has_its_labels_beside_its_lines),
		cmocka_unit_test(the_sheet_shows_all_measures_by_name),
		cmocka_unit_test(a_label_without_room_is_told_in_the_list),
		cmocka_unit_test(what_has_no_picture_is_said),
		cmocka_unit_test(the_same_record_is_laid_out_the_same),
		cmocka_unit_test(letters_are_large_enough_where_the_picture_is_small),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
