/* What the views of the contract (design, section 6) tell of what was dictated. */
#include "shop.h"

#include <stdio.h>

static void
an_item_tells_where_it_is_and_when_it_was_in_hand(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call number = say_label(CALL_ITEM, "0482");
	struct call bin = say_label(CALL_BIN, "12");
	struct call kind = say_name(CALL_KIND, "trousers");
	struct call route = say_name(CALL_ROUTE, "mending");
	shop.at_ms = 1;
	assert_true(shop_write(&shop, &number, "item oh four eighty two").stored);
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	assert_true(shop_write(&shop, &kind, "kind trousers").stored);
	assert_true(shop_write(&shop, &route, "route mending").stored);
	assert_string_equal(
		shop_rows(&shop, "item number bin kind route state opened_at closed_at", "items"),
		"1,0482,12,trousers,mending,open,2026-11-25T12:00:00.001Z,null");
	shop.at_ms = 59999;
	shop_next(&shop);
	assert_string_equal(shop_rows(&shop, "number state opened_at closed_at", "items"),
			    "0482,done,2026-11-25T12:00:00.001Z,2026-11-25T12:00:59.999Z");
	shop_tear_down(&shop);
}

static void
an_item_of_which_nothing_stands_is_still_an_item(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call chest = say_measure("chest", "21");
	assert_true(shop_write(&shop, &chest, "chest twenty one").stored);
	assert_string_equal(shop_rows(&shop, "number bin kind route state", "items"),
			    "null,null,null,null,open");
	shop_tear_down(&shop);
}

/* Micrometres: 1 in = 25400 um exactly (international inch, 1959), worked out by hand. */
static void
a_length_is_kept_as_said_and_in_micrometres(void **state)
{
	static const struct {
		const char *measure, *said;
		enum length_unit unit;
		const char *row;
	} cases[] = {
		{"chest", "21 1/2", LENGTH_INCH, "chest,21 1/2,in,546100,0"},
		{"chest", "21.5", LENGTH_INCH, "chest,21.5,in,546100,0"},
		{"hem", "1/8", LENGTH_INCH, "hem,1/8,in,3175,0"},
		{"hem", "1/16", LENGTH_INCH, "hem,1/16,in,1588,0"},
		{"back length", "70", LENGTH_CENTIMETRE, "back length,70,cm,700000,0"},
		{"waist", "0", LENGTH_CENTIMETRE, "waist,0,cm,0,0"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct shop shop;
		shop_set_up(&shop);
		struct call call = say_name(CALL_MEASURE, cases[i].measure);
		call.has_length = true;
		assert_true(length_parse(cases[i].said, cases[i].unit, &call.length));
		assert_true(shop_write(&shop, &call, "a length").stored);
		assert_string_equal(shop_rows(&shop, "measure value unit um confirmed", "readings"),
				    cases[i].row);
		shop_tear_down(&shop);
	}
}

static void
a_measure_that_the_garment_has_not_is_a_reading_without_a_value(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call sleeve = say_name(CALL_MEASURE, "sleeve");
	sleeve.none = true;
	assert_true(shop_write(&shop, &sleeve, "sleeve none").stored);
	assert_string_equal(shop_rows(&shop, "item measure value unit um call", "readings"),
			    "1,sleeve,null,null,null,1");
	shop_tear_down(&shop);
}

static void
said_again_a_measure_replaces_and_the_old_reading_is_kept(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call first = say_measure("chest", "21");
	struct call again = say_measure("chest", "22");
	assert_true(shop_write(&shop, &first, "chest twenty one").stored);
	struct written written = shop_write(&shop, &again, "chest twenty two");
	assert_true(written.stored && written.call == 2 && written.first_entry == 2);
	assert_string_equal(shop_rows(&shop, "value call", "readings"), "22,2");
	assert_string_equal(shop_rows(&shop, "value stands", "entry"), "21,0;22,1");
	shop_tear_down(&shop);
}

static void
a_value_that_was_asked_about_and_said_to_be_so_is_confirmed(void **state)
{
	struct shop shop;
	struct deed deed;
	shop_set_up(&shop);
	struct call chest = say_measure("chest", "13");
	assert_true(record_write(&shop.record, &chest, true, &deed));
	assert_true(shop_store(&shop, &chest, "first", &deed, ITEM_OPENED, false).stored);
	assert_string_equal(shop_rows(&shop, "value confirmed", "readings"), "13,1");
	shop_tear_down(&shop);
}

static void
a_flaw_tells_how_large_it_is_and_where(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call hole = say_name(CALL_FLAW, "hole");
	hole.size = SIZE_SMALL;
	hole.side = SIDE_LEFT;
	hole.face = FACE_BACK;
	snprintf(hole.part, sizeof hole.part, "cuff");
	struct call pull = say_name(CALL_FLAW, "pulled thread");
	pull.has_length = true;
	assert_true(length_parse("1/2", LENGTH_INCH, &pull.length));
	struct call other = {.type = CALL_FLAW, .other = true};
	assert_true(shop_write(&shop, &hole, "flaw small hole left back cuff").stored);
	assert_true(shop_write(&shop, &pull, "flaw pulled thread half an inch").stored);
	assert_true(shop_write(&shop, &other, "flaw other").stored);
	assert_string_equal(shop_rows(&shop, "item flaw size um side face part call", "flaws"),
			    "1,hole,small,null,left,back,cuff,1;"
			    "1,pulled thread,null,12700,null,null,null,2;"
			    "1,other,null,null,null,null,null,3");
	shop_tear_down(&shop);
}

static void
looked_over_and_no_flaw_found_is_written_down(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call none = {.type = CALL_FLAW, .none = true};
	struct call stain = say_name(CALL_FLAW, "stain");
	assert_true(shop_write(&shop, &none, "flaw none").stored);
	assert_string_equal(shop_rows(&shop, "flaw", "flaws"), "none");
	assert_true(shop_write(&shop, &stain, "flaw stain").stored);
	assert_string_equal(shop_rows(&shop, "flaw", "flaws"), "stain");
	shop_tear_down(&shop);
}

static void
a_fact_is_the_fields_of_its_call(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call facts[] = {
		say_name(CALL_MAKER, "marlock"),
		say_name(CALL_SIZE, "32x30"),
		say_name(CALL_COLOUR, "sea green"),
		{.type = CALL_CLOTH,
		 .fibres = {{80, "wool", ""}, {20, "nylon", ""}},
		 .fibre_count = 2},
		{.type = CALL_PILLING, .grade_halves = 7},
		{.type = CALL_COLOUR_CHANGE, .grade_halves = 10},
		{.type = CALL_WEIGHT, .grams = 420},
		{.type = CALL_COST, .money = {150, "USD"}},
		{.type = CALL_PRICE, .money = {1850, "USD"}, .correction = true},
		say_name(CALL_PARCEL, "small box"),
	};
	for (size_t i = 0; i < sizeof facts / sizeof *facts; i++)
		assert_true(shop_write(&shop, &facts[i], "a fact").stored);
	static const char *const expected[] = {
		"maker {\"name\":\"marlock\"}",
		"size {\"name\":\"32x30\"}",
		"colour {\"name\":\"sea green\"}",
		"cloth {\"fibres\":[{\"percent\":80,\"fibre\":\"wool\"},"
		"{\"percent\":20,\"fibre\":\"nylon\"}]}",
		"pilling {\"grade\":\"3-4\"}",
		"colour change {\"grade\":\"5\"}",
		"weight {\"g\":420}",
		"cost {\"minor\":150,\"currency\":\"USD\"}",
		"price {\"minor\":1850,\"currency\":\"USD\"}",
		"parcel {\"name\":\"small box\"}",
	};
	for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
		char sql[100];
		snprintf(sql, sizeof sql,
			 "SELECT fact || ' ' || value FROM facts WHERE item = 1 AND call = %zu",
			 i + 1);
		assert_string_equal(shop_ask(&shop, sql), expected[i]);
	}
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM facts"), "10");
	shop_tear_down(&shop);
}

