/* Who is let in, and who is turned away. */
#include "room.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct room room;

static int
set_up(void **state)
{
	struct call chest = say_measure("chest", "21");
	room_set_up(&room);
	assert_true(shop_write(&room.shop, &chest, "chest twenty one").stored);
	room_open(&room);
	return 0;
}

static int
tear_down(void **state)
{
	room_tear_down(&room);
	return 0;
}

/* %P is the port. */
static void
ask(const char *lines, struct reply *reply)
{
	char request[2048] = "";
	size_t length = 0;
	for (const char *c = lines; *c != '\0'; c++) {
		if (c[0] == '%' && c[1] == 'P') {
			length += (size_t)snprintf(request + length, sizeof request - length, "%d",
						   room.port);
			c++;
		} else {
			request[length++] = *c;
		}
	}
	length += (size_t)snprintf(request + length, sizeof request - length,
				   "Connection: close\r\n\r\n");
	room_send(&room, request, length, reply);
}

static void
each_is_answered_as_it_deserves(void **state)
{
	static const struct {
		int status;
		const char *lines;
	} cases[] = {
		/* With the key, under its own address. */
		{200, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{200, "GET /?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{200, "GET /api/queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: localhost:%P\r\n"},
		{200, "HEAD /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{200, "GET /queue HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nCookie: a=b; lapel-%P=" ROOM_KEY
		      "\r\n"},
		{200, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"
		      "Origin: http://127.0.0.1:%P\r\n"},
		/* No key, part of it, more than it, another case. */
		{403, "GET /queue HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /queue?key= HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /queue?key=marram HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /queue?key=" ROOM_KEY "x HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /queue?key=" ROOM_KEY ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /queue?key=MARRAM-GRASS HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /queue HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nCookie: lapel-%P=\r\n"},
		{403,
		 "GET /queue HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nCookie: lapel=" ROOM_KEY "\r\n"},
		{403, "GET /page/page.html HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /sound/1 HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /events HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{403, "GET /export HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		/* A name that was made to point here. */
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: tide.example:%P\r\n"},
		{403,
		 "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1.tide.example:%P\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:1\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.2:%P\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: \r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.0\r\n"},
		/* A page of another site. */
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"
		      "Origin: http://tide.example\r\n"},
		{403, "GET /api/queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"
		      "Origin: null\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"
		      "Origin: https://127.0.0.1:%P\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"
		      "Origin: http://127.0.0.1:%P.tide.example\r\n"},
		{403, "GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"
		      "Origin: http://localhost:%P\r\n"},
		/* Posts: by the cookie alone, from our own page, as JSON. */
		{404, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://127.0.0.1:%P\r\nCookie: lapel-%P=" ROOM_KEY
		      "\r\nContent-Type: application/json; charset=utf-8\r\nContent-Length: 0\r\n"
		      "X: /\r\n"},
		{403, "POST /api/undo?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://127.0.0.1:%P\r\nContent-Type: application/json\r\n"
		      "Content-Length: 0\r\n"},
		{403, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nCookie: lapel-%P=" ROOM_KEY
		      "\r\nContent-Type: application/json\r\nContent-Length: 0\r\n"},
		{403, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://tide.example\r\nCookie: lapel-%P=" ROOM_KEY
		      "\r\nContent-Type: application/json\r\nContent-Length: 0\r\n"},
		{415, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://127.0.0.1:%P\r\nCookie: lapel-%P=" ROOM_KEY
		      "\r\nContent-Type: text/plain\r\nContent-Length: 0\r\n"},
		{415, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://127.0.0.1:%P\r\nCookie: lapel-%P=" ROOM_KEY "\r\nContent-Type: "
		      "application/x-www-form-urlencoded\r\nContent-Length: 0\r\n"},
		{413, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://127.0.0.1:%P\r\nCookie: lapel-%P=" ROOM_KEY
		      "\r\nContent-Type: application/json\r\nContent-Length: 65537\r\n"},
		{413, "POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%P\r\nOrigin: "
		      "http://127.0.0.1:%P\r\nCookie: lapel-%P=" ROOM_KEY
		      "\r\nContent-Type: application/json\r\nContent-Length: 9999999999\r\n"},
		/* What is not there. */
		{405, "PUT /api/queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{405, "DELETE /item/1?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /page/../../../../etc/passwd?key=" ROOM_KEY
		      " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /page/%2e%2e%2f%2e%2e%2fetc%2fpasswd?key=" ROOM_KEY
		      " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /page/records.db?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /item/0?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /item/2?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /item/1;DROP?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /item/-1?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /item/99999999999999999999?key=" ROOM_KEY
		      " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
		{404, "GET /nowhere?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct reply reply;
		ask(cases[i].lines, &reply);
		/* The one that only shows that the guard is passed names no call. */
		int wanted = strstr(cases[i].lines, "X: /") != NULL ? 400 : cases[i].status;
		if (reply.status != wanted)
			fail_msg("%s is answered %d, not %d: %s", cases[i].lines, reply.status,
				 wanted, reply.body);
		if (wanted == 403)
			assert_null(strstr(reply.text, "Set-Cookie"));
		reply_finish(&reply);
	}
}

static void
what_is_told_to_the_browser(void **state)
{
	struct reply reply;
	ask("GET /queue?key=" ROOM_KEY " HTTP/1.1\r\nHost: 127.0.0.1:%P\r\n", &reply);
	char cookie[100];
	snprintf(cookie, sizeof cookie, "lapel-%d=" ROOM_KEY "; HttpOnly; SameSite=Strict; Path=/",
		 room.port);
	assert_string_equal(reply_head(&reply, "Set-Cookie"), cookie);
	assert_non_null(strstr(reply_head(&reply, "Content-Security-Policy"),
			       "default-src 'none'; script-src 'self';"));
	assert_null(strstr(reply_head(&reply, "Content-Security-Policy"), "unsafe"));
	assert_string_equal(reply_head(&reply, "X-Content-Type-Options"), "nosniff");
	assert_string_equal(reply_head(&reply, "Referrer-Policy"), "no-referrer");
	assert_string_equal(reply_head(&reply, "Cache-Control"), "no-store");
	assert_string_equal(reply_head(&reply, "Access-Control-Allow-Origin"), "");
	reply_finish(&reply);

	/* The cookie is set where the key was told, and nowhere else. */
	room_get(&room, "/queue", "", &reply);
	assert_int_equal(reply.status, 200);
	assert_string_equal(reply_head(&reply, "Set-Cookie"), "");
	reply_finish(&reply);
}

static void
a_body_without_a_length_is_not_read_for_ever(void **state)
{
	struct reply reply;
	size_t head, size = 400000;
	char *request = malloc(size);
	head = (size_t)snprintf(request, size,
				"POST /api/undo HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nOrigin: "
				"http://127.0.0.1:%d\r\nCookie: lapel-%d=" ROOM_KEY
				"\r\nContent-Type: application/json\r\nConnection: close\r\n"
				"Transfer-Encoding: chunked\r\n\r\n",
				room.port, room.port, room.port);
	size_t length = head;
	while (length + 0x1000 + 20 < size) {
		length += (size_t)snprintf(request + length, size - length, "1000\r\n");
		memset(request + length, ' ', 0x1000);
		length += 0x1000;
		length += (size_t)snprintf(request + length, size - length, "\r\n");
	}
	length += (size_t)snprintf(request + length, size - length, "0\r\n\r\n");
	room_send(&room, request, length, &reply);
	assert_int_equal(reply.status, 413);
	reply_finish(&reply);
	free(request);
}

static void
what_cannot_be_a_request_leaves_the_desk_standing(void **state)
{
	struct reply reply;
	size_t size = 600000;
	char *long_line = malloc(size);
	memset(long_line, 'a', size);
	memcpy(long_line, "GET /", 5);
	room_send(&room, long_line, size, &reply);
	assert_true(reply.status == 0 || (reply.status >= 400 && reply.status < 600));
	reply_finish(&reply);
	free(long_line);

	static const char *const odd[] = {"\r\n\r\n\r\n", "GET\r\n\r\n", "\1\2\3\4\r\n\r\n",
					  "GET / HTTP/9.9\r\n\r\n", "GET /%00 HTTP/1.1\r\n\r\n"};
	for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
		char request[200];
		int length =
			snprintf(request, sizeof request, "%sConnection: close\r\n\r\n", odd[i]);
		room_send(&room, request, (size_t)length, &reply);
		assert_int_not_equal(reply.status, 200);
		reply_finish(&reply);
	}
	room_get(&room, "/api/queue", "", &reply);
	assert_int_equal(reply.status, 200);
	reply_finish(&reply);
}

static void
a_page_has_its_data_inside_where_no_script_can_end(void **state)
{
	struct reply reply;
	struct call maker = say_name(CALL_MAKER, "</script><script>alert(1)</script>");
	assert_true(shop_write(&room.shop, &maker, "maker other").stored);
	room_get(&room, "/item/1", "", &reply);
	assert_int_equal(reply.status, 200);
	assert_non_null(strstr(reply.body, "<script type=\"application/json\" id=\"data\">{"));
	assert_non_null(strstr(reply.body, "\\u003c/script>\\u003cscript>alert(1)"));
	assert_null(strstr(reply.body, "<script>alert"));
	reply_finish(&reply);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_is_answered_as_it_deserves),
		cmocka_unit_test(what_is_told_to_the_browser),
		cmocka_unit_test(a_body_without_a_length_is_not_read_for_ever),
		cmocka_unit_test(what_cannot_be_a_request_leaves_the_desk_standing),
		cmocka_unit_test(a_page_has_its_data_inside_where_no_script_can_end),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
