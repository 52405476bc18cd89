#include "shop.h"

#include <stdio.h>
#include <string.h>

static struct record loaded;

static void
flips_are_the_same(const struct deed *one, const struct deed *other)
{
	assert_int_equal(one->flip_count, other->flip_count);
	for (int f = 0; f < one->flip_count; f++) {
		assert_int_equal(one->flips[f].entry, other->flips[f].entry);
		assert_int_equal(one->flips[f].stands, other->flips[f].stands);
	}
}

static void
records_are_the_same(const struct record *one, const struct record *other)
{
	assert_true(one->item == other->item);
	assert_int_equal(one->entry_count, other->entry_count);
	assert_int_equal(one->deed_count, other->deed_count);
	for (int i = 0; i < one->entry_count; i++) {
		assert_true(one->entries[i].id == other->entries[i].id);
		assert_true(one->entries[i].call == other->entries[i].call);
		assert_true(call_same(&one->entries[i].said, &other->entries[i].said));
		assert_int_equal(one->entries[i].confirmed, other->entries[i].confirmed);
		assert_int_equal(one->entries[i].stands, other->entries[i].stands);
	}
	for (int i = 0; i < one->deed_count; i++) {
		assert_true(one->deeds[i].call == other->deeds[i].call);
		assert_int_equal(one->deeds[i].type, other->deeds[i].type);
		assert_int_equal(one->deeds[i].target, other->deeds[i].target);
		assert_int_equal(one->deeds[i].undone, other->deeds[i].undone);
		flips_are_the_same(&one->deeds[i], &other->deeds[i]);
	}
}

static uint32_t
chance(uint32_t *state, uint32_t limit)
{
	*state = *state * 1664525u + 1013904223u; /* Numerical Recipes, from memory */
	return (uint32_t)(((uint64_t)*state * limit) >> 32);
}

/* One call of a wild dictation, worked out on the record on the table. */
static bool
dictate_something(struct shop *shop, uint32_t *state, struct call *said, struct deed *deed)
{
	static const char *const measures[] = {"chest", "waist", "hem", "sleeve"};
	static const char *const values[] = {"18", "18 1/2", "21.5", "3/8"};
	struct record *record = &shop->record;
	const char *measure = measures[chance(state, 4)];
	*said = say_order(ORDER_STRIKE_THAT);
	switch (chance(state, 10)) {
	case 0:
		return record_strike_last(record, deed);
	case 1:
		return record_strike_measure(record, measure, deed);
	case 2:
		return record_restore(record, deed);
	case 3:
		return record_strike_flaw(record, said, deed);
	case 4:
		*said = say_name(CALL_FLAW, "stain");
		break;
	case 5:
		*said = say_label(CALL_BIN, chance(state, 2) ? "12" : "14");
		break;
	case 6:
		*said = (struct call){.type = CALL_NOTE};
		break;
	default:
		*said = say_measure(measure, values[chance(state, 4)]);
		break;
	}
	return record_write(record, said, chance(state, 2) == 0, deed);
}

static void
a_record_comes_back_as_it_was_left(void **state)
{
	for (uint32_t seed = 1; seed <= 8; seed++) {
		struct shop shop;
		uint32_t luck = seed;
		shop_set_up(&shop);
		shop_be_quick(&shop);
		for (int call = 0; call < 80; call++) {
			struct call said;
			struct deed deed;
			if (!dictate_something(&shop, &luck, &said, &deed))
				continue;
			assert_true(shop_store(&shop, &said, "wild", &deed,
					       shop.record.item == 0 ? ITEM_OPENED : ITEM_UNCHANGED,
					       false)
					    .stored);
		}
		assert_true(store_load(shop.store, shop.record.item, &loaded));
		records_are_the_same(&shop.record, &loaded);
		shop_reopen(&shop);
		assert_true(store_load(shop.store, shop.record.item, &loaded));
		records_are_the_same(&shop.record, &loaded);
		shop_tear_down(&shop);
	}
}

static void
what_failed_to_be_stored_is_not_in_the_record(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	struct call number = say_label(CALL_ITEM, "7");
	struct call bin = say_label(CALL_BIN, "12");
	assert_true(shop_write(&shop, &number, "item seven").stored);
	shop_next(&shop);
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	assert_false(shop_write(&shop, &number, "item seven").stored);
	assert_true(store_load(shop.store, 2, &loaded));
	records_are_the_same(&shop.record, &loaded);
	shop_tear_down(&shop);
}

/* Hundreds of calls on one garment: all that stands is there, the newest strikes can be taken back,
 * and more can be said. */
