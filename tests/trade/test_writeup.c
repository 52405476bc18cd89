/* Write-ups by the table that is shipped, and by tables of a user's own. */
#include "dictation.h"

#include "writeup.h"

#include <stdio.h>

static struct vocabulary *vocabulary;
static struct writeup_form *shipped;
static struct record record;

static int
begin(void **state)
{
	struct problem problem = {""};
	char *text = lists_text("writeup.txt");
	vocabulary = lists_read();
	if (vocabulary != NULL && text != NULL)
		shipped = writeup_form_read(vocabulary, "writeup.txt", text, &problem);
	free(text);
	return shipped == NULL;
}

static int
end(void **state)
{
	writeup_form_destroy(shipped);
	vocabulary_destroy(vocabulary);
	return 0;
}

static void
the_text_is(const struct writeup_form *form, const struct money *asking, const char *expected)
{
	struct writeup writeup = {.text = {.chars = NULL}};
	assert_true(writeup_write(form, vocabulary, &record, asking, &writeup));
	assert_string_equal(text_chars(&writeup.text), expected);
	writeup_finish(&writeup);
}

static const struct {
	const char *said;
	bool asked; /* there is an asking price */
	enum item_state state;
	const char *text;
} cases[] = {
	{"item thirteen oh seven bin four eighty two kind shirt maker orlscombe. size medium "
	 "colour dark blue and white striped. cloth sixty percent cotton forty percent linen. "
	 "chest twenty one and a half length twenty eight sleeve twenty four collar none. flaw "
	 "small hole left cuff. flaw stain four centimetres front. price twelve forty nine",
	 true, ITEM_DONE,
	 "Orlscombe and Daughters shirt, medium, dark blue and white striped\n"
	 "\n"
	 "Shirt by Orlscombe and Daughters, medium, dark blue and white striped. Cloth: 60 % "
	 "cotton, 40 % linen. Flaws: small hole at the left cuff; stain of 4 cm (1 5/8 in) at the "
	 "front. Left and right are the wearer's.\n"
	 "\n"
	 "chest, laid flat  21 1/2 in  54.6 cm\n"
	 "chest, all round  43 in      109.2 cm\n"
	 "length            28 in      71.1 cm\n"
	 "sleeve            24 in      61.0 cm\n"
	 "collar            none: the garment has no such point\n"
	 "All round is twice the width laid flat. Measured in inches; centimetres are rounded to "
	 "the nearest 0.1.\n"
	 "\n"
	 "Price: 14.69 USD\n"
	 "Item 1307\n"},
	/* In the order of asking, whatever the order of saying; helpful ones after. */
	{"kind jeans size thirty two by thirty. hip twenty one centimetres inseam seventy six "
	 "centimetres waist forty point five centimetres front rise twenty six centimetres. flaw "
	 "none",
	 false, ITEM_SET_ASIDE,
	 "Jeans, size 32x30, waist 40.5 cm (16 in) flat\n"
	 "\n"
	 "Jeans, size 32x30. No flaws found.\n"
	 "\n"
	 "waist, laid flat  16 in      40.5 cm\n"
	 "waist, all round  31 7/8 in  81.0 cm\n"
	 "front rise        10 1/4 in  26 cm\n"
	 "inseam            29 7/8 in  76 cm\n"
	 "hip, laid flat    8 1/4 in   21 cm\n"
	 "hip, all round    16 1/2 in  42 cm\n"
	 "All round is twice the width laid flat. Measured in centimetres; inches are rounded to "
	 "the nearest 1/8.\n"
	 "Not measured: leg opening.\n"
	 "\n"
	 "Not ready to hand on: set aside.\n"},
	{"kind t shirt chest twenty length seventy centimetres", false, ITEM_OPEN,
	 "T-shirt, chest 20 in (50.8 cm) flat, length 70 cm (27 1/2 in)\n"
	 "\n"
	 "T-shirt.\n"
	 "\n"
	 "chest, laid flat  20 in      50.8 cm\n"
	 "chest, all round  40 in      101.6 cm\n"
	 "length            27 1/2 in  70 cm\n"
	 "All round is twice the width laid flat. Measured in inches or centimetres; what is "
	 "converted is rounded, to the nearest 0.1 cm or 1/8 in.\n"
	 "\n"
	 "Not ready to hand on: still open.\n"},
	{"kind shoes maker marlock. group women size thirty eight insole twenty four point five "
	 "centimetres heel three centimetres. flaw scuff left toe. care do not wash",
	 false, ITEM_DONE,
	 "Marlock shoes, size 38, for women, insole 24.5 cm (9 5/8 in)\n"
	 "\n"
	 "Shoes by Marlock, size 38, for women. Care label: do not wash. Flaws: scuff at the left "
	 "toe. Left and right are the wearer's.\n"
	 "\n"
	 "insole  9 5/8 in  24.5 cm\n"
	 "heel    1 1/8 in  3 cm\n"
	 "Measured in centimetres; inches are rounded to the nearest 1/8.\n"
	 "Not measured: outsole width.\n"},
	{"kind set part jacket. jacket chest twenty jacket left sleeve twenty four. flaw snag "
	 "times "
	 "three left jacket sleeve",
	 false, ITEM_DONE,
	 "Set\n"
	 "\n"
	 "Set. Flaws: snag (3 of them) at the left jacket sleeve. Left and right are the "
	 "wearer's.\n"
	 "\n"
	 "jacket chest, laid flat  20 in  50.8 cm\n"
	 "jacket chest, all round  40 in  101.6 cm\n"
	 "jacket left sleeve       24 in  61.0 cm\n"
	 "All round is twice the width laid flat. Measured in inches; centimetres are "
	 "rounded to the nearest 0.1.\n"},
	/* What was not said is not there, and what is on no list is not made up. */
	{"item five", false, ITEM_DONE, "Item 5\n"},
	{"maker marlock", false, ITEM_DONE, "Marlock\n\nBy Marlock.\n"},
	{"maker other size other colour other cloth other", false, ITEM_DONE, ""},
	{"kind coat maker other", false, ITEM_DONE,
	 "Coat\n\nCoat.\n\nNot measured: chest, shoulder, sleeve, length.\n"},
	{"shoulder none", false, ITEM_DONE, "shoulder  none: the garment has no such point\n"},
};

