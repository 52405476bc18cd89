/* What is written at the desk: as calls of the journal, by the same checks as at the station, and
 * never over what somebody else wrote meanwhile. */
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
	struct call stain = say_name(CALL_FLAW, "stain");
	assert_true(shop_write(&room.shop, &kind, "kind shirt").stored);
	assert_true(shop_write(&room.shop, &chest, "chest twenty one").stored);
	assert_true(shop_write(&room.shop, &stain, "flaw stain").stored);
	shop_next(&room.shop);
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(&room);
	return 0;
}

static json_t *
edit(const char *field, const char *value, int expect)
{
	return json_pack("{s:i,s:s,s:s,s:i,s:s}", "item", 1, "field", field, "value", value,
			 "expect", expect, "who", "mara");
}

static void
a_correction_is_a_call_of_the_desk_and_reaches_the_views(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "edit", edit("measure:chest", "22 1/4", 2), &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "said"), "chest 22 1/4 in, was chest 21 in");
	assert_non_null(strstr(json_at(reply.json, "item.title"), "chest 22 1/4 in"));
	const json_t *field = field_of(json_object_get(reply.json, "item"), "measure:chest");
	assert_string_equal(json_at(field, "value"), "22 1/4");
	assert_string_equal(json_at(field, "history.0.who"), "mara");
	assert_string_equal(json_at(field, "history.0.source"), "desk");
	assert_string_equal(json_at(field, "history.1.value"), "21");
	assert_string_equal(json_at(field, "history.1.source"), "voice");
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value unit um confirmed", "readings"),
			    "22 1/4,in,565150,0");
	assert_string_equal(shop_rows(&room.shop, "source verdict text who item",
				      "calls WHERE source = 'desk'"),
			    "desk,taken,22 1/4,mara,1");
	assert_string_equal(shop_ask(&room.shop, "SELECT state FROM items"), "done");
}

static void
values_are_read_as_they_are_typed_or_refused_in_a_sentence(void **state)
{
	static const struct {
		const char *field, *value;
		int status;
		const char *written;
	} cases[] = {
		{"measure:sleeve", "24.5", 200, "24.5 in (62.2 cm)"},
		{"measure:length", " 74 cm ", 200, "74 cm (29 1/8 in)"},
		{"measure:collar", "none", 200, "none"},
		{"maker", "<b>Tide & \"Wrack\"</b>", 200, "<b>Tide & \"Wrack\"</b>"},
		{"size", "\xd9\x85\xd8\xb1\xd8\xad\xd8\xa8\xd8\xa7", 200,
		 "\xd9\x85\xd8\xb1\xd8\xad\xd8\xa8\xd8\xa7"},
		{"colour", "dark blue", 200, "dark blue"},
		{"cloth", "60 % cotton, 40 % linen", 200, "60 % cotton, 40 % linen"},
		{"pilling", "3-4", 200, "3-4"},
		{"weight", "320 g", 200, "320 g"},
		{"price", "18.50", 200, "18.50 USD"},
		{"cost", "4 EUR", 200, "4.00 EUR"},
		{"route", "mending", 200, "mending"},
		{"number", "0482", 200, "0482"},
		{"bin", "14", 200, "14"},
		{"flaw:new", "small hole, left cuff", 200, ""},
		/* And these are none. */
		{"measure:sleeve", "twenty four", 422, NULL},
		{"measure:sleeve", "24 25", 422, NULL},
		{"measure:sleeve", "-3", 422, NULL},
		{"measure:tail", "3", 422, NULL},
		{"colour", "<script>", 422, NULL},
		{"colour", "ultramauve", 422, NULL},
		{"cloth", "cotton", 422, NULL},
		{"pilling", "6", 422, NULL},
		{"weight", "heavy", 422, NULL},
		{"price", "a lot", 422, NULL},
		{"price", "1.234", 422, NULL},
		{"route", "the moon", 422, NULL},
		{"number", "12a", 422, NULL},
		{"flaw:new", "hole in the ozone layer", 422, NULL},
		{"flaw:new", "none", 422, NULL}, /* beside a flaw */
		{"kind", "spaceship", 422, NULL},
		{"measure:hip", "", 422, NULL}, /* nothing to strike */
		{"tail", "3", 400, NULL},
		{"flaw:x", "hole", 400, NULL},
		{"", "3", 400, NULL},
	};
	room_open(&room);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply, item;
		room_get(&room, "/api/item/1", "", &item);
		int expect = 0;
		const json_t *fields = json_object_get(item.json, "fields");
		for (size_t f = 0; f < json_array_size(fields); f++)
			if (strcmp(json_at(json_array_get(fields, f), "field"), cases[i].field) ==
			    0)
				expect = atoi(json_at(json_array_get(fields, f), "entry"));
		reply_finish(&item);
		room_post(&room, "edit", edit(cases[i].field, cases[i].value, expect), &reply);
		if (reply.status != cases[i].status)
			fail_msg("%s = %s: %d, %s", cases[i].field, cases[i].value, reply.status,
				 reply.body);
		if (cases[i].written == NULL)
			assert_true(strlen(json_at(reply.json, "error")) > 5);
		else if (cases[i].written[0] != '\0')
			assert_string_equal(json_at(field_of(json_object_get(reply.json, "item"),
							     cases[i].field),
						    "written"),
					    cases[i].written);
		reply_finish(&reply);
	}
	char *much = malloc(10001);
	memset(much, 'x', 10000);
	much[10000] = '\0';
	struct reply reply;
	room_post(&room, "edit", edit("parcel", much, 0), &reply);
	assert_int_equal(reply.status, 422);
	reply_finish(&reply);
	free(much);
}

