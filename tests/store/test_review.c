/* The desk's view: the listing and how far it has come, calls and what became of them. */
#include "shop.h"

#include "review_listing.h"
#include "schema.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct shop shop;
static struct review *review;

static int
set_up(void **state)
{
	struct problem problem = {""};
	shop_set_up(&shop);
	shop_be_quick(&shop);
	review = review_open(shop.store, &problem);
	assert_non_null(review);
	return 0;
}

static int
tear_down(void **state)
{
	review_close(review);
	shop_tear_down(&shop);
	return 0;
}

static void
say(struct call call, const char *text)
{
	assert_true(shop_write(&shop, &call, text).stored);
}

/* "1,2," */
static const char *
changed(struct listing_reach *from)
{
	static char text[200];
	int64_t items[16];
	struct listing_reach to;
	int count = listing_changed(review, from, items, 8, &to);
	assert_true(count >= 0);
	text[0] = '\0';
	for (int i = 0; i < count; i++)
		snprintf(text + strlen(text), sizeof text - strlen(text), "%lld,",
			 (long long)items[i]);
	*from = to;
	return text;
}

static void
what_was_changed_is_known_by_the_journal_alone(void **state)
{
	struct listing_reach reach;
	assert_true(listing_reach_read(review, &reach));
	assert_string_equal(changed(&reach), "");
	say(say_name(CALL_KIND, "shirt"), "kind shirt");
	say(say_measure("chest", "21"), "chest twenty one");
	assert_string_equal(changed(&reach), "1,");
	assert_string_equal(changed(&reach), "");
	shop_next(&shop);
	say(say_name(CALL_KIND, "skirt"), "kind skirt");
	assert_string_equal(changed(&reach), "1,2,");
	for (int i = 3; i <= 12; i++) {
		shop_next(&shop);
		say(say_name(CALL_KIND, "skirt"), "kind skirt");
	}
	assert_string_equal(changed(&reach), "2,3,4,5,6,7,8,9,");
	assert_string_equal(changed(&reach), "9,10,11,12,");
}

static void
somebody_quicker_is_not_overwritten(void **state)
{
	struct problem problem = {""};
	struct listing_reach from, to;
	say(say_name(CALL_KIND, "shirt"), "kind shirt");
	struct review *other = review_open(shop.store, &problem);
	struct listing line = {.item = 1,
			       .state = "open",
			       .title = "Shirt",
			       .urgency = 8,
			       .matters = "[]",
			       .words = "shirt of the second"};
	assert_true(listing_reach_read(review, &from));
	to = from;
	to.call = 1;
	to.deed = 1;
	assert_true(listing_put(other, NULL, 0, &from, &to));
	assert_false(listing_put(review, &line, 1, &from, &to));
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM listing"), "0");
	assert_true(listing_put(review, &line, 1, &to, &to));
	line.words = "shirt once more";
	assert_true(listing_put(review, &line, 1, &to, &to));
	assert_string_equal(
		shop_ask(&shop, "SELECT count(*) FROM listing_words WHERE words MATCH 'second'"),
		"0");
	assert_string_equal(shop_ask(&shop, "SELECT day FROM listing"), "2026-11-25");
	review_close(other);
}

static bool
keep_settling(void *user, const struct review_call *call)
{
	*(int64_t *)user = call->settled_by;
	return true;
}

static int64_t
settled_by(int64_t call)
{
	int64_t settling = -1;
	assert_true(review_call(review, call, keep_settling, &settling));
	return settling;
}

static int64_t
at_the_desk(struct call said, int64_t settles)
{
	struct write write = {.item = 1,
			      .source = SOURCE_DESK,
			      .has_call = true,
			      .said = said,
			      .settles = settles,
			      .text = "at the desk"};
	struct written written;
	store_write(shop.store, &write, NULL, &written);
	assert_true(written.stored);
	return written.call;
}

static void
a_call_is_settled_by_the_last_that_was_not_taken_back(void **state)
{
	struct call note = {.type = CALL_NOTE};
	say(note, "note");
	assert_int_equal(settled_by(1), 0);
	int64_t first = at_the_desk(note, 1);
	assert_int_equal(settled_by(1), first);
	int64_t second = at_the_desk(note, 1);
	assert_int_equal(settled_by(1), second);
	assert_string_equal(shop_rows(&shop, "text", "notes"), "at the desk");
	at_the_desk(say_order(ORDER_STRIKE_THAT), second);
	assert_int_equal(settled_by(1), first);
	at_the_desk(say_order(ORDER_STRIKE_THAT), first);
	assert_int_equal(settled_by(1), 0);
	assert_string_equal(shop_rows(&shop, "text", "notes"), "null");
}

/* What was written out and taken back is not written out: its sound stays. */
static void
the_sound_of_a_note_stays_while_nothing_stands_for_it(void **state)
{
	static const int16_t hum[1600] = {0, 300, -300};
	struct call note = {.type = CALL_NOTE};
	struct problem problem = {""};
	struct written kept;
	int64_t size;
	say(note, "note");
	store_note(shop.store, 1, hum, 1600, &kept);
	int64_t out = at_the_desk(note, 1);
	int64_t undo = at_the_desk(say_order(ORDER_STRIKE_THAT), out);
	assert_true(undo > out);
	assert_true(store_forget_sound(shop.store, 0, SHOP_BEGAN_UNIX_MS, &problem));
	unsigned char *bytes = review_sound(review, 1, true, &size);
	assert_non_null(bytes);
	free(bytes);
	at_the_desk(note, 1);
	assert_true(store_forget_sound(shop.store, 0, SHOP_BEGAN_UNIX_MS, &problem));
	assert_null(review_sound(review, 1, true, &size));
}

static void
records_of_version_1_are_brought_up_with_all_that_is_in_them(void **state)
{
	static const char back[] =
		"DROP TABLE listing; DROP TABLE listing_words; DROP TABLE listing_reach;"
		"DROP INDEX call_loose; DROP VIEW notes; PRAGMA user_version = 1";
	struct problem problem = {""};
	struct listing_reach reach;
	say(say_name(CALL_KIND, "shirt"), "kind shirt");
	review_close(review);
	assert_int_equal(sqlite3_exec(shop.store->database, back, NULL, NULL, NULL), SQLITE_OK);
	shop_reopen(&shop);
	assert_string_equal(shop_ask(&shop, "PRAGMA user_version"), "2");
	assert_string_equal(shop_rows(&shop, "kind state", "items"), "shirt,open");
	review = review_open(shop.store, &problem);
	assert_true(listing_reach_read(review, &reach));
	assert_string_equal(changed(&reach), "1,");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(what_was_changed_is_known_by_the_journal_alone),
		TEST(somebody_quicker_is_not_overwritten),
		TEST(a_call_is_settled_by_the_last_that_was_not_taken_back),
		TEST(the_sound_of_a_note_stays_while_nothing_stands_for_it),
		TEST(records_of_version_1_are_brought_up_with_all_that_is_in_them),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
