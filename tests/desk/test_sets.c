/* Sets and their pieces at the desk, and what else is said of a garment: for whom, care, mending.
 */
#include "room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct room room;

static struct call
set_of(const char *one, const char *other)
{
	struct call part = say_name(CALL_PART, other);
	strcpy(part.listed[0].name, one);
	strcpy(part.listed[1].name, other);
	part.listed_count = 2;
	return part;
}

/* A set of jacket and trousers, of which the jacket's chest was measured. */
static int
set_up(void **state)
{
	room_set_up(&room);
	struct call kind = say_name(CALL_KIND, "set"), part = set_of("jacket", "trousers");
	struct call chest = say_measure("jacket chest", "21");
	assert_true(shop_write(&room.shop, &kind, "kind set").stored);
	assert_true(shop_write(&room.shop, &part, "part trousers").stored);
	assert_true(shop_write(&room.shop, &chest, "chest twenty one").stored);
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(&room);
	return 0;
}

/* What is answered when the value is typed into the field, as it stands then. */
static void
type(const char *name, const char *value, struct reply *reply)
{
	struct reply item;
	room_get(&room, "/api/item/1", "", &item);
	const json_t *fields = json_object_get(item.json, "fields");
	int expect = 0;
	for (size_t i = 0; i < json_array_size(fields); i++)
		if (strcmp(json_at(json_array_get(fields, i), "field"), name) == 0)
			expect = atoi(json_at(json_array_get(fields, i), "entry"));
	reply_finish(&item);
	room_post(&room, "edit",
		  json_pack("{s:i,s:s,s:s,s:i,s:b}", "item", 1, "field", name, "value", value,
			    "expect", expect, "sure", true),
		  reply);
}

static void
the_measures_of_each_piece_are_asked_for(void **state)
{
	struct reply reply;
	shop_next(&room.shop);
	room_open(&room);
	room_get(&room, "/api/item/1", "", &reply);
	static const char *const missing[] = {
		"jacket shoulder was not measured",	 "jacket sleeve was not measured",
		"jacket length was not measured",	 "trousers waist was not measured",
		"trousers front rise was not measured",	 "trousers inseam was not measured",
		"trousers leg opening was not measured",
	};
	for (size_t i = 0; i < sizeof missing / sizeof *missing; i++) {
		char path[60];
		snprintf(path, sizeof path, "matters.%zu.question", i);
		assert_string_equal(json_at(reply.json, path), missing[i]);
	}
	assert_string_equal(json_at(reply.json, "matters.7"), "none");
	assert_string_equal(json_at(reply.json, "matters.0.field"), "measure:jacket shoulder");
	const json_t *chest = field_of(reply.json, "measure:jacket chest");
	assert_string_equal(json_at(chest, "value"), "21");
	assert_string_equal(json_at(chest, "wanted"), "true");
	assert_string_equal(json_at(chest, "shape"), "flat");
	const json_t *waist = field_of(reply.json, "measure:trousers waist");
	assert_string_equal(json_at(waist, "missing"), "true");
	assert_string_equal(json_at(field_of(reply.json, "part"), "written"), "jacket, trousers");
	reply_finish(&reply);
}