static void
a_very_long_history_comes_back_as_far_as_it_fits(void **state)
{
	struct shop shop;
	struct deed deed;
	char text[16];
	shop_set_up(&shop);
	shop_be_quick(&shop);
	struct call kind = say_name(CALL_KIND, "trousers");
	struct call stain = say_name(CALL_FLAW, "stain");
	struct call strike = say_order(ORDER_STRIKE_THAT);
	assert_true(shop_write(&shop, &kind, "kind trousers").stored);
	assert_true(shop_write(&shop, &stain, "flaw stain").stored);
	for (int i = 1; i <= 900; i++) {
		snprintf(text, sizeof text, "%d", i);
		struct call waist = say_measure("waist", text);
		if (!record_has_room(&shop.record))
			assert_true(store_load(shop.store, shop.record.item, &shop.record));
		assert_true(shop_write(&shop, &waist, "waist").stored);
	}
	assert_true(store_load(shop.store, 1, &loaded));
	assert_true(record_has_room(&loaded));
	assert_true(loaded.entry_count > RECORD_ENTRIES_MAX / 2);
	assert_string_equal(record_slot(&loaded, CALL_KIND)->said.name, "trousers");
	assert_int_equal(record_flaw_count(&loaded), 1);
	assert_int_equal(record_reading(&loaded, "waist")->said.length.numerator, 900);

	/* The newest history: one strike brings back what the last reading replaced. */
	assert_true(record_strike_last(&loaded, &deed));
	shop.record = loaded;
	assert_true(shop_store(&shop, &strike, "strike that", &deed, ITEM_UNCHANGED, false).stored);
	assert_true(store_load(shop.store, 1, &loaded));
	assert_int_equal(record_reading(&loaded, "waist")->said.length.numerator, 899);
	assert_true(record_restore(&loaded, &deed));
	assert_int_equal(record_reading(&loaded, "waist")->said.length.numerator, 900);
	assert_string_equal(shop_ask(&shop, "SELECT group_concat(value) FROM readings"), "899");

	/* Striking on and on takes back one call at a time, to the oldest that was loaded. */
	int struck = 0;
	while (record_strike_last(&loaded, &deed)) {
		assert_in_range(deed.flip_count, 1, 2);
		struck++;
	}
	assert_true(struck > 90);
	assert_true(record_empty(&loaded));
	shop_tear_down(&shop);
}

/* Strikes and restores add deeds without entries: here the deeds are what does not fit. */
static void
a_long_to_and_fro_comes_back_as_far_as_it_fits(void **state)
{
	struct shop shop;
	struct deed deed;
	shop_set_up(&shop);
	shop_be_quick(&shop);
	struct call chest = say_measure("chest", "21 1/2");
	struct call bin = say_label(CALL_BIN, "12");
	struct call strike = say_order(ORDER_STRIKE_THAT);
	struct call restore = say_order(ORDER_RESTORE);
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	assert_true(shop_write(&shop, &chest, "chest twenty one and a half").stored);
	for (int i = 0; i < 301; i++) {
		if (!record_has_room(&shop.record))
			assert_true(store_load(shop.store, 1, &shop.record));
		assert_true(record_strike_last(&shop.record, &deed));
		assert_true(shop_store(&shop, &strike, "strike that", &deed, ITEM_UNCHANGED, false)
				    .stored);
		if (!record_has_room(&shop.record))
			assert_true(store_load(shop.store, 1, &shop.record));
		assert_true(record_restore(&shop.record, &deed));
		assert_true(shop_store(&shop, &restore, "restore", &deed, ITEM_UNCHANGED, false)
				    .stored);
	}
	assert_true(store_load(shop.store, 1, &loaded));
	assert_true(record_has_room(&loaded));
	assert_int_equal(loaded.entry_count, 2);
	assert_non_null(record_slot(&loaded, CALL_BIN));
	assert_non_null(record_reading(&loaded, "chest"));
	assert_true(record_strike_last(&loaded, &deed));
	assert_null(record_reading(&loaded, "chest"));
	shop_tear_down(&shop);
}

static void
an_item_that_is_none_has_no_record(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	assert_false(store_load(shop.store, 1, &loaded));
	assert_true(loaded.item == 0 && loaded.entry_count == 0 && loaded.deed_count == 0);
	assert_false(store_load(shop.store, 0, &loaded));
	shop_tear_down(&shop);
}

