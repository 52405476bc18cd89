/* Finding, the figures of a day, and handing a selection on. */
#include "room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct room room;

static void
put(const char *number, const char *kind, const char *maker, const char *route, const char *bin,
    const char *price, enum item_change end)
{
	struct shop *shop = &room.shop;
	struct call calls[] = {say_label(CALL_ITEM, number), say_name(CALL_KIND, kind),
			       say_name(CALL_MAKER, maker),  say_name(CALL_ROUTE, route),
			       say_label(CALL_BIN, bin),     {.type = CALL_PRICE}};
	assert_true(money_parse(price, "USD", &calls[5].money));
	for (size_t i = 0; i < sizeof calls / sizeof *calls; i++)
		assert_true(shop_write(shop, &calls[i], "as said").stored);
	struct call next = say_order(ORDER_NEXT);
	assert_true(shop_store(shop, &next, "next", NULL, end, false).stored);
	record_init(&shop->record);
}

static int
set_up(void **state)
{
	room_set_up(&room);
	put("401", "shirt", "marlock", "sale", "14", "18.50", ITEM_CLOSED);
	put("402", "skirt", "hallowick", "mending", "14", "9.05", ITEM_PUT_ASIDE);
	put("403", "shirt", "quernby mill", "charity", "23", "2.00", ITEM_CLOSED);
	put("0403", "coat", "<b>\"Caf\xc3\xa9\" & Co</b>", "sale", "23", "40", ITEM_CLOSED);
	room_open(&room);
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(&room);
	return 0;
}

static void
items_are_found_by_what_is_known_of_them(void **state)
{
	static const struct {
		const char *wanted, *items;
	} cases[] = {
		{"", "4321"},
		{"q=shirt", "31"},
		{"q=SHI", "31"},
		{"q=marl+shirt", "1"},
		{"q=shirt+hallowick", ""},
		{"q=cafe", "4"},
		{"q=40", "4321"},
		{"q=403", "3"},
		{"q=0403", "4"},
		{"bin=14", "21"},
		{"number=0403", "4"},
		{"kind=shirt&route=charity", "3"},
		{"maker=hallowick", "2"},
		{"state=set+aside", "2"},
		{"route=sale", "41"},
		{"q=coat&route=mending", ""},
		{"from=2026-11-25&to=2026-11-25", "4321"},
		{"from=2026-11-26", ""},
		{"to=2026-11-24", ""},
		{"limit=1&after=3", "2"},
		/* What is no word, or would be something else to a database. */
		{"q=%22", "4321"},
		{"q=%22shirt", "31"},
		{"q=shirt%22+OR+1%3D1", ""},
		{"q=shirt*", "31"},
		{"q=NEAR(shirt)", ""},
		{"q=words:shirt", ""},
		{"q=-shirt", "31"},
		{"q=%27%3B+DROP+TABLE+item", ""},
		{"q=%F0%9F%A7%B5", ""},
		{"q=%00shirt", "4321"},
		{"bin=14%27+OR+1%3D1", ""},
		{"kind=%3Cscript%3E", ""},
		{"from=nonsense", ""},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply;
		char path[200], items[20] = "";
		snprintf(path, sizeof path, "/api/search?%s", cases[i].wanted);
		room_get(&room, path, "", &reply);
		assert_int_equal(reply.status, 200);
		const json_t *rows = json_object_get(reply.json, "rows");
		for (size_t r = 0; r < json_array_size(rows) && r < 10; r++)
			strcat(items, json_at(json_array_get(rows, r), "item"));
		if (strcmp(items, cases[i].items) != 0)
			fail_msg("%s finds %s, not %s", cases[i].wanted, items, cases[i].items);
		reply_finish(&reply);
	}
}

static void
a_number_is_found_at_once(void **state)
{
	struct reply reply;
	room_get(&room, "/api/search?q=403", "", &reply);
	assert_string_equal(json_at(reply.json, "exact.item"), "3");
	reply_finish(&reply);
	room_get(&room, "/api/search?q=4", "", &reply);
	assert_string_equal(json_at(reply.json, "exact"), "null");
	reply_finish(&reply);
}

static void
the_lists_tell_how_many_go_where(void **state)
{
	struct reply reply;
	room_get(&room, "/api/lists", "", &reply);
	assert_string_equal(json_at(reply.json, "facts.routes"),
			    "{\"charity\":1,\"mending\":1,\"sale\":2}");
	assert_string_equal(json_at(reply.json, "facts.states"), "{\"done\":3,\"set aside\":1}");
	assert_string_equal(json_at(reply.json, "kind.1"), "shirt");
	reply_finish(&reply);
}

static void
the_figures_are_those_of_the_day(void **state)
{
	struct reply reply;
	room_get(&room, "/api/figures", "", &reply);
	assert_string_equal(json_at(reply.json, "day"), "2026-11-25");
	assert_string_equal(json_at(reply.json, "items"),
			    "{\"opened\":4,\"done\":3,\"set aside\":1,\"open\":0}");
	assert_string_equal(json_at(reply.json, "calls"), "28");
	assert_string_equal(json_at(reply.json, "prices.sum"), "69.55 USD");
	assert_string_equal(json_at(reply.json, "routes.sale"), "2");
	reply_finish(&reply);
	room_get(&room, "/api/figures?day=2001-01-01", "", &reply);
	assert_string_equal(json_at(reply.json, "items.opened"), "0");
	reply_finish(&reply);
}

static void
a_selection_is_handed_on(void **state)
{
	static const struct {
		const char *wanted, *says;
		int status;
	} cases[] = {
		{"as=csv", "401,14,shirt,sale,done,marlock", 200},
		{"as=csv&route=mending", "402,14,skirt,mending,set aside,hallowick", 200},
		{"as=csv&items=4", "\"<b>\"\"Caf\xc3\xa9\"\" & Co</b>\"", 200},
		{"as=jsonld&q=shirt", "\"@graph\":[", 200},
		{"as=text&items=1,3", "----", 200},
		{"as=text&items=99", "", 200},
		{"as=pdf", "none of", 400},
		{"as=csv&items=1,,2", "commas", 400},
		{"as=csv&items=../x", "commas", 400},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply;
		char path[200];
		snprintf(path, sizeof path, "/export?%s", cases[i].wanted);
		room_get(&room, path, "", &reply);
		assert_int_equal(reply.status, cases[i].status);
		if (strstr(reply.body, cases[i].says) == NULL)
			fail_msg("%s: %s", path, reply.body);
		if (cases[i].status == 200)
			assert_non_null(strstr(reply_head(&reply, "Content-Disposition"),
					       "attachment; filename=\"lapel-"));
		reply_finish(&reply);
	}
	struct reply reply;
	room_get(&room, "/export?as=csv&kind=shirt", "", &reply);
	assert_non_null(strstr(reply.body, "number,bin,kind"));
	assert_non_null(strstr(reply.body, "\r\n401,14,shirt"));
	assert_non_null(strstr(reply.body, "\r\n403,23,shirt"));
	assert_null(strstr(reply.body, "skirt"));
	assert_null(strstr(reply.body, "coat"));
	reply_finish(&reply);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(items_are_found_by_what_is_known_of_them),
		cmocka_unit_test(a_number_is_found_at_once),
		cmocka_unit_test(the_lists_tell_how_many_go_where),
		cmocka_unit_test(the_figures_are_those_of_the_day),
		cmocka_unit_test(a_selection_is_handed_on),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
