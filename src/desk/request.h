/* One request, from its first line to its answer. Inside desk/. */
#ifndef LAPEL_DESK_REQUEST_H
#define LAPEL_DESK_REQUEST_H

#include "desk_inside.h"

#include <jansson.h>

enum { REQUEST_BODY_MAX = 64 * 1024 };

struct request {
	struct desk *desk;
	struct MHD_Connection *connection;
	const char *path;
	bool is_post;
	bool by_key;	/* the key was in the address: the answer sets the cookie */
	bool too_large; /* more was sent than is read */
	char *body;	/* of a post; owned */
	size_t body_size;
};

/* What MHD calls, for all requests. */
enum MHD_Result request_handle(void *user, struct MHD_Connection *connection, const char *url,
			       const char *method, const char *version, const char *data,
			       size_t *data_size, void **request);
void request_finish(void *user, struct MHD_Connection *connection, void **request,
		    enum MHD_RequestTerminationCode why);

/* A parameter of the address; NULL when it is not there. Borrowed for the request. */
const char *request_parameter(const struct request *request, const char *name);
/* The same as a whole number from 0 on; `otherwise` when it is not there or is none. */
int64_t request_number(const struct request *request, const char *name, int64_t otherwise);

/* Each kind of request. `rest` is the path behind what the table of request.c says. */
typedef enum MHD_Result request_answer(struct request *request, const char *rest);

request_answer page_answer, page_file_answer, page_root_answer;
request_answer queue_answer, item_answer, search_answer, lists_answer, figures_answer;
request_answer sound_answer, note_answer, sketch_answer, export_answer, events_answer;
request_answer edit_answer;

/* What the pages and the answers under /api are made of; NULL: there is no such thing. */
json_t *queue_json(struct request *request);
json_t *item_json(struct desk *desk, int64_t item);
json_t *search_json(struct request *request);
json_t *figures_json(struct request *request);

#endif