static void
a_write_up_says_what_was_said_and_no_more(void **state)
{
	static const struct money asking = {1469, "USD"};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		dictate_item(&record, vocabulary, cases[i].said);
		record.state = cases[i].state;
		the_text_is(shipped, cases[i].asked ? &asking : NULL, cases[i].text);
		/* Byte for byte the same, also into a write-up that was used before. */
		the_text_is(shipped, cases[i].asked ? &asking : NULL, cases[i].text);
	}
}

static const char *
description_of(const char *said)
{
	static char text[1024];
	struct writeup writeup = {.text = {.chars = NULL}};
	dictate_item(&record, vocabulary, said);
	assert_true(writeup_write(shipped, vocabulary, &record, NULL, &writeup));
	snprintf(text, sizeof text, "%s", text_chars(&writeup.description));
	writeup_finish(&writeup);
	return text;
}

static void
flaws_are_told_in_plain_words_with_place_and_size(void **state)
{
	static const struct {
		const char *said, *told;
	} flaws[] = {
		{"flaw none", "No flaws found."},
		{"flaw stain", "Flaws: stain."},
		{"flaw small hole cuff", "Flaws: small hole at the cuff."},
		{"flaw large stain left front hem",
		 "Flaws: large stain at the left front hem. Left and right are the wearer's."},
		{"flaw stain right inside cuff",
		 "Flaws: stain at the right cuff, on the inside. Left and right are the wearer's."},
		{"flaw stain inside", "Flaws: stain on the inside."},
		{"flaw stain left outside",
		 "Flaws: stain on the left outside. Left and right are the wearer's."},
		{"flaw stain left",
		 "Flaws: stain on the left side. Left and right are the wearer's."},
		{"flaw stain back", "Flaws: stain at the back."},
		{"flaw hole half inch", "Flaws: hole of 1/2 in (1.3 cm)."},
		{"flaw tear three point five centimetres seat",
		 "Flaws: tear of 3.5 cm (1 3/8 in) at the seat."},
		{"flaw hole. flaw hole", "Flaws: hole; hole."},
		{"flaw other zip", "Flaws: other flaw at the zip."},
		{"item seven", ""}, /* nobody looked: nothing is claimed */
	};
	for (size_t i = 0; i < sizeof flaws / sizeof *flaws; i++)
		assert_string_equal(description_of(flaws[i].said), flaws[i].told);
}

