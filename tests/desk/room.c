#include "room.h"

#include "file_text.h"
#include "station.h"

#include <arpa/inet.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

static char *
list_text(const char *name)
{
	struct problem problem = {""};
	char *text = file_text_in(getenv("LAPEL_GRAMMARS"), name, &problem);
	assert_string_equal(problem.text, "");
	return text;
}

void
room_set_up(struct room *room)
{
	struct problem problem = {""};
	memset(room, 0, sizeof *room);
	shop_set_up(&room->shop);
	shop_be_quick(&room->shop);
	room->vocabulary = station_vocabulary(getenv("LAPEL_GRAMMARS"), NULL, &problem);
	assert_non_null(room->vocabulary);
	char *ranges = list_text("ranges.txt"), *writeup = list_text("writeup.txt");
	char *sketches = list_text("sketches.txt");
	assert_true(ranges_read(&room->ranges, "ranges.txt", ranges, &problem));
	room->writeup_form = writeup_form_read(room->vocabulary, "writeup.txt", writeup, &problem);
	room->sketches = sketch_book_read("sketches.txt", sketches, &problem);
	assert_string_equal(problem.text, "");
	free(ranges);
	free(writeup);
	free(sketches);
	room->rows = (struct csv_record_setting){
		.vocabulary = room->vocabulary, .unit = LENGTH_INCH, .currency = "USD"};
	snprintf(room->learnt, sizeof room->learnt, "%s-lists", room->shop.folder);
}

static void *
serve(void *user)
{
	struct room *room = user;
	while (!room->over) {
		struct pollfd wait = {.fd = desk_fd(room->desk), .events = POLLIN};
		int wait_ms = desk_wait_ms(room->desk);
		poll(&wait, 1, wait_ms < 20 ? wait_ms : 20);
		desk_turn(room->desk);
	}
	return NULL;
}

void
room_open(struct room *room)
{
	struct problem problem = {""};
	struct desk_setting setting = {.db = room->shop.path,
				       .address = "127.0.0.1",
				       .key = ROOM_KEY,
				       .learnt = room->learnt,
				       .lists_mark = "lists of the test",
				       .vocabulary = room->vocabulary,
				       .ranges = &room->ranges,
				       .writeup_form = room->writeup_form,
				       .sketches = room->sketches,
				       .rows = &room->rows};
	room->desk = desk_open(&setting, &problem);
	assert_string_equal(problem.text, "");
	assert_int_equal(sscanf(desk_address(room->desk), "http://127.0.0.1:%d/", &room->port), 1);
	room->over = false;
	assert_int_equal(pthread_create(&room->thread, NULL, serve, room), 0);
}

void
room_close(struct room *room)
{
	room->over = true;
	pthread_join(room->thread, NULL);
	desk_close(room->desk);
	room->desk = NULL;
}

void
room_tear_down(struct room *room)
{
	static const char *const files[] = {"makers.txt", "fibres.txt", "flaws.txt", "colours.txt"};
	char path[160];
	if (room->desk != NULL)
		room_close(room);
	for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
		snprintf(path, sizeof path, "%s/%s", room->learnt, files[i]);
		unlink(path);
	}
	rmdir(room->learnt);
	sketch_book_destroy(room->sketches);
	writeup_form_destroy(room->writeup_form);
	vocabulary_destroy(room->vocabulary);
	shop_tear_down(&room->shop);
}

struct written
room_doubt(struct room *room, const struct call *said, const char *text, enum verdict verdict,
	   const char *alternatives)
{
	struct shop *shop = &room->shop;
	struct utterance utterance = {.number = ++shop->utterance,
				      .start_ms = shop->at_ms,
				      .end_ms = shop->at_ms + 900,
				      .decided_ms = shop->at_ms + 1200,
				      .decided_by = "silence",
				      .alternatives = alternatives};
	struct write write = {.utterance = utterance.number,
			      .item = shop->record.item,
			      .at_ms = shop->at_ms,
			      .source = SOURCE_VOICE,
			      .verdict = verdict,
			      .confidence = 0.61,
			      .has_call = said != NULL};
	struct written written;
	if (said != NULL)
		write.said = *said;
	snprintf(write.text, sizeof write.text, "%s", text);
	shop->at_ms += 2500;
	store_write(shop->store, &write, &utterance, &written);
	assert_true(written.stored);
	return written;
}

