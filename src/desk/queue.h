/* Lines of the listing as the page knows them. Inside desk/. */
#ifndef LAPEL_DESK_QUEUE_H
#define LAPEL_DESK_QUEUE_H

#include "desk_inside.h"

#include <jansson.h>

/* One line; `matters` with what it asks for. */
json_t *line_json(struct desk *desk, const struct listing *line, bool matters);

enum { ROWS_USUAL = 50, ROWS_MOST = 200 };

#endif