static void
items_are_found_by_their_order_and_number(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	assert_true(store_item_before(shop.store, 0) == 0);
	for (int i = 1; i <= 3; i++) {
		char number[8];
		snprintf(number, sizeof number, "48%d", i);
		struct call item = say_label(CALL_ITEM, number);
		assert_true(shop_write(&shop, &item, "item").stored);
		if (i < 3)
			shop_next(&shop);
	}
	static const struct {
		int64_t item, before;
	} cases[] = {{0, 3}, {1, 0}, {2, 1}, {3, 2}, {99, 3}};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_true(store_item_before(shop.store, cases[i].item) == cases[i].before);
	assert_true(store_item_by_number(shop.store, "482") == 2);
	assert_true(store_item_by_number(shop.store, "48") == 0);
	assert_true(store_item_by_number(shop.store, "0482") == 0);
	assert_true(store_item_by_number(shop.store, "") == 0);
	assert_true(store_item_by_number(shop.store, "' OR 1 --") == 0);

	/* A number that was replaced is no longer the item's. */
	struct call item = say_label(CALL_ITEM, "490");
	assert_true(shop_write(&shop, &item, "item four ninety").stored);
	assert_true(store_item_by_number(shop.store, "483") == 0);
	assert_true(store_item_by_number(shop.store, "490") == 3);
	shop_tear_down(&shop);
}

static void
the_number_given_last_is_the_last_that_stands_and_can_be_counted_on(void **state)
{
	struct shop shop;
	struct deed deed;
	char number[LABEL_MAX];
	shop_set_up(&shop);
	struct call strike = say_order(ORDER_STRIKE_THAT);
	assert_false(store_last_number(shop.store, number));
	assert_string_equal(number, "");
	static const char *const given[] = {"0482", "0479", "a7", "0480"};
	for (size_t i = 0; i < sizeof given / sizeof *given; i++) {
		struct call item = say_label(CALL_ITEM, given[i]);
		if (i > 0)
			shop_next(&shop);
		assert_true(shop_write(&shop, &item, "item").stored);
	}
	assert_true(store_last_number(shop.store, number));
	assert_string_equal(number, "0480");
	assert_true(record_strike_last(&shop.record, &deed));
	assert_true(shop_store(&shop, &strike, "strike that", &deed, ITEM_UNCHANGED, false).stored);
	assert_true(store_last_number(shop.store, number));
	assert_string_equal(number, "0479");
	/* The first garment is given another one afterwards: it is not counted on from. */
	assert_true(store_load(shop.store, 1, &shop.record));
	struct call item = say_label(CALL_ITEM, "0017");
	assert_true(shop_write(&shop, &item, "item").stored);
	assert_true(store_last_number(shop.store, number));
	assert_string_equal(number, "0479");
	shop_tear_down(&shop);
}

static void
turn(struct shop *shop, int64_t item, enum item_change change)
{
	struct call order = say_order(ORDER_OPEN_ITEM);
	shop->record.item = item;
	assert_true(shop_store(shop, &order, "open item", NULL, change, false).stored);
}

static void
the_item_left_open_last_is_found_again(void **state)
{
	struct shop shop;
	shop_set_up(&shop);
	assert_true(store_item_open(shop.store) == 0);
	for (int i = 1; i <= 3; i++) {
		turn(&shop, 0, ITEM_OPENED);
		assert_true(store_item_open(shop.store) == i);
	}
	turn(&shop, 3, ITEM_CLOSED);
	assert_true(store_item_open(shop.store) == 2);
	turn(&shop, 1, ITEM_REOPENED);
	assert_true(store_item_open(shop.store) == 1);
	turn(&shop, 1, ITEM_PUT_ASIDE);
	shop_reopen(&shop);
	assert_true(store_item_open(shop.store) == 2);
	turn(&shop, 2, ITEM_CLOSED);
	assert_true(store_item_open(shop.store) == 0);

	assert_true(store_load(shop.store, 1, &loaded));
	assert_int_equal(loaded.state, ITEM_SET_ASIDE);
	assert_true(store_load(shop.store, 2, &loaded));
	assert_int_equal(loaded.state, ITEM_DONE);
	turn(&shop, 2, ITEM_REOPENED);
	assert_true(store_load(shop.store, 2, &loaded));
	assert_int_equal(loaded.state, ITEM_OPEN);
	assert_string_equal(shop_ask(&shop, "SELECT closed_at FROM items WHERE item = 2"), "null");
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_record_comes_back_as_it_was_left),
		cmocka_unit_test(what_failed_to_be_stored_is_not_in_the_record),
		cmocka_unit_test(a_very_long_history_comes_back_as_far_as_it_fits),
		cmocka_unit_test(a_long_to_and_fro_comes_back_as_far_as_it_fits),
		cmocka_unit_test(an_item_that_is_none_has_no_record),
		cmocka_unit_test(items_are_found_by_their_order_and_number),
		cmocka_unit_test(
			the_number_given_last_is_the_last_that_stands_and_can_be_counted_on),
		cmocka_unit_test(the_item_left_open_last_is_found_again),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
