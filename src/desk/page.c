/* The pages themselves. Each is served with the answer of the API that it would ask for first
 * inside it, so that it is there with the first answer. */
#include "answer.h"
#include "page_files.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char data_mark[] = "<!-- data -->";

static const struct page_file *
find_file(const char *name)
{
	for (int i = 0; i < page_file_count; i++)
		if (strcmp(page_files[i].name, name) == 0)
			return &page_files[i];
	return NULL;
}

static bool
is_html(const struct page_file *file)
{
	return strncmp(file->type, "text/html", 9) == 0;
}

enum MHD_Result
page_file_answer(struct request *request, const char *rest)
{
	const struct page_file *file = find_file(rest);
	if (file == NULL || is_html(file))
		return answer_error(request, 404, "there is no such file");
	struct MHD_Response *response = MHD_create_response_from_buffer(
		file->size, (void *)(uintptr_t)file->bytes, MHD_RESPMEM_PERSISTENT);
	if (response != NULL)
		MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "no-cache");
	return answer_response(request, 200, response, file->type);
}

/* In a page, JSON must not hold what ends a script. */
static void
add_data(struct text *page, json_t *data)
{
	char *json = json_dumps(data, JSON_COMPACT | JSON_REAL_PRECISION(6));
	text_add(page, "<script type=\"application/json\" id=\"data\">");
	for (const char *rest = json; rest != NULL && *rest != '\0';) {
		size_t length = strcspn(rest, "<");
		text_add_bytes(page, rest, length);
		rest += length;
		if (*rest == '<') {
			text_add(page, "\\u003c");
			rest++;
		}
	}
	text_add(page, "</script>");
	free(json);
}

/* `data` is given away, and may be NULL. */
static enum MHD_Result
answer_page(struct request *request, const char *name, json_t *data)
{
	struct text page = {.chars = NULL};
	const struct page_file *file = find_file(name);
	if (file == NULL)
		file = find_file("page.html");
	if (file == NULL) {
		json_decref(data);
		return answer_error(request, 404, "there is no such page");
	}
	const char *html = (const char *)file->bytes;
	const char *mark = data == NULL ? NULL : strstr(html, data_mark);
	text_add_bytes(&page, html, mark == NULL ? file->size : (size_t)(mark - html));
	if (mark != NULL) {
		add_data(&page, data);
		text_add(&page, mark + sizeof data_mark - 1);
	}
	json_decref(data);
	if (page.failed) {
		text_finish(&page);
		return MHD_NO;
	}
	return answer_owned(request, 200, file->type, page.chars, page.length);
}

enum MHD_Result
page_root_answer(struct request *request, const char *rest)
{
	return answer_page(request, "queue.html", queue_json(request));
}

static json_t *
no_data(struct request *request)
{
	return NULL;
}

static const struct {
	const char *path, *file;
	json_t *(*data)(struct request *request);
} pages[] = {
	{"queue", "queue.html", queue_json},
	{"search", "search.html", search_json},
	{"figures", "figures.html", figures_json},
	{"help", "help.html", no_data},
};

enum MHD_Result
page_answer(struct request *request, const char *rest)
{
	static const char item[] = "item/";
	for (size_t i = 0; i < sizeof pages / sizeof *pages; i++)
		if (strcmp(rest, pages[i].path) == 0)
			return answer_page(request, pages[i].file, pages[i].data(request));
	if (strncmp(rest, item, sizeof item - 1) == 0) {
		const char *figures = rest + sizeof item - 1;
		bool number = figures[0] != '\0' && strlen(figures) <= 18 &&
			      figures[strspn(figures, "0123456789")] == '\0';
		json_t *data = number ? item_json(request->desk, strtoll(figures, NULL, 10)) : NULL;
		if (data == NULL)
			return answer_error(request, 404, "there is no such item");
		return answer_page(request, "item.html", data);
	}
	if (strcmp(rest, "favicon.ico") == 0)
		return page_file_answer(request, "icon.svg");
	return answer_error(request, 404, "there is no such page");
}
