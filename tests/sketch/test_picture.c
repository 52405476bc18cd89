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

/* Where the part lies on the side that was said, from the way that the sketch writes it: how many
 * marks there are, and where the first one belongs. */
static int
marks_of(const struct part *part, enum side side, struct point *first)
{
	*first = part->at;
	if (part->way == PART_ONCE)
		return 1;
	if (side == SIDE_RIGHT)
		first->x = -first->x;
	if (part->way == PART_ACROSS && side == SIDE_UNSAID)
		first->x = 0;
	return part->way == PART_PAIR && side == SIDE_UNSAID ? 2 : 1;
}

static void
say_all_measures(const struct term *kind, int turn)
{
	record_init(&record);
	say_kind(&record, kind->name);
	for (int i = 0; i < kind->wanted_count + kind->helpful_count; i++)
		say_value(kind_measure(vocabulary, kind, i), turn + i);
}

static void
check_one_mark(const struct sketch *sketch, const struct part *part, enum side side)
{
	struct picture *picture = lay_out(NULL, &record);
	struct point first, place;
	int count = marks_of(part, side, &first);

	place = picture_point(picture, first);
	if (picture->mark_count != count)
		fail_msg("%s: %d marks", at_hand, picture->mark_count);
	for (int i = 0; i < count; i++) {
		const struct picture_mark *mark = &picture->marks[i];
		assert_float_equal(mark->place.y, place.y, 1e-3);
		/* Beside its place there is always room. */
		if (point_distance(mark->centre, mark->place) > 4 * PICTURE_MARK_RADIUS)
			fail_msg("%s: far from its place", at_hand);
	}
	assert_float_equal(picture->marks[0].place.x, place.x, 1e-3);
	for (int i = 0; i < picture->tape_count; i++)
		if (!picture->tapes[i].labelled)
			fail_msg("%s: no room for %s", at_hand, picture->tapes[i].measure);
	check_picture(picture);
	assert_int_equal(labels_over_the_outline(picture), 0);
	picture_destroy(picture);
}

static void
every_part_has_its_mark_on_its_side_among_all_measures(void **state)
{
	for (int k = 0; k < vocabulary_count(vocabulary, LIST_KIND); k++) {
		const struct term *kind = vocabulary_term(vocabulary, LIST_KIND, k);
		const struct sketch *sketch = sketch_find(book, kind->name);
		for (int i = 0; i < sketch->part_count; i++) {
			const char *name = sketch->parts[i].name;
			for (int side = SIDE_UNSAID; side <= SIDE_RIGHT; side++) {
				say_all_measures(kind, i);
				say_flaw(&record, "moth hole", (enum side)side,
					 (enum face)((i + side) % 5), name);
				snprintf(at_hand, sizeof at_hand, "%s, %s %s", kind->name,
					 side == SIDE_UNSAID ? "" : side_name((enum side)side),
					 name);
				check_one_mark(sketch, &sketch->parts[i], (enum side)side);
			}
		}
	}
}

/* Every part on both sides, as many flaws as a record holds, in names as long as they may be. */
static void
say_the_worst(const struct sketch *sketch)
{
	char longest[CALL_NAME_MAX];
	memset(longest, 'w', sizeof longest - 1);
	longest[sizeof longest - 1] = '\0';
	for (size_t i = 7; i < sizeof longest - 1; i += 8)
		longest[i] = ' ';
	for (int i = 0; i < 180; i++)
		say_flaw(&record, longest, (enum side)(i % 3), (enum face)(i % 5),
			 sketch->parts[i % sketch->part_count].name);
}

static void
the_worst_of_records_is_still_told_whole_and_nothing_overlaps(void **state)
{
	for (int k = 0; k < vocabulary_count(vocabulary, LIST_KIND); k++) {
		const struct term *kind = vocabulary_term(vocabulary, LIST_KIND, k);
		snprintf(at_hand, sizeof at_hand, "the worst %s", kind->name);
		say_all_measures(kind, k);
		say_the_worst(sketch_find(book, kind->name));
		struct picture *picture = lay_out(NULL, &record);
		check_picture(picture);
		int told = 0;
		for (int i = 0; i < picture->line_count; i++) {
			told += picture->lines[i].number > 0;
			assert_true(picture->lines[i].box.width <=
				    PICTURE_WIDTH - 2 * PICTURE_MARGIN + 0.01);
		}
		assert_int_equal(told, 180);
		const char *list = list_of(picture);
		for (int i = 0; i < picture->tape_count; i++)
			if (!picture->tapes[i].labelled &&
			    strstr(list, picture->tapes[i].measure) == NULL)
				fail_msg("%s: %s is nowhere", at_hand, picture->tapes[i].measure);
		picture_destroy(picture);
	}
}

static void
a_name_as_wide_as_the_picture_goes_into_the_list(void **state)
{
	static const char WIDE[] =
		"width where the hood widens towards the hem when wholly unwound";
	char measures[128], kinds[128], text[512];
	snprintf(measures, sizeof measures, "%s | | straight\n", WIDE);
	snprintf(kinds, sizeof kinds, "parka | | %s, waist\n", WIDE);
	snprintf(text, sizeof text,
		 "sketch | parka\nedge | M 0 0 L 20 0 L 20 50 L 0 50\n"
		 "tape | %s | M 0 0 L 0 50\ntape | waist | M -20 20 L 20 20\n",
		 WIDE);
	struct vocabulary *wide = lists_read();
	assert_true(vocabulary_read(wide, LIST_MEASURE, "mine", measures, &problem));
	assert_true(vocabulary_read(wide, LIST_KIND, "mine", kinds, &problem));
	struct sketch_book *own = sketch_book_read("own", text, &problem);
	record_init(&record);
	say_kind(&record, "parka");
	say_measure(&record, WIDE, "40", LENGTH_INCH);
	say_measure(&record, "waist", "20 1/2", LENGTH_INCH);
	struct picture *picture = picture_create(own, wide, NULL, &record, ruler, &problem);
	assert_non_null(picture);
	snprintf(at_hand, sizeof at_hand, "a wide name");
	check_picture(picture);
	assert_false(picture->tapes[0].labelled);
	assert_true(picture->tapes[1].labelled);
	assert_int_equal(strncmp(list_of(picture), "also: width where the hood", 26), 0);
	assert_non_null(strstr(list_of(picture), "40 in/"));
	picture_destroy(picture);
	sketch_book_destroy(own);
	vocabulary_destroy(wide);
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
		cmocka_unit_test(every_part_has_its_mark_on_its_side_among_all_measures),
		cmocka_unit_test(the_worst_of_records_is_still_told_whole_and_nothing_overlaps),
		cmocka_unit_test(a_name_as_wide_as_the_picture_goes_into_the_list),
		cmocka_unit_test(the_sheet_shows_all_measures_by_name),
		cmocka_unit_test(a_label_without_room_is_told_in_the_list),
		cmocka_unit_test(what_has_no_picture_is_said),
		cmocka_unit_test(the_same_record_is_laid_out_the_same),
		cmocka_unit_test(letters_are_large_enough_where_the_picture_is_small),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
