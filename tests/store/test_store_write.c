/* What a call leaves behind: utterance, entries, numbers, moves. */
#include "shop.h"

#include <stdio.h>

static void
a_confidence_that_is_no_number_does_not_lose_the_call(void **state)
{
	struct shop shop;
	struct written written;
	shop_set_up(&shop);
	const struct write write = {.text = "help", .confidence = __builtin_nan("")};
	store_write(shop.store, &write, NULL, &written);
	assert_true(written.stored);
	assert_string_equal(shop_rows(&shop, "text confidence", "calls"), "help,null");
	shop_tear_down(&shop);
}

static void
calls_of_one_utterance_share_it_and_its_sound(void **state)
{
	static const int16_t sound[320] = {7, -7};
	const struct utterance utterance = {.number = 1,
					    .start_ms = 100,
					    .end_ms = 2100,
					    .decided_ms = 2500,
					    .decided_by = "silence",
					    .alternatives = "[]",
					    .evidence = "{\"margin\":2}",
					    .score = 1.5,
					    .sound = sound,
					    .sound_count = 320};
	struct shop shop;
	struct written written;
	struct problem problem = {""};
	shop_set_up(&shop);
	const struct write chest = {.utterance = 1, .text = "chest twenty one"};
	const struct write length = {.utterance = 1, .text = "length twenty eight"};
	store_write(shop.store, &chest, &utterance, &written);
	assert_true(written.stored);
	store_write(shop.store, &length, &utterance, &written);
	assert_true(written.stored);
	store_write(shop.store, &length, NULL, &written); /* its number alone will do */
	assert_true(written.stored);
	assert_string_equal(shop_rows(&shop, "utterance", "calls"), "1;1;1");
	assert_string_equal(
		shop_rows(&shop,
			  "number start_ms end_ms decided_ms decided_by alternatives evidence",
			  "utterance"),
		"1,100,2100,2500,silence,[],{\"margin\":2}");
	assert_string_equal(shop_rows(&shop, "utterance codec rate_hz", "sound"), "1,flac,16000");

	/* The listener counts from 1 again in the next session. */
	assert_true(store_begin_session(shop.store, SHOP_BEGAN_UNIX_MS, NULL, &problem));
	store_write(shop.store, &chest, &utterance, &written);
	assert_true(written.stored);
	assert_string_equal(shop_rows(&shop, "utterance", "calls"), "1;1;1;2");
	shop_tear_down(&shop);
}

static void
is_refused_as_used(struct shop *shop, const char *number)
{
	char why_not[80];
	struct call item = say_label(CALL_ITEM, number);
	struct written written = shop_write(shop, &item, "item");
	assert_false(written.stored);
	snprintf(why_not, sizeof why_not, "number %s was already used", number);
	assert_string_equal(written.why_not, why_not);
}

static void
a_number_is_one_items_alone(void **state)
{
	struct shop shop;
	struct deed deed;
	shop_set_up(&shop);
	struct call first = say_label(CALL_ITEM, "482");
	struct call slip = say_label(CALL_ITEM, "438");
	struct call strike = say_order(ORDER_STRIKE_THAT);
	struct call restore = say_order(ORDER_RESTORE);

	/* Given, replaced, the replacement struck and restored: all on the same item. */
	assert_true(shop_write(&shop, &first, "item four eighty two").stored);
	assert_true(shop_write(&shop, &slip, "item four thirty eight").stored);
	assert_true(record_strike_last(&shop.record, &deed));
	assert_true(shop_store(&shop, &strike, "strike that", &deed, ITEM_UNCHANGED, false).stored);
	assert_string_equal(shop_rows(&shop, "number", "items"), "482");
	assert_true(record_restore(&shop.record, &deed));
	assert_true(shop_store(&shop, &restore, "restore", &deed, ITEM_UNCHANGED, false).stored);
	assert_string_equal(shop_rows(&shop, "number", "items"), "438");
	assert_true(shop_write(&shop, &first, "item four eighty two").stored);
	assert_string_equal(shop_rows(&shop, "number", "items"), "482");
	shop_next(&shop);

	/* It was put away as 482, which is no other's; 438 was a slip, and is free. */
	is_refused_as_used(&shop, "482");
	assert_int_equal(shop.record.item, 0);
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM items"), "1");
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM calls"), "6");
	assert_true(shop_write(&shop, &slip, "item four thirty eight").stored);
	assert_string_equal(shop_rows(&shop, "item number", "items"), "1,482;2,438");
	shop_tear_down(&shop);
}