static void
a_call_tells_what_was_said_and_what_became_of_it(void **state)
{
	struct shop shop;
	struct written written;
	shop_set_up(&shop);
	struct call bin = say_label(CALL_BIN, "12");
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	const struct write murmur = {.token = 3,
				     .at_ms = 9000,
				     .source = SOURCE_VOICE,
				     .verdict = VERDICT_REFUSED,
				     .confidence = 0.25};
	const struct write tap = {.token = 4,
				  .item = 1,
				  .at_ms = 9500,
				  .source = SOURCE_PEDAL,
				  .verdict = VERDICT_TAKEN,
				  .confidence = 1,
				  .has_call = true,
				  .said = say_order(ORDER_NEXT),
				  .text = "tap",
				  .change = ITEM_PUT_ASIDE};
	store_write(shop.store, &murmur, NULL, &written);
	assert_true(written.stored && written.token == 3 && written.item == 0);
	store_write(shop.store, &tap, NULL, &written);
	assert_true(written.stored && written.token == 4 && written.item == 1);
	assert_string_equal(
		shop_rows(&shop, "call utterance item at_ms text verdict confidence source type",
			  "calls"),
		"1,1,1,0,bin twelve,taken,0.97,voice,bin;"
		"2,null,null,9000,,refused,0.25,voice,null;"
		"3,null,1,9500,tap,taken,1.0,pedal,order");
	assert_string_equal(shop_ask(&shop, "SELECT meaning FROM calls"),
			    "{\"type\":\"bin\",\"label\":\"12\"}");
	assert_string_equal(shop_rows(&shop, "state", "items"), "set aside");
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(an_item_tells_where_it_is_and_when_it_was_in_hand),
		cmocka_unit_test(an_item_of_which_nothing_stands_is_still_an_item),
		cmocka_unit_test(a_length_is_kept_as_said_and_in_micrometres),
		cmocka_unit_test(a_measure_that_the_garment_has_not_is_a_reading_without_a_value),
		cmocka_unit_test(said_again_a_measure_replaces_and_the_old_reading_is_kept),
		cmocka_unit_test(a_value_that_was_asked_about_and_said_to_be_so_is_confirmed),
		cmocka_unit_test(a_flaw_tells_how_large_it_is_and_where),
		cmocka_unit_test(looked_over_and_no_flaw_found_is_written_down),
		cmocka_unit_test(a_fact_is_the_fields_of_its_call),
		cmocka_unit_test(a_call_tells_what_was_said_and_what_became_of_it),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