static void
a_flaw_that_was_struck_is_not_told(void **state)
{
	struct deed deed;
	dictate_item(&record, vocabulary, "flaw hole. flaw stain");
	assert_true(record_strike_last(&record, &deed));
	the_text_is(shipped, NULL, "Flaws: hole.\n");
}

/* 5 is best: ISO 105-A02, read; the reversed scale is the classic bug. */
static void
grades_say_which_end_is_best(void **state)
{
	static const struct {
		const char *said, *told;
	} grades[] = {
		{"pilling five", "Pilling: none."},
		{"pilling one", "Pilling: severe."},
		{"pilling four", "Pilling: grade 4, where 5 is none and 1 is severe."},
		{"colour change five", "Colour change: none."},
		{"colour change three to four",
		 "Colour change: grade 3-4, where 5 is none and 1 is severe."},
	};
	for (size_t i = 0; i < sizeof grades / sizeof *grades; i++)
		assert_string_equal(description_of(grades[i].said), grades[i].told);
}

static void
what_was_asked_about_and_confirmed_says_so(void **state)
{
	dictate_item(&record, vocabulary, "kind t shirt length twenty");
	dictate_as(&record, vocabulary, "chest forty", true);
	the_text_is(shipped, NULL,
		    "T-shirt, chest 40 in (101.6 cm) flat, length 20 in (50.8 cm)\n\nT-shirt.\n\n"
		    "chest, laid flat  40 in  101.6 cm  confirmed\n"
		    "chest, all round  80 in  203.2 cm\n"
		    "length            20 in  50.8 cm\n"
		    "All round is twice the width laid flat. Measured in inches; centimetres are "
		    "rounded to the nearest 0.1.\n");
}

static void
the_title_is(const char *form_text, const char *expected)
{
	struct problem problem = {""};
	struct writeup writeup = {.text = {.chars = NULL}};
	struct writeup_form *form = writeup_form_read(vocabulary, "own.txt", form_text, &problem);
	assert_string_equal(problem.text, "");
	assert_true(writeup_write(form, vocabulary, &record, NULL, &writeup));
	assert_string_equal(text_chars(&writeup.title), expected);
	writeup_finish(&writeup);
	writeup_form_destroy(form);
}

static void
a_title_keeps_to_its_limit_and_cuts_no_word(void **state)
{
	static const char rows[] = "title | {maker}\ntitle | {kind}\ntitle | , {size}\n"
				   "title | , {colour}\n";
	char form[256];

	dictate_item(&record, vocabulary,
		     "maker orlscombe kind waistcoat. size double extra large. colour teal");
	for (int limit = 10; limit <= 80; limit++) {
		const char *expected =
			limit >= 59 ? "Orlscombe and Daughters waistcoat, double extra large, teal"
			: limit >= 53 ? "Orlscombe and Daughters waistcoat, double extra large"
			: limit >= 39 ? "Orlscombe and Daughters waistcoat, teal"
			: limit >= 33 ? "Orlscombe and Daughters waistcoat"
			: limit >= 29 ? "Orlscombe and Daughters, teal"
			: limit >= 23 ? "Orlscombe and Daughters"
			: limit >= 15 ? "Waistcoat, teal"
				      : "Waistcoat";
		assert_true(strlen(expected) <= (size_t)limit);
		snprintf(form, sizeof form, "limit | %d\n%s", limit, rows);
		the_title_is(form, expected);
	}
}