static void
a_number_said_twice_is_still_the_items(void **state)
{
	struct shop shop;
	struct deed deed;
	shop_set_up(&shop);
	struct call number = say_label(CALL_ITEM, "482");
	struct call strike = say_order(ORDER_STRIKE_THAT);
	assert_true(shop_write(&shop, &number, "item four eighty two").stored);
	assert_true(record_write(&shop.record, &number, true, &deed));
	assert_true(shop_store(&shop, &number, "item four eighty two", &deed, ITEM_UNCHANGED, false)
			    .stored);
	assert_string_equal(shop_rows(&shop, "number item", "number"), "482,1");
	assert_true(record_strike_last(&shop.record, &deed));
	assert_true(shop_store(&shop, &strike, "strike that", &deed, ITEM_UNCHANGED, false).stored);
	assert_string_equal(shop_rows(&shop, "number item", "number"), "482,1");
	shop_tear_down(&shop);
}

/* A restored number may be another's by now. */
static void
a_number_that_was_struck_is_free_until_it_is_restored(void **state)
{
	struct shop shop;
	struct deed deed;
	static struct record first;
	shop_set_up(&shop);
	struct call kind = say_name(CALL_KIND, "skirt");
	struct call number = say_label(CALL_ITEM, "482");
	struct call strike = say_order(ORDER_STRIKE_THAT);
	struct call restore = say_order(ORDER_RESTORE);
	assert_true(shop_write(&shop, &kind, "kind skirt").stored);
	assert_true(shop_write(&shop, &number, "item four eighty two").stored);
	assert_true(record_strike_last(&shop.record, &deed));
	assert_true(shop_store(&shop, &strike, "strike that", &deed, ITEM_UNCHANGED, false).stored);
	first = shop.record;
	record_init(&shop.record);
	assert_true(shop_write(&shop, &number, "item four eighty two").stored);

	shop.record = first;
	assert_true(record_restore(&shop.record, &deed));
	struct written written =
		shop_store(&shop, &restore, "restore", &deed, ITEM_UNCHANGED, false);
	assert_false(written.stored);
	assert_string_equal(written.why_not, "number 482 was already used");
	assert_string_equal(shop_rows(&shop, "item number", "items"), "1,null;2,482");
	shop_tear_down(&shop);
}

static void
a_number_that_was_put_aside_with_its_item_stays_its_own(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call number = say_label(CALL_ITEM, "482");
	struct call other = say_label(CALL_ITEM, "483");
	struct call aside = say_order(ORDER_SET_ASIDE);
	struct call open = say_order(ORDER_OPEN_ITEM);
	assert_true(shop_write(&shop, &number, "item four eighty two").stored);
	assert_true(shop_store(&shop, &aside, "set aside", NULL, ITEM_PUT_ASIDE, false).stored);
	assert_true(shop_store(&shop, &open, "open item", NULL, ITEM_REOPENED, false).stored);
	assert_true(shop_write(&shop, &other, "item four eighty three").stored);
	assert_string_equal(shop_rows(&shop, "number item kept", "number ORDER BY number"),
			    "482,1,1;483,1,0");
	record_init(&shop.record);
	is_refused_as_used(&shop, "482");
	is_refused_as_used(&shop, "483"); /* while it stands */
	shop_tear_down(&shop);
}

static void
who_said_it_is_with_the_call(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	shop_set_up(&shop);
	assert_true(store_begin_session(shop.store, SHOP_BEGAN_UNIX_MS, "Ines", &problem));
	struct call where = say_order(ORDER_WHERE_AM_I);
	struct call over = say_name(CALL_ORDER, "tom");
	over.order = ORDER_HAND_OVER;
	assert_true(shop_store(&shop, &where, "where am i", NULL, ITEM_UNCHANGED, false).stored);
	assert_true(
		shop_store(&shop, &over, "hand over to tom", NULL, ITEM_UNCHANGED, false).stored);
	assert_true(shop_store(&shop, &where, "where am i", NULL, ITEM_UNCHANGED, false).stored);
	assert_string_equal(shop_rows(&shop, "who", "calls"), "Ines;Ines;tom");
	assert_true(store_begin_session(shop.store, SHOP_BEGAN_UNIX_MS, NULL, &problem));
	assert_true(shop_store(&shop, &where, "where am i", NULL, ITEM_UNCHANGED, false).stored);
	assert_string_equal(shop_rows(&shop, "who", "calls WHERE session = 3"), "null");
	shop_tear_down(&shop);
}

