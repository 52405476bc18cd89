/* Sound to be heard again, whole or in part, and the picture. */
#include "room.h"

#include <stdio.h>
#include <string.h>

static struct room room;

static int
set_up(void **state)
{
	struct deed deed;
	struct written kept;
	static const int16_t hum[32000] = {0, 500, -500, 300};
	room_set_up(&room);
	struct call kind = say_name(CALL_KIND, "shirt"), note = {.type = CALL_NOTE};
	assert_true(record_write(&room.shop.record, &kind, false, &deed));
	assert_true(shop_store(&room.shop, &kind, "kind shirt", &deed, ITEM_OPENED, true).stored);
	struct written written = shop_write(&room.shop, &note, "note");
	store_note(room.shop.store, written.call, hum, 32000, &kept);
	assert_true(kept.stored);
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
sound_is_a_file_of_which_parts_can_be_had(void **state)
{
	struct reply whole, part;
	room_get(&room, "/sound/1", "", &whole);
	assert_int_equal(whole.status, 200);
	assert_string_equal(reply_head(&whole, "Content-Type"), "audio/flac");
	assert_string_equal(reply_head(&whole, "Accept-Ranges"), "bytes");
	assert_memory_equal(whole.body, "fLaC", 4);

	char range[64], expected[64];
	room_get(&room, "/sound/1", "Range: bytes=4-19\r\n", &part);
	assert_int_equal(part.status, 206);
	assert_int_equal(part.size, 16);
	assert_memory_equal(part.body, whole.body + 4, 16);
	snprintf(expected, sizeof expected, "bytes 4-19/%zu", whole.size);
	assert_string_equal(reply_head(&part, "Content-Range"), expected);
	reply_finish(&part);

	room_get(&room, "/sound/1", "Range: bytes=0-\r\n", &part);
	assert_int_equal(part.status, 206);
	assert_int_equal(part.size, whole.size);
	reply_finish(&part);

	snprintf(range, sizeof range, "Range: bytes=%zu-\r\n", whole.size);
	room_get(&room, "/sound/1", range, &part);
	assert_int_equal(part.status, 416);
	snprintf(expected, sizeof expected, "bytes */%zu", whole.size);
	assert_string_equal(reply_head(&part, "Content-Range"), expected);
	reply_finish(&part);

	room_get(&room, "/sound/1", "Range: bytes=9-2,tide\r\n", &part);
	assert_int_equal(part.status, 200);
	reply_finish(&part);
	reply_finish(&whole);
}

/* The length in samples stands in 36 bits of the first block of a FLAC file (RFC 9639, 8.2). */
static void
a_file_says_how_long_it_lasts(void **state)
{
	struct reply reply;
	room_get(&room, "/note/2", "", &reply);
	assert_int_equal(reply.status, 200);
	const unsigned char *about = (const unsigned char *)reply.body + 8;
	int64_t samples = ((int64_t)(about[13] & 15) << 32) | ((int64_t)about[14] << 24) |
			  (about[15] << 16) | (about[16] << 8) | about[17];
	assert_int_equal(samples, 32000);
	reply_finish(&reply);
}

static void
what_was_not_kept_is_not_there(void **state)
{
	static const char *const paths[] = {"/sound/2", "/note/1",   "/sound/3",
					    "/sound/",	"/sound/-1", "/sound/1/..",
					    "/note/x",	"/sketch/9", "/sketch/x"};
	for (size_t i = 0; i < sizeof paths / sizeof *paths; i++) {
		struct reply reply;
		room_get(&room, paths[i], "", &reply);
		assert_int_equal(reply.status, 404);
		reply_finish(&reply);
	}
}

static void
the_picture_is_drawn(void **state)
{
	struct reply reply;
	room_get(&room, "/sketch/1?v=1", "", &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(reply_head(&reply, "Content-Type"), "image/svg+xml");
	assert_non_null(strstr(reply.body, "<svg"));
	reply_finish(&reply);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(sound_is_a_file_of_which_parts_can_be_had),
		cmocka_unit_test(a_file_says_how_long_it_lasts),
		cmocka_unit_test(what_was_not_kept_is_not_there),
		cmocka_unit_test(the_picture_is_drawn),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