static void
what_no_garment_has_is_asked_again(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "edit", edit("measure:chest", "54", 2), &reply);
	assert_int_equal(reply.status, 422);
	assert_string_equal(json_at(reply.json, "doubt"), "true");
	assert_string_equal(json_at(reply.json, "severity"), "impossible");
	assert_string_equal(json_at(reply.json, "second.value"), "54 cm");
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value", "readings"), "21");
	/* It is taken by whoever is sure, and kept as confirmed. */
	json_t *again = edit("measure:chest", "54", 2);
	json_object_set_new(again, "sure", json_true());
	room_post(&room, "edit", again, &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value confirmed", "readings"), "54,1");
}

static void
of_two_who_edit_the_same_value_the_second_is_shown_the_firsts(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "edit", edit("measure:chest", "22", 2), &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	json_t *second = edit("measure:chest", "23", 2);
	json_object_set_new(second, "who", json_string("jo"));
	room_post(&room, "edit", second, &reply);
	assert_int_equal(reply.status, 409);
	assert_string_equal(json_at(reply.json, "error"), "mara made it chest 22 in meanwhile");
	assert_string_equal(json_at(reply.json, "conflict"), "true");
	assert_string_equal(json_at(reply.json, "field.value"), "22");
	int entry = atoi(json_at(reply.json, "field.entry"));
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value", "readings"), "22");
	/* Having seen it, jo may still have it her way; nothing is lost. */
	room_post(&room, "edit", edit("measure:chest", "23", entry), &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value", "entry WHERE type = 'measure'"),
			    "21;22;23");
}

static void
the_station_may_be_the_quicker_one(void **state)
{
	struct reply reply;
	room_open(&room);
	assert_true(store_load(room.shop.store, 1, &room.shop.record));
	struct call chest = say_measure("chest", "21 1/2");
	assert_true(shop_write(&room.shop, &chest, "chest twenty one and a half").stored);
	room_post(&room, "edit", edit("measure:chest", "22", 2), &reply);
	assert_int_equal(reply.status, 409);
	assert_string_equal(json_at(reply.json, "error"),
			    "the station made it chest 21 1/2 in meanwhile");
	reply_finish(&reply);
	room_post(&room, "strike",
		  json_pack("{s:i,s:s,s:i}", "item", 1, "field", "flaw:3", "expect", 3), &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	room_post(&room, "edit", edit("flaw:3", "hole", 3), &reply);
	assert_int_equal(reply.status, 409);
	assert_string_equal(json_at(reply.json, "error"),
			    "it was taken back meanwhile, and nothing stands there now");
	reply_finish(&reply);
}

static void
a_flaw_is_replaced_by_what_is_typed_over_it(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "edit", edit("flaw:3", "large stain, front", 3), &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "flaw size part", "flaws"), "stain,large,front");
}

static void
a_strike_brings_back_what_was_replaced(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "edit", edit("measure:chest", "22", 2), &reply);
	reply_finish(&reply);
	room_post(&room, "strike",
		  json_pack("{s:i,s:s,s:i}", "item", 1, "field", "measure:chest", "expect", 4),
		  &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "said"), "struck: chest 22 in");
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value", "readings"), "21");
	/* Emptying a field is a strike too. */
	room_post(&room, "edit", edit("measure:chest", "", 2), &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "value", "readings"), "");
}