static void
a_set_names_its_pieces(void **state)
{
	static const struct {
		const char *piece, *description;
	} rows[] = {
		{"jacket", "Set of jacket, for babies."},
		{"waistcoat", "Set of jacket and waistcoat, for babies."},
		{"trousers", "Set of jacket, waistcoat and trousers, for babies."},
	};
	struct writeup writeup = {.text = {.chars = NULL}};
	dictate_item(&record, vocabulary, "kind set group baby");
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct call part = {.type = CALL_PART};
		struct deed deed;
		snprintf(part.name, sizeof part.name, "%s", rows[i].piece);
		record_add_piece(&record, &part);
		assert_true(record_write(&record, &part, false, &deed));
		assert_true(writeup_write(shipped, vocabulary, &record, NULL, &writeup));
		assert_string_equal(text_chars(&writeup.description), rows[i].description);
	}
	writeup_finish(&writeup);
}

static void
a_name_is_written_as_the_table_spells_it(void **state)
{
	static const char spellings[] =
		"spelling | quernby mill | never\n"
		"spelling | Quernby Mill | Quernby-Mill\n"
		"spelling | all in one | all-in-one\nspelling | blue | Blue\n";
	char form[256];
	snprintf(form, sizeof form, "title | {maker}\ntitle | {kind}\ntitle | , {colour}\n%s",
		 spellings);
	dictate_item(&record, vocabulary, "maker quernby mill kind all in one colour dark blue");
	/* Whole names only: "dark blue" is another one. */
	the_title_is(form, "Quernby-Mill all-in-one, dark blue");
	dictate_item(&record, vocabulary, "kind all in one colour blue");
	the_title_is(form, "All-in-one, Blue");
}

static const char *
how_told(const void *from, const char *measure, const char *kind)
{
	static char how[128];
	if (strcmp(measure, "hem") == 0)
		return NULL;
	snprintf(how, sizeof how, "%s the %s of a %s", (const char *)from, measure,
		 kind == NULL ? "thing" : kind);
	return how;
}

static void
how_each_measure_was_taken_is_told_where_it_is_known(void **state)
{
	static const struct {
		const char *said, *text;
	} rows[] = {
		{"kind shirt chest twenty length thirty hem twenty one",
		 "chest: along the chest of a shirt\nlength: along the length of a shirt\n"},
		{"chest twenty", "chest: along the chest of a thing\n"},
		{"kind shirt chest none", ""},
		{"kind shirt hem twenty", ""},
	};
	struct problem problem = {""};
	struct writeup_form *form =
		writeup_form_read(vocabulary, "own.txt", "text | {how}\n", &problem);
	assert_non_null(form);
	dictate_item(&record, vocabulary, rows[0].said);
	the_text_is(form, NULL, "");
	writeup_form_tell_how(form, how_told, "along");
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		dictate_item(&record, vocabulary, rows[i].said);
		the_text_is(form, NULL, rows[i].text);
	}
	/* A piece of a set is measured as the kind that it is. */
	struct call chest = {.type = CALL_MEASURE, .name = "jacket chest", .has_length = true};
	struct deed deed;
	assert_true(length_parse("21", LENGTH_INCH, &chest.length));
	dictate_item(&record, vocabulary, "kind set");
	assert_true(record_write(&record, &chest, false, &deed));
	the_text_is(form, NULL, "jacket chest: along the chest of a jacket\n");
	writeup_form_destroy(form);
}

