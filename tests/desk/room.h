/* The back room with its desk: records that the station fills (shop.h), the server in a thread of
 * its own, and a small browser that says exactly what it is told to say. */
#ifndef LAPEL_TESTS_DESK_ROOM_H
#define LAPEL_TESTS_DESK_ROOM_H

#include "shop.h"

#include "desk.h"

#include <jansson.h>
#include <pthread.h>
#include <stdatomic.h>

#define ROOM_KEY "marram-grass"

struct room {
	struct shop shop;
	struct vocabulary *vocabulary;
	struct ranges ranges;
	struct writeup_form *writeup_form;
	struct sketch_book *sketches;
	struct csv_record_setting rows;
	char learnt[100]; /* the folder of learnt words */
	struct desk *desk;
	int port;
	pthread_t thread;
	atomic_bool over;
};

struct reply {
	int status;
	char *text; /* the head and the body; owned */
	const char *body;
	size_t size;
	json_t *json; /* NULL when the body is none; owned */
};

/* A new shop. The test fills it through room->shop; then the desk is opened. */
void room_set_up(struct room *room);
void room_open(struct room *room);
void room_close(struct room *room); /* the desk alone */
void room_tear_down(struct room *room);

/* Calls with all that they had beside them. */
struct written room_doubt(struct room *room, const struct call *said, const char *text,
			  enum verdict verdict, const char *alternatives);

/* Sends these bytes, and takes the reply until the other side closes (a request should ask for
 * that). */
void room_send(struct room *room, const char *bytes, size_t size, struct reply *reply);
/* A GET with the cookie; `more` are further lines of the head, or "". */
void room_get(struct room *room, const char *path, const char *more, struct reply *reply);
/* What a page posts: to /api/ACTION, a JSON object, which is given away. */
void room_post(struct room *room, const char *action, json_t *json, struct reply *reply);
void reply_finish(struct reply *reply);

/* A line of the head, "" when there is none; valid until the next. */
const char *reply_head(const struct reply *reply, const char *name);
/* "item.state", "rows.0.matters.0.reason": what stands there as text, "none" when nothing does.
 * Valid until the next. */
const char *json_at(const json_t *json, const char *path);
/* The field of an item's answer. */
const json_t *field_of(const json_t *item, const char *name);

#endif