static int
call_up(const struct room *room)
{
	struct sockaddr_in address = {.sin_family = AF_INET,
				      .sin_port = htons((uint16_t)room->port)};
	struct timeval patience = {.tv_sec = 10};
	int line = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
	inet_pton(AF_INET, "127.0.0.1", &address.sin_addr);
	assert_true(line >= 0);
	setsockopt(line, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
	assert_int_equal(connect(line, (struct sockaddr *)&address, sizeof address), 0);
	return line;
}

static void
read_reply(struct reply *reply)
{
	char *body = strstr(reply->text, "\r\n\r\n");
	reply->status = 0;
	sscanf(reply->text, "HTTP/1.1 %d", &reply->status);
	reply->body = body == NULL ? reply->text + reply->size : body + 4;
	reply->size -= (size_t)(reply->body - reply->text);
	reply->json = json_loadb(reply->body, reply->size, 0, NULL);
}

void
room_send(struct room *room, const char *bytes, size_t size, struct reply *reply)
{
	int line = call_up(room);
	size_t room_for = 1 << 16;
	ssize_t count;
	memset(reply, 0, sizeof *reply);
	for (size_t sent = 0; sent < size; sent += (size_t)count) {
		count = send(line, bytes + sent, size - sent, MSG_NOSIGNAL);
		if (count <= 0)
			break; /* it does not want to hear more */
	}
	reply->text = malloc(room_for + 1);
	while ((count = recv(line, reply->text + reply->size, room_for - reply->size, 0)) > 0) {
		reply->size += (size_t)count;
		if (reply->size == room_for)
			reply->text = realloc(reply->text, (room_for *= 2) + 1);
	}
	reply->text[reply->size] = '\0';
	close(line);
	read_reply(reply);
}

void
room_get(struct room *room, const char *path, const char *more, struct reply *reply)
{
	char request[4096];
	int length = snprintf(request, sizeof request,
			      "GET %s HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nCookie: lapel-%d=" ROOM_KEY
			      "\r\nConnection: close\r\n%s\r\n",
			      path, room->port, room->port, more);
	assert_true(length < (int)sizeof request);
	room_send(room, request, (size_t)length, reply);
}

void
room_post(struct room *room, const char *action, json_t *json, struct reply *reply)
{
	char *body = json_dumps(json, JSON_COMPACT | JSON_ENCODE_ANY);
	size_t size = strlen(body) + 1024;
	char *request = malloc(size);
	int length = snprintf(request, size,
			      "POST /api/%s HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nOrigin: "
			      "http://127.0.0.1:%d\r\nCookie: lapel-%d=" ROOM_KEY
			      "\r\nConnection: close\r\nContent-Type: application/json\r\n"
			      "Content-Length: %zu\r\n\r\n%s",
			      action, room->port, room->port, room->port, strlen(body), body);
	room_send(room, request, (size_t)length, reply);
	free(request);
	free(body);
	json_decref(json);
}

void
reply_finish(struct reply *reply)
{
	json_decref(reply->json);
	free(reply->text);
}

const char *
reply_head(const struct reply *reply, const char *name)
{
	static char value[1024];
	char line[100];
	snprintf(line, sizeof line, "\r\n%s: ", name);
	const char *at = strcasestr(reply->text, line);
	if (at == NULL || at > reply->body)
		return "";
	at += strlen(line);
	snprintf(value, sizeof value, "%.*s", (int)strcspn(at, "\r"), at);
	return value;
}

const char *
json_at(const json_t *json, const char *path)
{
	static char text[20000];
	char step[100];
	while (*path != '\0' && json != NULL) {
		size_t length = strcspn(path, ".");
		snprintf(step, sizeof step, "%.*s", (int)length, path);
		json = json_is_array(json) ? json_array_get(json, (size_t)atoi(step))
					   : json_object_get(json, step);
		path += length + (path[length] == '.');
	}
	if (json == NULL)
		return "none";
	if (json_is_string(json))
		snprintf(text, sizeof text, "%s", json_string_value(json));
	else {
		char *dump = json_dumps(json, JSON_ENCODE_ANY | JSON_COMPACT);
		snprintf(text, sizeof text, "%s", dump);
		free(dump);
	}
	return text;
}

const json_t *
field_of(const json_t *item, const char *name)
{
	const json_t *fields = json_object_get(item, "fields");
	for (size_t i = 0; i < json_array_size(fields); i++)
		if (strcmp(json_at(json_array_get(fields, i), "field"), name) == 0)
			return json_array_get(fields, i);
	fail_msg("there is no field %s", name);
	return NULL;
}