static void
a_doubt_is_confirmed_chosen_corrected_or_dismissed(void **state)
{
	static const char thirty[] = "[{\"text\":\"waist thirty\",\"confidence\":0.3},"
				     "{\"text\":\"waist eighteen\",\"confidence\":0.2}]";
	static const struct {
		const char *action, *how, *value;
		const char *readings;
	} cases[] = {
		{"confirm", NULL, NULL, "chest,21,0;waist,17,1"},
		{"choose", "choice", "waist 18 in", "chest,21,0;waist,18,1"},
		{"strike", NULL, NULL, "chest,21,0"},
		{"edit", "value", "16", "chest,21,0;waist,16,0"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply;
		if (i > 0)
			set_up(state);
		struct call waist = say_measure("waist", "17");
		room.shop.record.item = 1;
		struct written written =
			room_doubt(&room, &waist, "waist seventeen", VERDICT_DOUBTED, thirty);
		room_open(&room);
		json_t *body = json_pack("{s:I}", "call", written.call);
		if (strcmp(cases[i].action, "edit") == 0) {
			json_decref(body);
			body = edit("measure:waist", "16", 0);
			json_object_set_new(body, "settles", json_integer(written.call));
		} else if (cases[i].how != NULL)
			json_object_set_new(body, cases[i].how, json_string(cases[i].value));
		json_t *again = json_deep_copy(body);
		room_post(&room, cases[i].action, body, &reply);
		if (reply.status != 200)
			fail_msg("%s: %s", cases[i].action, reply.body);
		assert_null(strstr(json_at(reply.json, "item.matters"), "\"doubt\""));
		reply_finish(&reply);
		assert_string_equal(shop_rows(&room.shop, "measure value confirmed", "readings"),
				    cases[i].readings);
		char sql[80];
		snprintf(sql, sizeof sql, "SELECT settles FROM calls WHERE source = 'desk'");
		assert_int_equal(atoi(shop_ask(&room.shop, sql)), written.call);
		/* Somebody else, a moment later, is told that it was answered. */
		room_post(&room, cases[i].action, again, &reply);
		assert_int_equal(reply.status, 409);
		reply_finish(&reply);
		if (i + 1 < sizeof cases / sizeof *cases)
			tear_down(state);
	}
}

static void
a_doubt_is_not_confirmed_over_what_was_written_since(void **state)
{
	struct reply reply;
	struct call waist = say_measure("waist", "17");
	room.shop.record.item = 1;
	struct written written =
		room_doubt(&room, &waist, "waist seventeen", VERDICT_DOUBTED, NULL);
	room_open(&room);
	room_post(&room, "edit", edit("measure:waist", "18", 0), &reply);
	assert_int_equal(reply.status, 200);
	assert_null(strstr(json_at(reply.json, "item.matters"), "\"doubt\"")); /* answered */
	reply_finish(&reply);
	room_post(&room, "confirm", json_pack("{s:I}", "call", written.call), &reply);
	assert_int_equal(reply.status, 409);
	assert_string_equal(json_at(reply.json, "error"), "mara made it waist 18 in meanwhile");
	int entry = atoi(json_at(reply.json, "field.entry"));
	reply_finish(&reply);
	room_post(&room, "confirm", json_pack("{s:I,s:i}", "call", written.call, "expect", entry),
		  &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
}

static void
a_note_is_written_out_and_found_by_its_words(void **state)
{
	struct reply reply;
	struct call note = {.type = CALL_NOTE};
	static const int16_t hum[8000] = {0, 500, -500, 300};
	struct written kept;
	assert_true(store_load(room.shop.store, 1, &room.shop.record));
	struct written written = shop_write(&room.shop, &note, "note");
	store_note(room.shop.store, written.call, hum, 8000, &kept);
	room_open(&room);
	room_get(&room, "/api/item/1", "", &reply);
	assert_string_equal(json_at(reply.json, "matters.0.reason"), "missing");
	assert_string_equal(json_at(reply.json, "notes.0.text"), "");
	char address[40];
	snprintf(address, sizeof address, "/note/%lld", (long long)written.call);
	assert_string_equal(json_at(reply.json, "notes.0.note"), address);
	reply_finish(&reply);
	room_post(&room, "write-out",
		  json_pack("{s:I,s:s,s:i}", "call", written.call, "text",
			    "Hem let down,\n<i>tulle</i> \xf0\x9f\xa7\xb5", "expect", 0),
		  &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "item.notes.0.text"),
			    "Hem let down,\n<i>tulle</i> \xf0\x9f\xa7\xb5");
	assert_null(strstr(json_at(reply.json, "item.matters"), "\"note\":\""));
	reply_finish(&reply);
	room_get(&room, "/api/search?q=tulle+hem", "", &reply);
	assert_string_equal(json_at(reply.json, "rows.0.item"), "1");
	reply_finish(&reply);
	assert_string_equal(shop_rows(&room.shop, "substr(text,1,3)", "notes"), "Hem");
	/* Somebody who had not seen it. */
	room_post(&room, "write-out",
		  json_pack("{s:I,s:s,s:i}", "call", written.call, "text", "Other", "expect", 0),
		  &reply);
	assert_int_equal(reply.status, 409);
	reply_finish(&reply);
	char *much = malloc(4002);
	memset(much, 'x', 4001);
	much[4001] = '\0';
	room_post(&room, "write-out", json_pack("{s:I,s:s}", "call", written.call, "text", much),
		  &reply);
	assert_int_equal(reply.status, 422);
	reply_finish(&reply);
	free(much);
}

static void
a_word_off_the_list_joins_it(void **state)
{
	struct reply reply;
	struct call maker = {.type = CALL_MAKER, .other = true};
	assert_true(store_load(room.shop.store, 1, &room.shop.record));
	struct written written = shop_write(&room.shop, &maker, "maker other");
	int entry = (int)written.first_entry;
	room_open(&room);
	room_post(&room, "learn",
		  json_pack("{s:I,s:s,s:i}", "call", written.call, "word", "Gull & Sons", "expect",
			    entry),
		  &reply);
	assert_int_equal(reply.status, 422); /* nobody can say the sign */
	reply_finish(&reply);
	room_post(&room, "learn",
		  json_pack("{s:I,s:s,s:i}", "call", written.call, "word", "Gull  and Sons",
			    "expect", entry),
		  &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(
		json_at(field_of(json_object_get(reply.json, "item"), "maker"), "value"),
		"gull and sons");
	reply_finish(&reply);
	room_get(&room, "/api/lists", "", &reply);
	assert_non_null(strstr(json_at(reply.json, "maker"), "\"gull and sons\""));
	reply_finish(&reply);
	char path[160], line[64] = "";
	snprintf(path, sizeof path, "%s/makers.txt", room.learnt);
	FILE *list = fopen(path, "r");
	assert_non_null(list);
	assert_non_null(fgets(line, sizeof line, list));
	fclose(list);
	assert_string_equal(line, "gull and sons\n");
}

static void
an_item_put_aside_is_done_once_somebody_says_so(void **state)
{
	struct reply reply;
	room_open(&room);
	room_post(&room, "state",
		  json_pack("{s:i,s:s,s:s}", "item", 1, "state", "set aside", "expect", "done"),
		  &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(json_at(reply.json, "item.state"), "set aside");
	reply_finish(&reply);
	room_post(&room, "state",
		  json_pack("{s:i,s:s,s:s}", "item", 1, "state", "done", "expect", "done"), &reply);
	assert_int_equal(reply.status, 409);
	reply_finish(&reply);
	room_post(&room, "state", json_pack("{s:i,s:s}", "item", 1, "state", "lost"), &reply);
	assert_int_equal(reply.status, 422);
	reply_finish(&reply);
}

static void
what_is_no_request_of_a_page_changes_nothing(void **state)
{
	static const char *const bodies[] = {
		"[]",
		"{}",
		"null",
		"{\"item\":1}",
		"{\"item\":\"1\",\"field\":\"bin\"}",
		"{\"item\":1,\"field\":\"bin\",\"value\":\"1\"}",
		"{\"item\":1,\"field\":\"bin\",\"value\":1,\"expect\":0}",
		"{\"item\":9,\"field\":\"bin\",\"value\":\"1\",\"expect\":0}",
		"{\"item\":-1,\"field\":\"bin\",\"value\":\"1\",\"expect\":0}",
		"{\"item\":1e300,\"field\":\"bin\",\"value\":\"1\",\"expect\":0}"};
	room_open(&room);
	for (size_t i = 0; i < sizeof bodies / sizeof *bodies; i++) {
		struct reply reply;
		room_post(&room, "edit", json_loads(bodies[i], JSON_DECODE_ANY, NULL), &reply);
		assert_in_range(reply.status, 400, 422);
		assert_true(strlen(json_at(reply.json, "error")) > 5);
		reply_finish(&reply);
	}
	assert_string_equal(shop_ask(&room.shop, "SELECT count(*) FROM call WHERE source = 'desk'"),
			    "0");
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(a_correction_is_a_call_of_the_desk_and_reaches_the_views),
		TEST(values_are_read_as_they_are_typed_or_refused_in_a_sentence),
		TEST(what_no_garment_has_is_asked_again),
		TEST(of_two_who_edit_the_same_value_the_second_is_shown_the_firsts),
		TEST(the_station_may_be_the_quicker_one),
		TEST(a_flaw_is_replaced_by_what_is_typed_over_it),
		TEST(a_strike_brings_back_what_was_replaced),
		TEST(a_doubt_is_confirmed_chosen_corrected_or_dismissed),
		TEST(a_doubt_is_not_confirmed_over_what_was_written_since),
		TEST(a_note_is_written_out_and_found_by_its_words),
		TEST(a_word_off_the_list_joins_it),
		TEST(an_item_put_aside_is_done_once_somebody_says_so),
		TEST(what_is_no_request_of_a_page_changes_nothing),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
