/* Sessions, their tally, speech that was passed over, and how long sound is kept. */
#include "shop.h"

#include <stdio.h>
#include <string.h>

static void
a_session_keeps_when_it_began_and_who_measured(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	shop_set_up(&shop);
	assert_true(store_begin_session(shop.store, SHOP_BEGAN_UNIX_MS + 1, "Wren", &problem));
	assert_string_equal(shop_ask(&shop,
				     "SELECT group_concat(began_unix_ms || ' ' || ifnull(who, '-'))"
				     " FROM session"),
			    "1795608000000 -,1795608000001 Wren");
	shop_tear_down(&shop);
}

static void
of_speech_that_was_not_for_us_only_time_length_and_score_are_kept(void **state)
{
	static const int16_t radio[160] = {1, 2, 3};
	const struct utterance utterance = {.number = 9,
					    .start_ms = 4000,
					    .end_ms = 6500,
					    .decided_ms = 6900,
					    .decided_by = "silence",
					    .alternatives = "[{\"text\":\"chest nine\"}]",
					    .evidence = "{}",
					    .score = -2.5,
					    .sound = radio,
					    .sound_count = 160};
	struct shop shop;
	struct problem problem = {""};
	shop_set_up(&shop);
	assert_true(store_passed_over(shop.store, &utterance, &problem));
	assert_string_equal(shop_ask(&shop, "SELECT start_ms || ' ' || end_ms || ' ' || score"
					    " FROM passed_over"),
			    "4000 6500 -2.5");
	assert_string_equal(shop_ask(&shop, "SELECT group_concat(name)"
					    " FROM pragma_table_info('passed_over')"),
			    "passed_over,session,start_ms,end_ms,score");
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM utterance"), "0");
	assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM sound"), "0");
	shop_tear_down(&shop);
}

static void
the_tally_counts_what_was_stored_in_this_session(void **state)
{
	struct shop shop;
	struct store_tally tally;
	struct problem problem = {""};
	shop_set_up(&shop);
	struct call kind = say_name(CALL_KIND, "trousers");
	struct call waist = say_measure("waist", "16 1/4");
	struct call hole = say_name(CALL_FLAW, "hole");
	struct call no_flaw = {.type = CALL_FLAW, .none = true};
	struct utterance radio = {.number = 77, .start_ms = 1, .end_ms = 2};
	assert_true(shop_write(&shop, &kind, "kind trousers").stored);
	assert_true(shop_write(&shop, &waist, "waist sixteen and a quarter").stored);
	assert_true(shop_write(&shop, &hole, "flaw hole").stored);
	shop_next(&shop);
	assert_true(shop_write(&shop, &no_flaw, "flaw none").stored);
	assert_true(store_passed_over(shop.store, &radio, &problem));
	assert_true(store_tally(shop.store, &tally));
	assert_int_equal(tally.items, 2);
	assert_int_equal(tally.taken, 5);
	assert_int_equal(tally.doubted, 0);
	assert_int_equal(tally.refused, 0);
	assert_int_equal(tally.passed_over, 1);
	assert_int_equal(tally.readings, 1);
	assert_int_equal(tally.flaws, 1); /* "flaw none" is none */

	shop_reopen(&shop);
	assert_true(store_tally(shop.store, &tally));
	assert_int_equal(tally.taken, 0);
	shop_tear_down(&shop);
}

static void
without_a_session_nothing_is_counted_or_written(void **state)
{
	struct shop shop;
	struct store_tally tally;
	struct written written;
	struct problem problem = {""};
	const struct write write = {.token = 5, .verdict = VERDICT_TAKEN};
	shop_make_folder(&shop);
	shop.store = store_open(shop.path, &problem);
	assert_non_null(shop.store);
	assert_false(store_tally(shop.store, &tally));
	store_write(shop.store, &write, NULL, &written);
	assert_false(written.stored);
	assert_string_equal(written.why_not, "no session was begun");
	assert_true(written.token == 5);
	shop_tear_down(&shop);
}

/* Sound from a session of its own, `days` before the shop's; its utterance is the newest. */
static void
dictate_days_before(struct shop *shop, int days)
{
	struct problem problem = {""};
	int64_t began_unix_ms = SHOP_BEGAN_UNIX_MS - days * INT64_C(86400000);
	struct call where = say_order(ORDER_WHERE_AM_I);
	assert_true(store_begin_session(shop->store, began_unix_ms, NULL, &problem));
	shop->at_ms = 60000;
	assert_true(shop_store(shop, &where, "where am i", NULL, ITEM_UNCHANGED, true).stored);
}

