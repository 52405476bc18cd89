#include "request.h"

#include "answer.h"
#include "guard.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What begins so is answered by this; the first that fits. */
static const struct route {
	const char *path;
	bool is_post;
	bool whole; /* the path ends there; else `rest` is what follows */
	request_answer *answer;
} routes[] = {
	{"/", false, true, page_root_answer},	    {"/api/queue", false, true, queue_answer},
	{"/api/item/", false, false, item_answer},  {"/api/search", false, true, search_answer},
	{"/api/lists", false, true, lists_answer},  {"/api/figures", false, true, figures_answer},
	{"/api/", true, false, edit_answer},	    {"/sound/", false, false, sound_answer},
	{"/note/", false, false, note_answer},	    {"/sketch/", false, false, sketch_answer},
	{"/export", false, true, export_answer},    {"/events", false, true, events_answer},
	{"/page/", false, false, page_file_answer}, {"/", false, false, page_answer},
};

const char *
request_parameter(const struct request *request, const char *name)
{
	return MHD_lookup_connection_value(request->connection, MHD_GET_ARGUMENT_KIND, name);
}

int64_t
request_number(const struct request *request, const char *name, int64_t otherwise)
{
	const char *text = request_parameter(request, name);
	if (text == NULL || text[0] == '\0' || strlen(text) > 18 ||
	    text[strspn(text, "0123456789")] != '\0')
		return otherwise;
	return strtoll(text, NULL, 10);
}

static enum MHD_Result
dispatch(struct request *request)
{
	for (size_t i = 0; i < sizeof routes / sizeof *routes; i++) {
		const struct route *route = &routes[i];
		size_t length = strlen(route->path);
		if (route->is_post != request->is_post ||
		    strncmp(request->path, route->path, length) != 0 ||
		    (route->whole && request->path[length] != '\0'))
			continue;
		return route->answer(request, request->path + length);
	}
	return answer_error(request, request->is_post ? 405 : 404, "there is nothing here");
}

static struct request *
request_begin(struct desk *desk, struct MHD_Connection *connection, const char *url, bool is_post)
{
	struct request *request = calloc(1, sizeof *request);
	if (request == NULL)
		return NULL;
	request->desk = desk;
	request->connection = connection;
	request->path = url;
	request->is_post = is_post;
	return request;
}

static enum MHD_Result
first_line(struct request *request, const char *method)
{
	unsigned status;
	const char *why_not = guard_refuses(request, &status);
	if (why_not != NULL)
		return answer_error(request, status, "%s", why_not);
	if (!request->is_post && strcmp(method, MHD_HTTP_METHOD_GET) != 0 &&
	    strcmp(method, MHD_HTTP_METHOD_HEAD) != 0)
		return answer_error(request, 405, "only GET, HEAD and POST are answered");
	return MHD_YES;
}

static void
take_body(struct request *request, const char *data, size_t size)
{
	if (request->too_large || request->body_size + size > REQUEST_BODY_MAX) {
		request->too_large = true;
		return;
	}
	char *grown = realloc(request->body, request->body_size + size + 1);
	request->too_large = grown == NULL;
	if (grown == NULL)
		return;
	memcpy(grown + request->body_size, data, size);
	request->body = grown;
	request->body_size += size;
	request->body[request->body_size] = '\0';
}

enum MHD_Result
request_handle(void *user, struct MHD_Connection *connection, const char *url, const char *method,
	       const char *version, const char *data, size_t *data_size, void **under_way)
{
	struct request *request = *under_way;
	if (request == NULL) {
		request = request_begin(user, connection, url,
					strcmp(method, MHD_HTTP_METHOD_POST) == 0);
		*under_way = request;
		return request == NULL ? MHD_NO : first_line(request, method);
	}
	request->path = url;
	if (*data_size > 0) {
		if (request->is_post)
			take_body(request, data, *data_size);
		*data_size = 0;
		return MHD_YES;
	}
	if (request->too_large)
		return answer_error(request, 413, "that is more than is taken at once");
	return dispatch(request);
}

void
request_finish(void *user, struct MHD_Connection *connection, void **under_way,
	       enum MHD_RequestTerminationCode why)
{
	struct request *request = *under_way;
	if (request == NULL)
		return;
	free(request->body);
	free(request);
	*under_way = NULL;
}
