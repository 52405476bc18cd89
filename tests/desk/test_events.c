/* Pages follow what is written, by whomever. */
#include "room.h"

#include <arpa/inet.h>
#include <poll.h>
#include <stdio.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

static struct room room;

static int
set_up(void **state)
{
	room_set_up(&room);
	struct call kind = say_name(CALL_KIND, "shirt");
	assert_true(shop_write(&room.shop, &kind, "kind shirt").stored);
	room_open(&room);
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(&room);
	return 0;
}

/* An open page. */
struct page {
	int line;
	char text[20000];
	size_t length;
};

static void
open_page(struct page *page)
{
	struct sockaddr_in address = {.sin_family = AF_INET,
				      .sin_port = htons((uint16_t)room.port)};
	char request[300];
	memset(page, 0, sizeof *page);
	page->line = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
	inet_pton(AF_INET, "127.0.0.1", &address.sin_addr);
	assert_int_equal(connect(page->line, (struct sockaddr *)&address, sizeof address), 0);
	int length =
		snprintf(request, sizeof request,
			 "GET /events HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nCookie: lapel-%d=" ROOM_KEY
			 "\r\n\r\n",
			 room.port, room.port);
	assert_int_equal(send(page->line, request, (size_t)length, 0), length);
}

/* Waits until the text has come; how long that took is not the matter here. */
static void
is_told(struct page *page, const char *text)
{
	while (strstr(page->text, text) == NULL) {
		struct pollfd wait = {.fd = page->line, .events = POLLIN};
		if (poll(&wait, 1, 5000) != 1)
			fail_msg("not told %s, but %s", text, page->text);
		ssize_t count = recv(page->line, page->text + page->length,
				     sizeof page->text - page->length - 1, 0);
		if (count <= 0)
			fail_msg("the line was closed after %s", page->text);
		page->length += (size_t)count;
	}
}

static void
all_pages_are_told_what_was_changed(void **state)
{
	struct page one, other;
	struct reply reply;
	open_page(&one);
	open_page(&other);
	is_told(&one, "event: hello");
	is_told(&other, "event: hello");
	assert_non_null(strstr(one.text, "text/event-stream"));

	struct call chest = say_measure("chest", "21");
	assert_true(shop_write(&room.shop, &chest, "chest twenty one").stored);
	is_told(&one, "event: change\ndata: {\"items\":[1],\"more\":false}");
	is_told(&other, "event: change\ndata: {\"items\":[1],\"more\":false}");

	shop_next(&room.shop);
	struct call kind = say_name(CALL_KIND, "skirt");
	assert_true(shop_write(&room.shop, &kind, "kind skirt").stored);
	is_told(&one, "2]");

	one.length = 0;
	memset(one.text, 0, sizeof one.text);
	room_post(&room, "looked", json_pack("{s:i}", "item", 1), &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	is_told(&one, "{\"items\":[1],\"more\":false}");
	close(one.line);

	/* One that is gone does not keep the others from being told. */
	struct call waist = say_measure("waist", "15");
	assert_true(shop_write(&room.shop, &waist, "waist fifteen").stored);
	is_told(&other, "[2]");
	close(other.line);
}

static void
the_desk_ends_though_a_page_is_open(void **state)
{
	struct page page;
	open_page(&page);
	is_told(&page, "event: hello");
	room_close(&room);
	struct pollfd wait = {.fd = page.line, .events = POLLIN};
	assert_int_equal(poll(&wait, 1, 5000), 1);
	close(page.line);
	room_open(&room);
}

static void
there_is_an_end_to_how_many_pages_are_told(void **state)
{
	static struct page pages[40];
	struct reply reply;
	int told = 0;
	for (int i = 0; i < 36; i++)
		open_page(&pages[i]);
	for (int i = 0; i < 36; i++) {
		struct pollfd wait = {.fd = pages[i].line, .events = POLLIN};
		assert_int_equal(poll(&wait, 1, 5000), 1);
		assert_true(recv(pages[i].line, pages[i].text, sizeof pages[i].text - 1, 0) > 0);
		told += strncmp(pages[i].text, "HTTP/1.1 200", 12) == 0;
	}
	assert_int_equal(told, 32);
	room_get(&room, "/api/queue", "", &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
	for (int i = 0; i < 36; i++)
		close(pages[i].line);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(all_pages_are_told_what_was_changed),
		cmocka_unit_test(the_desk_ends_though_a_page_is_open),
		cmocka_unit_test(there_is_an_end_to_how_many_pages_are_told),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