static void
a_note_is_kept_as_sound_with_its_call(void **state)
{
	static const int16_t sound[3200] = {5, -5, 500};
	struct shop shop;
	struct written written;
	shop_set_up(&shop);
	struct call note = {.type = CALL_NOTE};
	int64_t call = shop_write(&shop, &note, "note").call;
	store_note(shop.store, call, sound, 3200, &written);
	assert_true(written.stored && written.call == call);
	assert_string_equal(shop_rows(&shop, "call codec rate_hz", "note_sound"), "1,flac,16000");
	store_note(shop.store, 99, sound, 3200, &written); /* of no call that there is */
	assert_false(written.stored);
	assert_string_not_equal(written.why_not, "");
	shop_tear_down(&shop);
}

static void
new_entries_are_numbered_in_the_order_of_the_record(void **state)
{
	struct shop shop;
	struct record from;
	struct deed deed, out;
	shop_set_up(&shop);
	record_init(&from);
	struct call said[] = {say_measure("chest", "21"), say_measure("waist", "18"),
			      say_measure("hem", "20")};
	for (size_t i = 0; i < 3; i++)
		assert_true(record_write(&from, &said[i], false, &deed));
	assert_true(record_move_out(&from, 0, &out));
	assert_true(record_move_in(&shop.record, &from, &out, &deed));
	struct flip first = deed.flips[0];
	deed.flips[0] = deed.flips[2];
	deed.flips[2] = first;
	struct written written =
		shop_store(&shop, NULL, "three at once", &deed, ITEM_OPENED, false);
	assert_true(written.stored && written.first_entry == 1);
	for (int i = 0; i < 3; i++)
		assert_true(shop.record.entries[i].id == i + 1);
	assert_string_equal(shop_rows(&shop, "entry measure", "readings ORDER BY entry"),
			    "1,chest;2,waist;3,hem");
	shop_tear_down(&shop);
}

/* "Keep bin 12" was said before the item was opened: the entry carries that call. */
static void
a_kept_fact_is_written_with_the_first_call_of_an_item(void **state)
{
	struct shop shop;
	struct deed deed;
	shop_set_up(&shop);
	struct call keep = {.type = CALL_KEEP, .kept = CALL_BIN, .label = "12"};
	struct call bin = say_label(CALL_BIN, "12");
	struct call chest = say_measure("chest", "21");
	assert_true(
		shop_store(&shop, &keep, "keep bin twelve", NULL, ITEM_UNCHANGED, false).stored);
	assert_true(record_write(&shop.record, &chest, false, &deed));
	assert_true(record_keep(&shop.record, &bin, 1, &deed));
	struct written written =
		shop_store(&shop, &chest, "chest twenty one", &deed, ITEM_OPENED, false);
	assert_true(written.stored && written.call == 2 && written.first_entry == 1);
	assert_string_equal(shop_rows(&shop, "entry type call stands", "entry"),
			    "1,measure,2,1;2,bin,1,1");
	assert_string_equal(shop_rows(&shop, "item bin", "items"), "1,12");
	assert_string_equal(shop_rows(&shop, "call item", "calls"), "1,null;2,1");
	shop_tear_down(&shop);
}

static void
the_answer_to_a_doubt_tells_which_call_it_settles(void **state)
{
	struct shop shop;
	struct written written;
	shop_set_up(&shop);
	const struct write doubt = {.text = "bin thirteen", .verdict = VERDICT_DOUBTED};
	struct write answer = {.text = "second", .verdict = VERDICT_TAKEN};
	store_write(shop.store, &doubt, NULL, &written);
	answer.settles = written.call;
	store_write(shop.store, &answer, NULL, &written);
	assert_true(written.stored);
	assert_string_equal(shop_rows(&shop, "call verdict settles", "calls"),
			    "1,doubted,null;2,taken,1");
	shop_tear_down(&shop);
}