static void
pieces_and_rows_are_left_out_when_something_is_lacking(void **state)
{
	static const struct {
		const char *pattern, *title;
	} patterns[] = {
		{"{kind}", "Shirt"},
		{"{kind} by {maker}", ""},
		{"{kind}[ by {maker}]", "Shirt"},
		{"[{maker} ][{kind}]", "Shirt"},
		{"[by {maker}]", ""},
		{"[by {maker}][, {size}]", ""},
		{"[{kind} by {maker}] {number}", "7"},
		{"second hand", "Second hand"},
		{", {kind}", "Shirt"},
		{"chest {chest}, hem {hem}", ""},
		{"chest {chest}[, hem {hem}]", "Chest 20 in (50.8 cm)"},
		{"{colour change}", ""},
		{"[{waist}] wide", ""},
		{"[{kind} by {maker}] wide", ""},
	};
	dictate_item(&record, vocabulary, "item seven kind shirt chest twenty. hem none");
	for (size_t i = 0; i < sizeof patterns / sizeof *patterns; i++) {
		char form[128];
		snprintf(form, sizeof form, "title | %s\n", patterns[i].pattern);
		the_title_is(form, patterns[i].title);
	}
}

static void
a_table_that_is_written_wrong_is_refused_with_its_line(void **state)
{
	static const struct {
		const char *text, *says;
	} tables[] = {
		{"limit | 9\n", "own.txt, line 1: the limit of a title has to be 10 to 1000"},
		{"limit | many\n", "line 1: the limit"},
		{"# fine\nheadline | {kind}\n", "line 2: \"headline\" is no row"},
		{"title | {kinds}\n", "there is nothing to put for {kinds}"},
		{"title | {}\n", "there is nothing to put for {}"},
		{"title | {kind\n", "a { has no }"},
		{"title | kind}\n", "a } has no {"},
		{"title | [{kind}\n", "a [ has no ]"},
		{"title | {kind}]\n", "a ] has no ["},
		{"title | [{kind}[, {size}]]\n", "a [ stands inside another"},
		{"title | {kind}[ by us]\n", "between [ and ] is no slot"},
		{"title | {measures}\n", "{measures} can stand in a row of the text only"},
		{"description | {title}\n", "{title} can stand in a row of the text only"},
		{"title | {kind} | {size}\n", "a | stands in the words"},
		{"spelling | t shirt\n", "spelling has to have a name, and how it is written"},
		{"spelling | | T-shirt\n", "spelling has to have a name"},
		{"spelling | t shirt | T-shirt | tee\n", "spelling has to have a name"},
		{"spelling | a | A\nspelling | a | Ay\n", "line 2: how \"a\" is written is said"},
	};
	for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
		struct problem problem = {""};
		assert_null(writeup_form_read(vocabulary, "own.txt", tables[i].text, &problem));
		if (strstr(problem.text, tables[i].says) == NULL)
			fail_msg("\"%s\" does not say \"%s\"", problem.text, tables[i].says);
	}
}

static void
a_text_has_no_empty_line_too_many(void **state)
{
	struct problem problem = {""};
	struct writeup_form *form =
		writeup_form_read(vocabulary, "own.txt",
				  "text |\ntext | {maker}\ntext |\ntext | {size}\ntext |\ntext |\n"
				  "text | {kind}\ntext |\ntext | {number}\ntext |\n",
				  &problem);
	assert_non_null(form);
	dictate_item(&record, vocabulary, "item seven kind shirt");
	the_text_is(form, NULL, "shirt\n\n7\n");
	writeup_form_destroy(form);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_write_up_says_what_was_said_and_no_more),
		cmocka_unit_test(flaws_are_told_in_plain_words_with_place_and_size),
		cmocka_unit_test(a_flaw_that_was_struck_is_not_told),
		cmocka_unit_test(grades_say_which_end_is_best),
		cmocka_unit_test(what_was_asked_about_and_confirmed_says_so),
		cmocka_unit_test(a_title_keeps_to_its_limit_and_cuts_no_word),
		cmocka_unit_test(a_set_names_its_pieces),
		cmocka_unit_test(a_name_is_written_as_the_table_spells_it),
		cmocka_unit_test(how_each_measure_was_taken_is_told_where_it_is_known),
		cmocka_unit_test(pieces_and_rows_are_left_out_when_something_is_lacking),
		cmocka_unit_test(a_table_that_is_written_wrong_is_refused_with_its_line),
		cmocka_unit_test(a_text_has_no_empty_line_too_many),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