static void
sound_is_forgotten_when_its_days_are_over(void **state)
{
	static const struct {
		int keep_days;
		const char *left; /* utterances whose sound is left, of 20, 14, 13 and 0 days ago */
	} cases[] = {
		{30, "1,2,3,4"}, {14, "2,3,4"}, {13, "3,4"}, {1, "4"}, {0, ""},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct shop shop;
		struct problem problem = {""};
		shop_set_up(&shop);
		dictate_days_before(&shop, 20);
		dictate_days_before(&shop, 14); /* a minute short of it */
		dictate_days_before(&shop, 13);
		dictate_days_before(&shop, 0);
		assert_true(store_forget_sound(shop.store, cases[i].keep_days, SHOP_BEGAN_UNIX_MS,
					       &problem));
		assert_string_equal(shop_ask(&shop, "SELECT ifnull(group_concat(utterance), '')"
						    " FROM sound"),
				    cases[i].left);
		/* All the rest stays. */
		assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM utterance"), "4");
		assert_string_equal(shop_ask(&shop, "SELECT count(*) FROM calls"), "4");
		shop_tear_down(&shop);
	}
}

/* 0 days keep no sound, but nobody has heard the note yet: it is all that there is of it. */
static void
a_notes_sound_is_kept_until_it_is_written_out(void **state)
{
	static const int16_t sound[1600] = {1, 2, 3};
	struct shop shop;
	struct written written;
	struct problem problem = {""};
	shop_set_up(&shop);
	struct call note = {.type = CALL_NOTE};
	int64_t call = shop_write(&shop, &note, "note").call;
	store_note(shop.store, call, sound, 1600, &written);
	assert_true(store_forget_sound(shop.store, 0, SHOP_BEGAN_UNIX_MS, &problem));
	assert_string_equal(shop_rows(&shop, "call", "note_sound"), "1");
	const struct write written_out = {
		.text = "ask Orlscombe", .source = SOURCE_DESK, .settles = 1};
	store_write(shop.store, &written_out, NULL, &written);
	assert_true(written.stored);
	assert_true(store_forget_sound(shop.store, 14, SHOP_BEGAN_UNIX_MS, &problem));
	assert_string_equal(shop_rows(&shop, "call", "note_sound"), "1");
	assert_true(store_forget_sound(shop.store, 0, SHOP_BEGAN_UNIX_MS, &problem));
	assert_string_equal(shop_rows(&shop, "call", "note_sound"), "");
	shop_tear_down(&shop);
}

/* Of deleted sound no byte stays in the file or beside it. */
static void
forgotten_sound_is_gone_from_the_disk(void **state)
{
	struct shop shop;
	struct problem problem = {""};
	shop_set_up(&shop);
	dictate_days_before(&shop, 0);
	assert_true(store_forget_sound(shop.store, 0, SHOP_BEGAN_UNIX_MS, &problem));
	static const char *const endings[] = {"", "-wal"};
	for (size_t i = 0; i < 2; i++) {
		char path[100];
		snprintf(path, sizeof path, "%s%s", shop.path, endings[i]);
		FILE *file = fopen(path, "rb");
		assert_non_null(file);
		static char bytes[1 << 20];
		size_t size = fread(bytes, 1, sizeof bytes, file);
		fclose(file);
		assert_true(i == 0 ? size > 0 : size == 0);
		assert_null(memmem(bytes, size, "fLaC", 4)); /* a FLAC file begins so, RFC 9639 */
	}
	shop_tear_down(&shop);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_session_keeps_when_it_began_and_who_measured),
		cmocka_unit_test(of_speech_that_was_not_for_us_only_time_length_and_score_are_kept),
		cmocka_unit_test(the_tally_counts_what_was_stored_in_this_session),
		cmocka_unit_test(without_a_session_nothing_is_counted_or_written),
		cmocka_unit_test(sound_is_forgotten_when_its_days_are_over),
		cmocka_unit_test(a_notes_sound_is_kept_until_it_is_written_out),
		cmocka_unit_test(forgotten_sound_is_gone_from_the_disk),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
