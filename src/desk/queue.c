#include "queue.h"

#include "answer.h"
#include "follow.h"
#include "json.h"
#include "matter.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

json_t *
line_json(struct desk *desk, const struct listing *line, bool matters)
{
	json_t *json = json_object();
	json_object_set_new(json, "item", json_integer(line->item));
	json_object_set_new(json, "number", json_said(line->number));
	json_object_set_new(json, "bin", json_said(line->bin));
	json_object_set_new(json, "kind", json_said(line->kind));
	json_object_set_new(json, "maker", json_said(line->maker));
	json_object_set_new(json, "route", json_said(line->route));
	json_object_set_new(json, "state", json_words(line->state));
	json_object_set_new(json, "title", json_words(line->title));
	json_object_set_new(json, "day", json_words(line->day));
	json_object_set_new(json, "looked", json_boolean(line->urgency == MATTER_LOOKED));
	json_object_set_new(json, "reason",
			    json_string(matter_name((enum matter_reason)line->urgency)));
	if (!matters)
		return json;
	json_t *list = json_loads(line->matters, 0, NULL);
	json_object_set_new(json, "matters", list == NULL ? json_array() : list);
	return json;
}

struct rows {
	struct desk *desk;
	json_t *array;
	int most;
	bool more;	 /* than that */
	char cursor[48]; /* of the last of them */
};

static bool
add_row(void *user, const struct listing *line)
{
	struct rows *rows = user;
	if ((int)json_array_size(rows->array) == rows->most) {
		rows->more = true;
		return false;
	}
	json_array_append_new(rows->array, line_json(rows->desk, line, true));
	snprintf(rows->cursor, sizeof rows->cursor, "%d-%lld", line->urgency,
		 (long long)line->item);
	return true;
}

/* "4-117": an urgency and an item. */
static void
read_cursor(const char *text, struct listing_queue *queue)
{
	long long item = 0;
	int urgency = 0;
	if (text != NULL && sscanf(text, "%9d-%18lld", &urgency, &item) == 2) {
		queue->after_urgency = urgency;
		queue->after_item = item;
	}
}

static json_t *
counts_json(const int64_t *counts)
{
	json_t *json = json_object();
	for (int reason = MATTER_DOUBT; reason <= MATTER_REST; reason++)
		json_object_set_new(json, matter_name((enum matter_reason)reason),
				    json_integer(counts[reason]));
	return json;
}

/* What was said when no item was open: on the first page only. */
static json_t *
loose_json(struct desk *desk)
{
	json_t *array = json_array();
	struct past_calls calls;
	record_init(&desk->other);
	past_calls_read_loose(desk, &calls);
	for (int i = 0; i < calls.count; i++) {
		const struct review_call *known = &calls.rows[i]->known;
		json_t *matter = matter_of_call(desk, &desk->other, calls.rows[i]);
		int64_t next = review_item_after_call(desk->review, known->session, known->call);
		json_object_set_new(matter, "suggested_item", json_row(next));
		json_array_append_new(array, matter);
	}
	past_calls_finish(&calls);
	matters_complete(desk, array, true, NULL);
	return array;
}

json_t *
queue_json(struct request *request)
{
	struct desk *desk = request->desk;
	const char *reason = request_parameter(request, "reason");
	const char *day = request_parameter(request, "day");
	int64_t limit = request_number(request, "limit", ROWS_USUAL), counts[MATTERS + 1];
	struct rows rows = {.desk = desk, .array = json_array()};
	struct listing_queue queue = {.day = day != NULL && day[0] != '\0' ? day : NULL};
	const char *after = request_parameter(request, "after");
	char version[32];
	follow_changes(desk, 10);
	rows.most = limit < 1 || limit > ROWS_MOST ? ROWS_USUAL : (int)limit;
	queue.most = rows.most + 1;
	if (reason != NULL && matter_parse(reason) < MATTER_LOOKED)
		queue.urgency = matter_parse(reason);
	read_cursor(after, &queue);
	listing_queue(desk->review, &queue, add_row, &rows);
	for (size_t i = 0; i < json_array_size(rows.array); i++)
		matters_complete(desk, json_object_get(json_array_get(rows.array, i), "matters"),
				 false, NULL);
	json_t *json = json_object();
	json_object_set_new(json, "rows", rows.array);
	json_object_set_new(json, "next", rows.more ? json_string(rows.cursor) : json_null());
	json_object_set_new(json, "loose", after == NULL ? loose_json(desk) : json_array());
	listing_counts(desk->review, queue.day, counts, MATTERS);
	json_object_set_new(json, "counts", counts_json(counts));
	json_object_set_new(json, "looked", json_integer(counts[MATTER_LOOKED]));
	json_object_set_new(json, "behind",
			    json_integer(listing_behind(desk->review, &desk->reach)));
	snprintf(version, sizeof version, "%lld", (long long)desk->reach.call);
	json_object_set_new(json, "version", json_string(version));
	return json;
}

enum MHD_Result
queue_answer(struct request *request, const char *rest)
{
	return answer_json(request, 200, queue_json(request));
}
