/* The export of a selection, a piece at a time: never more of it is in memory than one piece, and
 * others are answered between two. */
#include "answer.h"
#include "export_form.h"
#include "wanted.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { ITEMS_NAMED_MAX = 2000, BATCH = 64, PIECE = 32 * 1024 };

struct handing_on {
	struct desk *desk;
	const struct export_form *form;
	struct export_with with;
	struct listing_wanted wanted;
	char *texts[9]; /* what is wanted, kept */
	int64_t *items; /* named ones, or the next of those that are found */
	int count, at;
	bool named, all_found, ended;
	int64_t handed_on;
	struct text text; /* what is to be sent */
	size_t sent;	  /* of it */
	struct record record;
};

static void
finish(void *user)
{
	struct handing_on *handing = user;
	for (size_t i = 0; i < sizeof handing->texts / sizeof *handing->texts; i++)
		free(handing->texts[i]);
	export_with_finish(&handing->with);
	text_finish(&handing->text);
	free(handing->items);
	free(handing);
}

static bool
take_item(void *user, const struct listing *line)
{
	struct handing_on *handing = user;
	handing->items[handing->count++] = line->item;
	return handing->count < BATCH;
}

/* The next items; false when there are none. */
static bool
find_more(struct handing_on *handing)
{
	if (handing->named || handing->all_found)
		return false;
	handing->at = handing->count = 0;
	listing_search(handing->desk->review, &handing->wanted, take_item, handing);
	if (handing->count > 0)
		handing->wanted.after = handing->items[handing->count - 1];
	handing->all_found = handing->count < BATCH;
	return handing->count > 0;
}

static void
add_next(struct handing_on *handing)
{
	static const char *const no_pictures[] = {NULL};
	struct problem lacking = {""};
	if (handing->at == handing->count && !find_more(handing)) {
		text_add(&handing->text, handing->form->closing);
		handing->ended = true;
		return;
	}
	if (!store_load_standing(handing->desk->store, handing->items[handing->at++],
				 &handing->record))
		return;
	if (handing->handed_on++ > 0)
		text_add(&handing->text, handing->form->between);
	handing->form->item(&handing->with, &handing->record, false, no_pictures, &handing->text,
			    &lacking);
}

static ssize_t
next_piece(void *user, uint64_t position, char *to, size_t most)
{
	struct handing_on *handing = user;
	if (handing->sent == handing->text.length) {
		text_cut(&handing->text, 0);
		handing->sent = 0;
	}
	while (handing->text.length < most && !handing->ended && !handing->text.failed)
		add_next(handing);
	if (handing->text.failed)
		return MHD_CONTENT_READER_END_WITH_ERROR;
	size_t count = handing->text.length - handing->sent;
	if (count == 0)
		return MHD_CONTENT_READER_END_OF_STREAM;
	count = count < most ? count : most;
	memcpy(to, handing->text.chars + handing->sent, count);
	handing->sent += count;
	return (ssize_t)count;
}

/* "3,7,9": rows of items. */
static bool
read_named(struct handing_on *handing, const char *text)
{
	while (*text != '\0') {
		char *end;
		long long item = strtoll(text, &end, 10);
		if (end == text || item <= 0 || handing->count == ITEMS_NAMED_MAX ||
		    (*end != ',' && *end != '\0'))
			return false;
		handing->items[handing->count++] = item;
		text = *end == ',' ? end + 1 : end;
	}
	return handing->count > 0;
}

/* The request is gone long before the last piece is sent. */
static void
keep_wanted(struct handing_on *handing, const struct request *request)
{
	struct listing_wanted *wanted = &handing->wanted;
	wanted_read(request, wanted);
	const char **texts[] = {&wanted->words, &wanted->number, &wanted->bin,
				&wanted->kind,	&wanted->maker,	 &wanted->route,
				&wanted->state, &wanted->from,	 &wanted->to};
	for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
		if (*texts[i] != NULL)
			*texts[i] = handing->texts[i] = strdup(*texts[i]);
	wanted->rising = true;
	wanted->most = BATCH;
}

static void
name_file(const struct export_form *form, char *disposition, size_t size)
{
	char day[16];
	time_t now = time(NULL);
	struct tm tm;
	localtime_r(&now, &tm);
	strftime(day, sizeof day, "%Y-%m-%d", &tm);
	snprintf(disposition, size, "attachment; filename=\"lapel-%s.%s\"", day,
		 strcmp(form->name, "text") == 0 ? "txt" : form->name);
}

static const char *
type_of(const struct export_form *form)
{
	if (strcmp(form->name, "csv") == 0)
		return "text/csv; charset=utf-8";
	return strcmp(form->name, "jsonld") == 0 ? "application/ld+json"
						 : "text/plain; charset=utf-8";
}

enum MHD_Result
export_answer(struct request *request, const char *rest)
{
	struct desk *desk = request->desk;
	const char *as = request_parameter(request, "as");
	const char *items = request_parameter(request, "items");
	const struct export_form *form = export_form_named(as == NULL ? "csv" : as);
	char disposition[100];
	if (form == NULL)
		return answer_error(request, 400, "as is none of csv, jsonld and text");
	struct handing_on *handing = calloc(1, sizeof *handing);
	if (handing != NULL)
		handing->items = calloc(ITEMS_NAMED_MAX, sizeof *handing->items);
	if (handing == NULL || handing->items == NULL) {
		free(handing);
		return answer_error(request, 500, "the memory is full");
	}
	handing->desk = desk;
	handing->form = form;
	handing->with = (struct export_with){.rows = desk->setting.rows,
					     .writeup_form = desk->setting.writeup_form};
	handing->named = items != NULL && items[0] != '\0';
	if (handing->named && !read_named(handing, items)) {
		finish(handing);
		return answer_error(request, 400,
				    "items are their rows with commas between them, %d at most",
				    ITEMS_NAMED_MAX);
	}
	keep_wanted(handing, request);
	text_add(&handing->text, form->opening);
	if (form->head != NULL)
		form->head(&handing->with, &handing->text);
	struct MHD_Response *response = MHD_create_response_from_callback(
		MHD_SIZE_UNKNOWN, PIECE, next_piece, handing, finish);
	if (response == NULL) {
		finish(handing);
		return MHD_NO;
	}
	name_file(form, disposition, sizeof disposition);
	MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_DISPOSITION, disposition);
	return answer_response(request, 200, response, type_of(form));
}
