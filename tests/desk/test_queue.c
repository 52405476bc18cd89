/* What comes first, what for, and when it asks for nothing more. */
#include "room.h"

#include <stdio.h>
#include <string.h>

static const char thirty[] = "[{\"text\":\"chest thirty inches\",\"confidence\":0.3},"
			     "{\"text\":\"chest thirteen\",\"confidence\":0.1},"
			     "{\"text\":\"flaw what is this\",\"confidence\":0.1}]";

static int
set_up(void **state)
{
	static struct room room;
	room_set_up(&room);
	*state = &room;
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(*state);
	return 0;
}

static void
say(struct room *room, struct call call, const char *text)
{
	assert_true(shop_write(&room->shop, &call, text).stored);
}

/* A shirt with all that a shirt wants. */
static void
measure_a_shirt(struct room *room, const char *number)
{
	say(room, say_label(CALL_ITEM, number), "item");
	say(room, say_name(CALL_KIND, "shirt"), "kind shirt");
	say(room, say_measure("chest", "21"), "chest twenty one");
	say(room, say_measure("length", "29"), "length twenty nine");
	say(room, say_measure("sleeve", "24"), "sleeve twenty four");
	say(room, say_measure("collar", "15 1/2"), "collar fifteen and a half");
}

static void
a_doubt_that_stands_comes_before_what_is_missing_before_the_rest(void **state)
{
	struct room *room = *state;
	struct reply reply;
	measure_a_shirt(room, "401"); /* the rest */
	shop_next(&room->shop);
	say(room, say_name(CALL_KIND, "shirt"), "kind shirt"); /* four are missing */
	shop_next(&room->shop);
	measure_a_shirt(room, "403"); /* a doubt */
	struct call chest = say_measure("chest", "13");
	room_doubt(room, &chest, "chest thirteen", VERDICT_DOUBTED, thirty);
	shop_next(&room->shop);
	room_open(room);
	room_get(room, "/api/queue", "", &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "rows.0.item"), "3");
	assert_string_equal(json_at(reply.json, "rows.0.reason"), "doubt");
	assert_string_equal(json_at(reply.json, "rows.0.matters.0.written"), "chest 13 in");
	assert_string_equal(json_at(reply.json, "rows.0.matters.0.field"), "measure:chest");
	assert_string_equal(json_at(reply.json, "rows.1.item"), "2");
	assert_string_equal(json_at(reply.json, "rows.1.reason"), "missing");
	assert_string_equal(json_at(reply.json, "rows.1.matters.3.question"),
			    "collar was not measured");
	assert_string_equal(json_at(reply.json, "rows.1.matters.4"), "none");
	assert_string_equal(json_at(reply.json, "rows.2.item"), "1");
	assert_string_equal(json_at(reply.json, "rows.2.reason"), "rest");
	assert_string_equal(json_at(reply.json, "rows.3"), "none");
	assert_string_equal(json_at(reply.json, "counts"),
			    "{\"doubt\":1,\"confirmed\":0,\"implausible\":0,\"missing\":1,"
			    "\"note\":0,\"word\":0,\"refused\":0,\"rest\":1}");
	reply_finish(&reply);
}

