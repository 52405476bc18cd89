/* Sound to be heard again, and pictures. */
#include "answer.h"
#include "range.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int64_t
row_of(const char *rest)
{
	bool number =
		rest[0] != '\0' && strlen(rest) <= 18 && rest[strspn(rest, "0123456789")] == '\0';
	return number ? strtoll(rest, NULL, 10) : 0;
}

static struct MHD_Response *
part_of(const unsigned char *bytes, int64_t from, int64_t count)
{
	return MHD_create_response_from_buffer((size_t)count, (void *)(uintptr_t)(bytes + from),
					       MHD_RESPMEM_MUST_COPY);
}

static enum MHD_Result
answer_sound(struct request *request, const char *rest, bool note)
{
	int64_t call = row_of(rest), size = 0, from, count;
	unsigned char *bytes =
		call == 0 ? NULL : review_sound(request->desk->review, call, note, &size);
	if (bytes == NULL)
		return answer_error(request, 404,
				    "there is no sound of this: it was not kept, or no longer");
	const char *header = MHD_lookup_connection_value(request->connection, MHD_HEADER_KIND,
							 MHD_HTTP_HEADER_RANGE);
	enum range_wanted wanted = range_read(header, size, &from, &count);
	static const unsigned status[] = {
		[RANGE_WHOLE] = 200, [RANGE_PART] = 206, [RANGE_NONE] = 416};
	char range[96];
	struct MHD_Response *response = part_of(bytes, from, wanted == RANGE_NONE ? 0 : count);
	free(bytes);
	if (response == NULL)
		return MHD_NO;
	MHD_add_response_header(response, MHD_HTTP_HEADER_ACCEPT_RANGES, "bytes");
	/* Sound is never changed, only forgotten. */
	MHD_add_response_header(response, MHD_HTTP_HEADER_CACHE_CONTROL, "private, max-age=600");
	if (wanted == RANGE_PART)
		snprintf(range, sizeof range, "bytes %lld-%lld/%lld", (long long)from,
			 (long long)(from + count - 1), (long long)size);
	else
		snprintf(range, sizeof range, "bytes */%lld", (long long)size);
	if (wanted != RANGE_WHOLE)
		MHD_add_response_header(response, MHD_HTTP_HEADER_CONTENT_RANGE, range);
	return answer_response(request, status[wanted], response, "audio/flac");
}

enum MHD_Result
sound_answer(struct request *request, const char *rest)
{
	return answer_sound(request, rest, false);
}

enum MHD_Result
note_answer(struct request *request, const char *rest)
{
	return answer_sound(request, rest, true);
}

enum { SKETCH_PX = 720 };

static bool
take_picture(void *to, const void *bytes, size_t count)
{
	struct text *picture = to;
	text_add_bytes(picture, bytes, count);
	return !picture->failed;
}

enum MHD_Result
sketch_answer(struct request *request, const char *rest)
{
	struct desk *desk = request->desk;
	struct text picture = {.chars = NULL};
	struct problem problem = {""};
	int64_t item = row_of(rest);
	if (item == 0 || !store_load(desk->store, item, &desk->other))
		return answer_error(request, 404, "there is no such item");
	if (record_slot(&desk->other, CALL_KIND) == NULL)
		return answer_error(request, 404, "there is no picture before a kind was said");
	if (!sketch_draw(desk->setting.sketches, desk->setting.vocabulary, NULL, &desk->other,
			 SKETCH_SVG, SKETCH_PX, "the page", take_picture, &picture, &problem)) {
		text_finish(&picture);
		return answer_error(request, 404, "there is no picture: %s", problem.text);
	}
	struct MHD_Response *response = MHD_create_response_from_buffer(
		picture.length, picture.chars, MHD_RESPMEM_MUST_FREE);
	if (response == NULL) {
		text_finish(&picture);
		return MHD_NO;
	}
	/* Opened by itself, a picture has its own styles, and nothing else. */
	MHD_add_response_header(response, "Content-Security-Policy",
				"default-src 'none'; style-src 'unsafe-inline'; "
				"frame-ancestors 'none'; sandbox");
	return answer_response(request, 200, response, "image/svg+xml");
}
