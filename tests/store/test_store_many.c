#include "shop.h"

#include <stdio.h>
#include <string.h>

/* The numbers of the items visited, "-" for one that has none. */
struct visits {
	char numbers[256];
	int stop_after; /* 0: never */
	int count;
	int entries; /* standing ones, of all together */
};

static bool
note_number(void *user, const struct record *record, struct problem *problem)
{
	struct visits *visits = user;
	const struct entry *number = record_slot(record, CALL_ITEM);
	size_t length = strlen(visits->numbers);
	snprintf(visits->numbers + length, sizeof visits->numbers - length, "%s%s",
		 length > 0 ? " " : "", number == NULL ? "-" : number->said.label);
	for (int i = 0; i < record->entry_count; i++)
		visits->entries += record->entries[i].stands;
	visits->count++;
	return visits->count != visits->stop_after || problem_say(problem, "that is enough");
}

/* Items 7, 0042, one without a number, 1307, 8 (which was 9 by a slip), and one of a number that
 * is too large to be counted. */
static void
fill(struct shop *shop)
{
	static const char *const numbers[] = {"7",    "0042", NULL,
					      "1307", "9",    "12345678901234567890123"};
	struct call chest = say_measure("chest", "21 1/2");
	shop_be_quick(shop);
	for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
		struct call bin = say_label(CALL_BIN, "12");
		assert_true(shop_write(shop, &bin, "bin twelve").stored);
		if (numbers[i] != NULL) {
			struct call item = say_label(CALL_ITEM, numbers[i]);
			assert_true(shop_write(shop, &item, "item").stored);
		}
		if (i == 4) {
			struct call item = say_label(CALL_ITEM, "8");
			assert_true(shop_write(shop, &item, "item eight").stored);
		}
		assert_true(shop_write(shop, &chest, "chest").stored);
		shop_next(shop);
	}
}

static void
items_come_in_the_order_in_which_they_were_opened(void **state)
{
	struct shop shop;
	struct visits visits = {.numbers = ""};
	struct problem problem = {""};
	shop_set_up(&shop);
	assert_true(store_each_item(shop.store, NULL, note_number, &visits, &problem));
	assert_string_equal(visits.numbers, "");
	fill(&shop);
	assert_true(store_each_item(shop.store, NULL, note_number, &visits, &problem));
	assert_string_equal(visits.numbers, "7 0042 - 1307 8 12345678901234567890123");
	assert_int_equal(visits.entries, 6 * 2 + 5);
	shop_tear_down(&shop);
}

static void
a_range_of_numbers_is_inclusive(void **state)
{
	static const struct {
		struct store_numbers numbers;
		const char *visited;
	} cases[] = {
		{{7, 42}, "7 0042 8"}, {{7, 7}, "7"},	   {{8, 41}, "8"},
		{{9, 41}, ""},	       {{42, 42}, "0042"}, {{43, STORE_NUMBER_MAX}, "1307"},
		{{42, 7}, ""},	       {{0, 6}, ""},	   {{0, STORE_NUMBER_MAX}, "7 0042 1307 8"},
	};
	struct shop shop;
	shop_set_up(&shop);
	fill(&shop);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct visits visits = {.numbers = ""};
		assert_true(
			store_each_item(shop.store, &cases[i].numbers, note_number, &visits, NULL));
		assert_string_equal(visits.numbers, cases[i].visited);
	}
	shop_tear_down(&shop);
}

static void
a_visitor_can_end_it(void **state)
{
	struct shop shop;
	struct visits visits = {.numbers = "", .stop_after = 2};
	struct problem problem = {""};
	shop_set_up(&shop);
	fill(&shop);
	assert_false(store_each_item(shop.store, NULL, note_number, &visits, &problem));
	assert_string_equal(problem.text, "that is enough");
	assert_string_equal(visits.numbers, "7 0042");
	/* And the connection can write again. */
	struct call bin = say_label(CALL_BIN, "13");
	assert_true(shop_write(&shop, &bin, "bin thirteen").stored);
	shop_tear_down(&shop);
}

static void
writes_together_are_there_together(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	struct store_tally tally;
	shop_set_up(&shop);
	assert_true(store_begin_together(shop.store, &problem));
	struct call bin = say_label(CALL_BIN, "12");
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	shop_next(&shop);
	struct call kind = say_name(CALL_KIND, "shirt");
	assert_true(shop_write(&shop, &kind, "kind shirt").stored);
	assert_true(store_end_together(shop.store, true, &problem));
	assert_string_equal(problem.text, "");
	assert_true(store_tally(shop.store, &tally));
	assert_true(tally.items == 2);
	shop_reopen(&shop);
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM items"), "2");
	shop_tear_down(&shop);
}

static void
writes_together_are_undone_together(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	struct store_tally tally;
	shop_set_up(&shop);
	struct call item = say_label(CALL_ITEM, "7");
	assert_true(shop_write(&shop, &item, "item seven").stored);
	shop_next(&shop);
	assert_true(store_begin_together(shop.store, &problem));
	struct call bin = say_label(CALL_BIN, "12");
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	/* A number that another has: that write fails, and the others are still to be undone. */
	assert_false(shop_write(&shop, &item, "item seven").stored);
	assert_true(store_end_together(shop.store, false, &problem));
	assert_true(store_tally(shop.store, &tally));
	assert_true(tally.items == 1);
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM items"), "1");
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM calls"), "2");
	/* Writes are written one by one again. */
	record_init(&shop.record);
	assert_true(shop_write(&shop, &bin, "bin twelve").stored);
	shop_reopen(&shop);
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM items"), "2");
	shop_tear_down(&shop);
}

static void
nobody_else_writes_meanwhile(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	shop_set_up(&shop);
	struct store *other = store_open(shop.path, &problem);
	assert_non_null(other);
	sqlite3_busy_timeout(other->database, 0);
	assert_true(store_begin_together(shop.store, &problem));
	assert_false(store_begin_together(other, &problem));
	assert_string_equal(problem.text,
			    "nothing can be written: the records are locked by another program");
	assert_true(store_end_together(shop.store, true, &problem));
	assert_true(store_begin_together(other, &problem));
	assert_true(store_end_together(other, false, &problem));
	store_close(other);
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(items_come_in_the_order_in_which_they_were_opened),
		cmocka_unit_test(a_range_of_numbers_is_inclusive),
		cmocka_unit_test(a_visitor_can_end_it),
		cmocka_unit_test(writes_together_are_there_together),
		cmocka_unit_test(writes_together_are_undone_together),
		cmocka_unit_test(nobody_else_writes_meanwhile),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