/* "These belong to item 482": one item loses what the other gets, and both keep the history. */
static void
what_was_dictated_to_the_wrong_item_moves_to_the_right_one(void **state)
{
	struct shop shop;
	static struct record right, loaded;
	struct written written;
	shop_set_up(&shop);
	struct call right_number = say_label(CALL_ITEM, "482");
	struct call right_chest = say_measure("chest", "19");
	struct call wrong_number = say_label(CALL_ITEM, "483");
	struct call wrong_chest = say_measure("chest", "21 1/2");
	struct call belong = say_order(ORDER_BELONG_TO);
	assert_true(shop_write(&shop, &right_number, "item four eighty two").stored);
	assert_true(shop_write(&shop, &right_chest, "chest nineteen").stored);
	right = shop.record;
	shop_next(&shop);
	assert_true(shop_write(&shop, &wrong_number, "item four eighty three").stored);
	assert_true(shop_write(&shop, &wrong_chest, "chest twenty one and a half").stored);

	struct write write = {.token = 1,
			      .item = right.item,
			      .at_ms = 90000,
			      .has_call = true,
			      .said = belong,
			      .text = "these belong to item four eighty two",
			      .change = ITEM_REOPENED,
			      .has_deed = true,
			      .record = &right,
			      .moved_from = shop.record.item,
			      .from_change = ITEM_PUT_ASIDE,
			      .from_record = &shop.record};
	assert_true(record_move_out(&shop.record, 0, &write.from_deed));
	assert_true(record_move_in(&right, &shop.record, &write.from_deed, &write.deed));
	store_write(shop.store, &write, NULL, &written);
	assert_true(written.stored);

	assert_string_equal(shop_rows(&shop, "item number state", "items"),
			    "1,482,open;2,483,set aside");
	assert_string_equal(shop_rows(&shop, "item value call", "readings"), "1,21 1/2,5");
	assert_true(written.first_entry == 5);
	assert_true(store_load(shop.store, 1, &loaded));
	assert_int_equal(loaded.entry_count, 3);
	assert_string_equal(record_reading(&loaded, "chest")->said.name, "chest");
	assert_true(record_reading(&loaded, "chest")->id == 5);
	assert_true(store_load(shop.store, 2, &loaded));
	assert_null(record_reading(&loaded, "chest"));
	assert_int_equal(loaded.deeds[loaded.deed_count - 1].type, DEED_MOVED);
	shop_tear_down(&shop);
}

/* The desk filled the slot after the station had read the record. */
static void
of_two_that_fill_one_slot_the_later_stands(void **state)
{
	struct shop shop, desk = {.at_ms = 50000};
	struct problem problem = {""};
	shop_set_up(&shop);
	struct call kind = say_name(CALL_KIND, "trousers");
	struct call from_desk = say_label(CALL_BIN, "14");
	struct call from_station = say_label(CALL_BIN, "41");
	assert_true(shop_write(&shop, &kind, "kind trousers").stored);

	desk.store = store_open(shop.path, &problem);
	assert_non_null(desk.store);
	assert_true(store_begin_session(desk.store, SHOP_BEGAN_UNIX_MS, NULL, &problem));
	assert_true(store_load(desk.store, 1, &desk.record));
	assert_true(shop_write(&desk, &from_desk, "bin fourteen").stored);
	store_close(desk.store);

	assert_true(shop_write(&shop, &from_station, "bin forty one").stored);
	assert_string_equal(shop_rows(&shop, "item bin", "items"), "1,41");
	assert_true(store_load(shop.store, 1, &shop.record));
	assert_string_equal(record_slot(&shop.record, CALL_BIN)->said.label, "41");
	shop_tear_down(&shop);
}

static void
a_deed_without_an_item_is_refused_and_leaves_nothing(void **state)
{
	struct shop shop;
	struct deed deed;
	shop_set_up(&shop);
	struct call chest = say_measure("chest", "21");
	assert_true(record_write(&shop.record, &chest, false, &deed));
	struct written written =
		shop_store(&shop, &chest, "chest twenty one", &deed, ITEM_UNCHANGED, true);
	assert_false(written.stored);
	assert_string_equal(written.why_not, "no item is open");
	assert_true(written.call == 0 && written.item == 0 && written.first_entry == 0);
	static const char *const tables[] = {"call", "item", "entry", "utterance", "sound"};
	for (size_t i = 0; i < sizeof tables / sizeof *tables; i++)
		assert_string_equal(shop_rows(&shop, "count(*)", tables[i]), "0");
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_confidence_that_is_no_number_does_not_lose_the_call),
		cmocka_unit_test(calls_of_one_utterance_share_it_and_its_sound),
		cmocka_unit_test(a_number_is_one_items_alone),
		cmocka_unit_test(a_number_said_twice_is_still_the_items),
		cmocka_unit_test(a_number_that_was_struck_is_free_until_it_is_restored),
		cmocka_unit_test(a_number_that_was_put_aside_with_its_item_stays_its_own),
		cmocka_unit_test(who_said_it_is_with_the_call),
		cmocka_unit_test(a_note_is_kept_as_sound_with_its_call),
		cmocka_unit_test(new_entries_are_numbered_in_the_order_of_the_record),
		cmocka_unit_test(a_kept_fact_is_written_with_the_first_call_of_an_item),
		cmocka_unit_test(the_answer_to_a_doubt_tells_which_call_it_settles),
		cmocka_unit_test(what_was_dictated_to_the_wrong_item_moves_to_the_right_one),
		cmocka_unit_test(of_two_that_fill_one_slot_the_later_stands),
		cmocka_unit_test(a_deed_without_an_item_is_refused_and_leaves_nothing),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