static void
each_matter_is_told_as_what_it_is(void **state)
{
	struct room *room = *state;
	struct reply reply;
	struct deed deed;
	measure_a_shirt(room, "402");
	struct call length = say_measure("length", "50"),
		    maker = {.type = CALL_MAKER, .other = true};
	struct call note = {.type = CALL_NOTE}, inches = say_measure("sleeve", "54");
	assert_true(record_write(&room->shop.record, &inches, true, &deed));
	shop_store(&room->shop, &inches, "sleeve fifty four", &deed, ITEM_UNCHANGED, false);
	say(room, length, "length fifty");
	say(room, maker, "maker other");
	say(room, note, "note");
	room_doubt(room, NULL, "murmur", VERDICT_REFUSED, NULL);
	struct call next = say_order(ORDER_STRIKE_THAT); /* there was nothing to strike */
	room_doubt(room, &next, "strike that", VERDICT_REFUSED, NULL);
	shop_next(&room->shop);
	room_open(room);
	room_get(room, "/api/item/1", "", &reply);
	static const char *const reasons[] = {"confirmed", "implausible", "note", "word",
					      "refused"};
	for (size_t i = 0; i < sizeof reasons / sizeof *reasons; i++) {
		char path[60];
		snprintf(path, sizeof path, "matters.%zu.reason", i);
		assert_string_equal(json_at(reply.json, path), reasons[i]);
	}
	assert_string_equal(json_at(reply.json, "matters.5"), "none");
	assert_string_equal(json_at(reply.json, "matters.0.written"), "sleeve 54 in");
	assert_non_null(strstr(json_at(reply.json, "matters.1.question"), "length fifty inches"));
	assert_string_equal(json_at(reply.json, "matters.1.choices.0.choice"), "length 50 cm");
	assert_string_equal(json_at(reply.json, "matters.2.can"), "[\"write-out\",\"strike\"]");
	assert_string_equal(json_at(reply.json, "matters.3.can"),
			    "[\"learn\",\"correct\",\"strike\"]");
	assert_string_equal(json_at(reply.json, "matters.4.can"), "[\"strike\"]");
	assert_string_equal(json_at(reply.json, "matters.4.text"), "murmur");
	reply_finish(&reply);
}

static void
what_else_may_have_been_said_is_offered_once_each(void **state)
{
	struct room *room = *state;
	struct reply reply;
	measure_a_shirt(room, "404");
	struct call chest = say_measure("chest", "13");
	room_doubt(room, &chest, "chest thirteen", VERDICT_DOUBTED, thirty);
	shop_next(&room->shop);
	room_open(room);
	room_get(room, "/api/item/1", "", &reply);
	assert_string_equal(json_at(reply.json, "matters.0.choices.0.choice"), "chest 30 in");
	assert_string_equal(json_at(reply.json, "matters.0.choices.0.field"), "measure:chest");
	assert_string_equal(json_at(reply.json, "matters.0.choices.0.value"), "30");
	assert_string_equal(json_at(reply.json, "matters.0.choices.1"), "none");
	reply_finish(&reply);
}

static void
what_was_looked_over_asks_no_more_until_something_is_said_again(void **state)
{
	struct room *room = *state;
	struct reply reply;
	say(room, say_name(CALL_KIND, "shirt"), "kind shirt");
	shop_next(&room->shop);
	room_open(room);
	room_post(room, "looked", json_pack("{s:i}", "item", 1), &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "item.looked"), "true");
	assert_string_equal(json_at(reply.json, "item.matters"), "[]");
	reply_finish(&reply);
	room_get(room, "/api/queue", "", &reply);
	assert_string_equal(json_at(reply.json, "rows"), "[]");
	assert_string_equal(json_at(reply.json, "looked"), "1");
	reply_finish(&reply);

	assert_true(store_load(room->shop.store, 1, &room->shop.record));
	say(room, say_measure("chest", "21"), "chest twenty one");
	room_get(room, "/api/queue", "", &reply);
	assert_string_equal(json_at(reply.json, "rows.0.reason"), "missing");
	assert_string_equal(json_at(reply.json, "rows.0.matters.2.field"), "measure:collar");
	assert_string_equal(json_at(reply.json, "rows.0.matters.3"), "none");
	reply_finish(&reply);
}

static void
of_an_item_in_hand_nothing_is_missing_yet(void **state)
{
	struct room *room = *state;
	struct reply reply;
	say(room, say_name(CALL_KIND, "shirt"), "kind shirt");
	room_open(room);
	room_get(room, "/api/queue", "", &reply);
	assert_string_equal(json_at(reply.json, "rows.0.reason"), "rest");
	assert_string_equal(json_at(reply.json, "rows.0.state"), "open");
	reply_finish(&reply);
}

