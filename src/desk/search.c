/* Finding items. */
#include "wanted.h"

#include "answer.h"
#include "follow.h"
#include "json.h"
#include "queue.h"

#include <stdio.h>
#include <string.h>

void
wanted_read(const struct request *request, struct listing_wanted *wanted)
{
	*wanted = (struct listing_wanted){.words = request_parameter(request, "q"),
					  .number = request_parameter(request, "number"),
					  .bin = request_parameter(request, "bin"),
					  .kind = request_parameter(request, "kind"),
					  .maker = request_parameter(request, "maker"),
					  .route = request_parameter(request, "route"),
					  .state = request_parameter(request, "state"),
					  .from = request_parameter(request, "from"),
					  .to = request_parameter(request, "to")};
}

struct found {
	struct desk *desk;
	json_t *array;
	int most;
	bool more;
	int64_t last;
};

static bool
add_found(void *user, const struct listing *line)
{
	struct found *found = user;
	if ((int)json_array_size(found->array) == found->most) {
		found->more = true;
		return false;
	}
	json_array_append_new(found->array, line_json(found->desk, line, false));
	found->last = line->item;
	return true;
}

static bool
take_exact(void *user, const struct listing *line)
{
	struct found *found = user;
	json_array_append_new(found->array, line_json(found->desk, line, false));
	return false;
}

/* The item whose number was typed as words. */
static json_t *
exact_json(struct desk *desk, const char *words)
{
	struct found found = {.desk = desk, .array = json_array()};
	struct listing_wanted wanted = {.number = words, .most = 1};
	if (words != NULL && words[0] != '\0' && strlen(words) < LABEL_MAX)
		listing_search(desk->review, &wanted, take_exact, &found);
	json_t *line = json_incref(json_array_get(found.array, 0));
	json_decref(found.array);
	return line == NULL ? json_null() : line;
}

json_t *
search_json(struct request *request)
{
	struct desk *desk = request->desk;
	struct listing_wanted wanted;
	struct found found = {.desk = desk, .array = json_array()};
	int64_t limit = request_number(request, "limit", ROWS_USUAL);
	char cursor[32];
	follow_changes(desk, 10);
	wanted_read(request, &wanted);
	found.most = limit < 1 || limit > ROWS_MOST ? ROWS_USUAL : (int)limit;
	wanted.most = found.most + 1;
	wanted.before = request_number(request, "after", 0);
	listing_search(desk->review, &wanted, add_found, &found);
	json_t *json = json_object();
	json_object_set_new(json, "rows", found.array);
	snprintf(cursor, sizeof cursor, "%lld", (long long)found.last);
	json_object_set_new(json, "next", found.more ? json_string(cursor) : json_null());
	json_object_set_new(json, "exact", exact_json(desk, wanted.words));
	json_object_set_new(json, "behind",
			    json_integer(listing_behind(desk->review, &desk->reach)));
	return json;
}

enum MHD_Result
search_answer(struct request *request, const char *rest)
{
	return answer_json(request, 200, search_json(request));
}