static void
what_is_typed_of_a_piece_stands_under_its_name(void **state)
{
	static const struct {
		const char *field, *value;
		int status;
		const char *written;
	} cases[] = {
		{"measure:trousers waist", "16", 200, "16 in (40.6 cm)"},
		{"measure:jacket left sleeve", "24", 200, "24 in (61.0 cm)"},
		{"flaw:new", "hole, left trousers knee", 200, NULL},
		{"group", "Ladies", 200, "women"},
		{"care", "wash thirty, do not bleach", 200, "wash thirty, do not bleach"},
		{"mending", "new zip 30 minutes, fix hem, materials 4.5", 200,
		 "new zip 30 minutes, fix hem, materials 4.50 USD"},
		{"part", "jacket, waistcoat, trousers", 200, "jacket, waistcoat, trousers"},
		/* And what is refused. */
		{"measure:chest", "21", 422, NULL}, /* of which piece? */
		{"measure:jacket tail", "21", 422, NULL},
		{"part", "jacket, wing", 422, NULL},
		{"part", "set", 422, NULL},
		{"group", "dogs", 422, NULL},
		{"care", "boil for an hour", 422, NULL},
		{"mending", "a miracle", 422, NULL},
	};
	shop_next(&room.shop);
	room_open(&room);
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply;
		type(cases[i].field, cases[i].value, &reply);
		if (reply.status != cases[i].status)
			fail_msg("%s = %s: %d, %s", cases[i].field, cases[i].value, reply.status,
				 reply.body);
		if (cases[i].written != NULL)
			assert_string_equal(json_at(field_of(json_object_get(reply.json, "item"),
							     cases[i].field),
						    "written"),
					    cases[i].written);
		reply_finish(&reply);
	}
	assert_string_equal(shop_rows(&room.shop, "measure value", "readings ORDER BY measure"),
			    "jacket chest,21;jacket left sleeve,24;trousers waist,16");
	struct reply reply;
	room_get(&room, "/api/item/1", "", &reply);
	assert_non_null(strstr(json_at(reply.json, "title"), "jacket, waistcoat and trousers"));
	assert_non_null(strstr(json_at(reply.json, "text"), "do not bleach"));
	reply_finish(&reply);
}

static void
the_lists_of_what_is_said_are_suggested(void **state)
{
	struct reply reply;
	room_open(&room);
	room_get(&room, "/api/lists", "", &reply);
	assert_non_null(strstr(json_at(reply.json, "group"), "\"women\""));
	assert_non_null(strstr(json_at(reply.json, "care"), "\"do not bleach\""));
	assert_non_null(strstr(json_at(reply.json, "mending"), "\"new zip\""));
	reply_finish(&reply);
}

static void
what_else_may_have_been_said_is_of_the_same_piece(void **state)
{
	static const char thirteen[] = "[{\"text\":\"chest thirty\",\"confidence\":0.3}]";
	struct reply reply;
	struct call chest = say_measure("jacket chest", "13");
	room_doubt(&room, &chest, "chest thirteen", VERDICT_DOUBTED, thirteen);
	shop_next(&room.shop);
	room_open(&room);
	room_get(&room, "/api/item/1", "", &reply);
	assert_string_equal(json_at(reply.json, "matters.0.choices.0.choice"),
			    "jacket chest 30 in");
	reply_finish(&reply);
}

static void
a_piece_that_was_doubted_joins_the_others(void **state)
{
	struct reply reply;
	struct call part = say_name(CALL_PART, "waistcoat");
	struct written written = room_doubt(&room, &part, "part waistcoat", VERDICT_DOUBTED, NULL);
	shop_next(&room.shop);
	room_open(&room);
	room_post(&room, "confirm", json_pack("{s:I}", "call", written.call), &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(
		json_at(field_of(json_object_get(reply.json, "item"), "part"), "written"),
		"jacket, trousers, waistcoat");
	reply_finish(&reply);
}

static void
nothing_but_a_set_has_pieces(void **state)
{
	struct reply reply;
	struct call kind = say_name(CALL_KIND, "shirt");
	shop_next(&room.shop);
	assert_true(shop_write(&room.shop, &kind, "kind shirt").stored);
	shop_next(&room.shop);
	room_open(&room);
	room_get(&room, "/api/item/2", "", &reply);
	assert_null(strstr(json_at(reply.json, "fields"), "\"field\":\"part\""));
	reply_finish(&reply);
	room_post(&room, "edit",
		  json_pack("{s:i,s:s,s:s,s:i}", "item", 2, "field", "part", "value", "jacket",
			    "expect", 0),
		  &reply);
	assert_int_equal(reply.status, 422);
	reply_finish(&reply);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(the_measures_of_each_piece_are_asked_for),
		TEST(what_is_typed_of_a_piece_stands_under_its_name),
		TEST(the_lists_of_what_is_said_are_suggested),
		TEST(what_else_may_have_been_said_is_of_the_same_piece),
		TEST(a_piece_that_was_doubted_joins_the_others),
		TEST(nothing_but_a_set_has_pieces),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