static void
what_was_said_of_no_item_is_there_too(void **state)
{
	struct room *room = *state;
	struct reply reply;
	struct call kind = say_name(CALL_KIND, "shirt");
	struct written written = room_doubt(room, &kind, "kind shirt", VERDICT_DOUBTED, NULL);
	say(room, say_name(CALL_KIND, "skirt"), "kind skirt");
	room_open(room);
	room_get(room, "/api/queue", "", &reply);
	assert_string_equal(json_at(reply.json, "loose.0.written"), "kind shirt");
	assert_string_equal(json_at(reply.json, "loose.0.suggested_item"), "1");
	assert_string_equal(json_at(reply.json, "loose.1"), "none");
	reply_finish(&reply);
	/* Where it belongs has to be said. */
	room_post(room, "confirm", json_pack("{s:I}", "call", written.call), &reply);
	assert_int_equal(reply.status, 422);
	reply_finish(&reply);
	room_post(room, "confirm",
		  json_pack("{s:I,s:i,s:i}", "call", written.call, "item", 1, "expect", 1), &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "said"), "kind shirt, was kind skirt");
	reply_finish(&reply);
	room_get(room, "/api/queue", "", &reply);
	assert_string_equal(json_at(reply.json, "loose"), "[]");
	reply_finish(&reply);
}

static void
a_long_queue_comes_in_pages_without_gaps(void **state)
{
	struct room *room = *state;
	struct reply reply;
	char path[100] = "/api/queue?limit=7", seen[64] = "";
	for (int i = 0; i < 30; i++) {
		if (i % 3 == 0)
			say(room, say_name(CALL_KIND, "shirt"), "kind shirt");
		else
			say(room, say_name(CALL_MAKER, "marlock"), "maker marlock");
		shop_next(&room->shop);
	}
	room_open(room);
	for (int pages = 0; path[0] != '\0'; pages++) {
		assert_true(pages < 5);
		room_get(room, path, "", &reply);
		for (size_t i = 0; i < json_array_size(json_object_get(reply.json, "rows")); i++) {
			char row[40];
			snprintf(row, sizeof row, "rows.%zu.item", i);
			int item = atoi(json_at(reply.json, row));
			assert_int_equal(seen[item], 0);
			seen[item] = 1;
		}
		path[0] = '\0';
		if (json_is_string(json_object_get(reply.json, "next")))
			snprintf(path, sizeof path, "/api/queue?limit=7&after=%s",
				 json_at(reply.json, "next"));
		reply_finish(&reply);
	}
	for (int item = 1; item <= 30; item++)
		assert_int_equal(seen[item], 1);
	room_get(room, "/api/queue?reason=missing&limit=200", "", &reply);
	assert_int_equal(json_array_size(json_object_get(reply.json, "rows")), 10);
	reply_finish(&reply);
	room_get(room, "/api/queue?reason=rest&limit=200&day=2026-11-25", "", &reply);
	assert_int_equal(json_array_size(json_object_get(reply.json, "rows")), 20);
	reply_finish(&reply);
	room_get(room, "/api/queue?day=1999-01-01&after=nonsense&limit=-4", "", &reply);
	assert_string_equal(json_at(reply.json, "rows"), "[]");
	reply_finish(&reply);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(
			a_doubt_that_stands_comes_before_what_is_missing_before_the_rest, set_up,
			tear_down),
		cmocka_unit_test_setup_teardown(each_matter_is_told_as_what_it_is, set_up,
						tear_down),
		cmocka_unit_test_setup_teardown(what_else_may_have_been_said_is_offered_once_each,
						set_up, tear_down),
		cmocka_unit_test_setup_teardown(
			what_was_looked_over_asks_no_more_until_something_is_said_again, set_up,
			tear_down),
		cmocka_unit_test_setup_teardown(of_an_item_in_hand_nothing_is_missing_yet, set_up,
						tear_down),
		cmocka_unit_test_setup_teardown(what_was_said_of_no_item_is_there_too, set_up,
						tear_down),
		cmocka_unit_test_setup_teardown(a_long_queue_comes_in_pages_without_gaps, set_up,
						tear_down),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
