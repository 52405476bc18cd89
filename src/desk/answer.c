#include "answer.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Nothing but our own files, no script in a page, nobody else's frame around it, and nothing told
 * to anybody. */
static const struct {
	const char *name, *value;
} headers[] = {
	{"Content-Security-Policy",
	 "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
	 "media-src 'self'; connect-src 'self'; font-src 'self'; form-action 'self'; "
	 "base-uri 'none'; frame-ancestors 'none'"},
	{"X-Content-Type-Options", "nosniff"},
	{"Referrer-Policy", "no-referrer"},
	{"Cross-Origin-Opener-Policy", "same-origin"},
	{"Cross-Origin-Resource-Policy", "same-origin"},
};

static void
set_cookie(const struct request *request, struct MHD_Response *response)
{
	char cookie[DESK_KEY_MAX + 100];
	snprintf(cookie, sizeof cookie, "%s=%s; HttpOnly; SameSite=Strict; Path=/",
		 request->desk->cookie, request->desk->key);
	MHD_add_response_header(response, MHD_HTTP_HEADER_SET_COOKIE, cookie);
}

enum MHD_Result
answer_response(struct request *request, unsigned status, struct MHD_Response *response,
		const char *type)
{
	if (response == NULL)
		return MHD_NO;
	for (size_t i = 0; i < sizeof headers / sizeof *headers; i++)
		if (MHD_get_response_header(response, headers[i].name) == NULL)
			MHD_add_response_header(response, headers[i].name, headers[i].value);
	if (type != NULL)
		MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_TYPE, type);
	if (MHD_get_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL) == NULL)
		MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-store");
	if (request->by_key && status < 400)
		set_cookie(request, response);
	enum MHD_Result result = MHD_queue_response(request->connection, status, response);
	MHD_destroy_response(response);
	return result;
}

enum MHD_Result
answer_owned(struct request *request, unsigned status, const char *type, char *bytes, size_t size)
{
	struct MHD_Response *response =
		MHD_create_response_from_buffer(size, bytes, MHD_RESPMEM_MUST_FREE);
	if (response == NULL)
		free(bytes);
	return answer_response(request, status, response, type);
}

enum MHD_Result
answer_json(struct request *request, unsigned status, json_t *json)
{
	char *text = json == NULL ? NULL : json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(6));
	json_decref(json);
	if (text == NULL)
		return answer_error(request, 500, "the memory is full");
	return answer_owned(request, status, "application/json", text, strlen(text));
}

/* For a page. What is told is ours, but may quote what was sent. */
static char *
small_page(const char *sentence)
{
	struct text page = {.chars = NULL};
	text_add(&page, "<!DOCTYPE html><html lang=\"en\"><meta charset=\"utf-8\">"
			"<title>lapel desk</title><p>");
	for (const char *c = sentence; *c != '\0'; c++) {
		if (*c == '<' || *c == '>' || *c == '&' || *c == '"' || *c == '\'')
			text_add_format(&page, "&#%d;", *c);
		else
			text_add_bytes(&page, c, 1);
	}
	text_add(&page, "</p></html>\n");
	return page.chars;
}

enum MHD_Result
answer_error(struct request *request, unsigned status, const char *format, ...)
{
	char sentence[600];
	va_list arguments;
	va_start(arguments, format);
	vsnprintf(sentence, sizeof sentence, format, arguments);
	va_end(arguments);
	if (strncmp(request->path, "/api/", 5) == 0) {
		json_t *json = json_object();
		json_object_set_new(json, "error", json_string(sentence));
		return answer_json(request, status, json);
	}
	char *page = small_page(sentence);
	if (page == NULL)
		return MHD_NO;
	return answer_owned(request, status, "text/html; charset=utf-8", page, strlen(page));
}
