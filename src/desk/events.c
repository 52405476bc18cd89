#include "events.h"

#include "answer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SILENCE_MS = 15000 };

/* What a page has not fetched yet waits here; a page that does not fetch is told only that there is
 * more than that. */
struct events_reader {
	struct events *events;
	struct events_reader *next;
	struct MHD_Connection *connection;
	bool suspended, ended;
	size_t length;
	char text[EVENTS_TEXT_MAX];
};

static void
wake(struct events_reader *reader)
{
	if (reader->suspended)
		MHD_resume_connection(reader->connection);
	reader->suspended = false;
}

static void
tell(struct events_reader *reader, const char *text)
{
	static const char too_much[] = "event: change\ndata: {\"items\":[],\"more\":true}\n\n";
	size_t length = strlen(text);
	if (reader->length + length + sizeof too_much > sizeof reader->text) {
		text = too_much;
		length = sizeof too_much - 1;
	}
	if (reader->length + length <= sizeof reader->text) {
		memcpy(reader->text + reader->length, text, length);
		reader->length += length;
	}
	wake(reader);
}

static void
tell_all(struct events *events, const char *text)
{
	for (struct events_reader *reader = events->readers; reader != NULL; reader = reader->next)
		tell(reader, text);
}

void
events_tell_changed(struct events *events, const int64_t *items, int count, bool more)
{
	char text[EVENTS_TEXT_MAX / 4];
	int length = snprintf(text, sizeof text, "event: change\ndata: {\"items\":[");
	for (int i = 0; i < count; i++) {
		if ((size_t)length > sizeof text - 64) {
			more = true;
			break;
		}
		length += snprintf(text + length, sizeof text - (size_t)length, "%s%lld",
				   i > 0 ? "," : "", (long long)items[i]);
	}
	snprintf(text + length, sizeof text - (size_t)length, "],\"more\":%s}\n\n",
		 more ? "true" : "false");
	tell_all(events, text);
	events->last_ms = desk_monotonic_ms();
}

void
events_keep_up(struct events *events, int64_t now_ms)
{
	if (now_ms - events->last_ms < SILENCE_MS)
		return;
	events->last_ms = now_ms;
	tell_all(events, ": still here\n\n");
}

void
events_end(struct events *events)
{
	for (struct events_reader *reader = events->readers; reader != NULL;
	     reader = reader->next) {
		reader->ended = true;
		wake(reader);
	}
}

static ssize_t
fetch(void *user, uint64_t position, char *to, size_t most)
{
	struct events_reader *reader = user;
	if (reader->ended)
		return MHD_CONTENT_READER_END_OF_STREAM;
	if (reader->length == 0) {
		reader->suspended = true;
		MHD_suspend_connection(reader->connection);
		return 0;
	}
	size_t length = reader->length < most ? reader->length : most;
	memcpy(to, reader->text, length);
	reader->length -= length;
	memmove(reader->text, reader->text + length, reader->length);
	return (ssize_t)length;
}

static void
leave(void *user)
{
	struct events_reader *reader = user;
	struct events_reader **link = &reader->events->readers;
	while (*link != NULL && *link != reader)
		link = &(*link)->next;
	if (*link != NULL)
		*link = reader->next;
	reader->events->count--;
	free(reader);
}

enum MHD_Result
events_answer(struct request *request, const char *rest)
{
	struct events *events = &request->desk->events;
	if (events->count >= EVENTS_READERS_MAX)
		return answer_error(request, 503, "too many pages of the desk are open");
	struct events_reader *reader = calloc(1, sizeof *reader);
	if (reader == NULL)
		return answer_error(request, 500, "the memory is full");
	reader->events = events;
	reader->connection = request->connection;
	reader->next = events->readers;
	events->readers = reader;
	events->count++;
	reader->length =
		(size_t)snprintf(reader->text, sizeof reader->text,
				 "retry: 1000\nevent: hello\ndata: {\"version\":\"%lld\"}\n\n",
				 (long long)request->desk->reach.call);
	struct MHD_Response *response =
		MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, 1024, fetch, reader, leave);
	if (response == NULL) {
		leave(reader);
		return MHD_NO;
	}
	return answer_response(request, 200, response, "text/event-stream");
}
