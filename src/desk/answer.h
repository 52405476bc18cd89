/* Answers, with what every one of them says to the browser. Inside desk/. */
#ifndef LAPEL_DESK_ANSWER_H
#define LAPEL_DESK_ANSWER_H

#include "request.h"

/* Sends a response, which is given away, with the headers that all have, unless it has its own. */
enum MHD_Result answer_response(struct request *request, unsigned status,
				struct MHD_Response *response, const char *type);
/* Bytes that are freed once they are sent. */
enum MHD_Result answer_owned(struct request *request, unsigned status, const char *type,
			     char *bytes, size_t size);
/* JSON, which is given away; NULL is told as a memory that is full. */
enum MHD_Result answer_json(struct request *request, unsigned status, json_t *json);
/* A sentence: as JSON under /api, as a small page elsewhere. */
enum MHD_Result answer_error(struct request *request, unsigned status, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

#endif
