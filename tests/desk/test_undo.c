/* Whatever was done at the desk can be taken back, as long as nobody went on from it. */
#include "room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct room room;

static int
set_up(void **state)
{
	room_set_up(&room);
	struct call kind = say_name(CALL_KIND, "shirt"), chest = say_measure("chest", "21");
	struct call maker = {.type = CALL_MAKER, .other = true}, note = {.type = CALL_NOTE};
	assert_true(shop_write(&room.shop, &kind, "kind shirt").stored);
	assert_true(shop_write(&room.shop, &chest, "chest twenty one").stored);
	assert_true(shop_write(&room.shop, &maker, "maker other").stored);
	assert_true(shop_write(&room.shop, &note, "note").stored);
	struct call waist = say_measure("waist", "17");
	room_doubt(&room, &waist, "waist seventeen", VERDICT_DOUBTED, NULL);
	shop_next(&room.shop);
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(&room);
	return 0;
}

/* All that a page would see, but for what only tells what was done. */
static char *
as_seen(void)
{
	struct reply reply;
	room_get(&room, "/api/item/1", "", &reply);
	json_t *fields = json_object_get(reply.json, "fields");
	for (size_t i = 0; i < json_array_size(fields); i++)
		json_object_del(json_array_get(fields, i), "history");
	json_object_del(reply.json, "calls");
	json_object_del(reply.json, "sketch");
	json_object_del(reply.json, "closed_at");
	char *seen = json_dumps(reply.json, JSON_COMPACT | JSON_SORT_KEYS);
	reply_finish(&reply);
	return seen;
}

static void
what_is_undone_is_as_it_was_before(void **state)
{
	static const struct {
		const char *action, *body;
	} cases[] = {
		{"edit", "{'item':1,'field':'measure:chest','value':'22','expect':2}"},
		{"edit", "{'item':1,'field':'measure:chest','value':'','expect':2}"},
		{"edit", "{'item':1,'field':'measure:hip','value':'22','expect':0}"},
		{"edit", "{'item':1,'field':'flaw:new','value':'small hole','expect':0}"},
		{"edit", "{'item':1,'field':'kind','value':'dress','expect':1}"},
		{"edit", "{'item':1,'field':'maker','value':'Gull','expect':3,'settles':3}"},
		{"strike", "{'item':1,'field':'measure:chest','expect':2}"},
		{"strike", "{'call':4,'expect':4}"},
		{"strike", "{'call':5}"},
		{"confirm", "{'call':5}"},
		{"write-out", "{'call':4,'text':'the hem was let down','expect':0}"},
		{"learn", "{'call':3,'word':'gull and sons','expect':3}"},
		{"looked", "{'item':1}"},
		{"state", "{'item':1,'state':'set aside'}"},
	};
	room_open(&room);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply;
		char body[200];
		snprintf(body, sizeof body, "%s", cases[i].body);
		for (char *c = body; *c != '\0'; c++)
			*c = *c == '\'' ? '"' : *c;
		char *before = as_seen();
		room_post(&room, cases[i].action, json_loads(body, 0, NULL), &reply);
		if (reply.status != 200)
			fail_msg("%s %s: %s", cases[i].action, body, reply.body);
		int call = atoi(json_at(reply.json, "call"));
		reply_finish(&reply);
		char *done = as_seen();
		assert_string_not_equal(done, before);
		free(done);
		room_post(&room, "undo", json_pack("{s:i}", "call", call), &reply);
		if (reply.status != 200)
			fail_msg("undo of %s: %s", body, reply.body);
		reply_finish(&reply);
		char *after = as_seen();
		assert_string_equal(after, before);
		free(before);
		free(after);
		room_post(&room, "undo", json_pack("{s:i}", "call", call), &reply);
		assert_int_equal(reply.status, 409);
		reply_finish(&reply);
	}
}

static void
what_somebody_went_on_from_is_not_undone(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "edit",
		  json_pack("{s:i,s:s,s:s,s:i}", "item", 1, "field", "measure:chest", "value", "22",
			    "expect", 2),
		  &reply);
	int call = atoi(json_at(reply.json, "call"));
	reply_finish(&reply);
	assert_true(store_load(room.shop.store, 1, &room.shop.record));
	struct call chest = say_measure("chest", "23");
	assert_true(shop_write(&room.shop, &chest, "chest twenty three").stored);
	room_post(&room, "undo", json_pack("{s:i}", "call", call), &reply);
	assert_int_equal(reply.status, 409);
	assert_string_equal(json_at(reply.json, "error"),
			    "it was changed again since, and stays as it is now");
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value", "readings"), "23");
}

static void
what_was_said_at_the_station_is_not_undone_here(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "undo", json_pack("{s:i}", "call", 2), &reply);
	assert_int_equal(reply.status, 422);
	reply_finish(&reply);
	room_post(&room, "undo", json_pack("{s:i}", "call", 9999), &reply);
	assert_int_equal(reply.status, 404);
	reply_finish(&reply);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(what_is_undone_is_as_it_was_before, set_up,
						tear_down),
		cmocka_unit_test_setup_teardown(what_somebody_went_on_from_is_not_undone, set_up,
						tear_down),
		cmocka_unit_test_setup_teardown(what_was_said_at_the_station_is_not_undone_here,
						set_up, tear_down),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
