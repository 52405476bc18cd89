/* What is looked for, as the address says it. Inside desk/. */
#ifndef LAPEL_DESK_WANTED_H
#define LAPEL_DESK_WANTED_H

#include "request.h"

/* Borrows from the request. */
void wanted_read(const struct request *request, struct listing_wanted *wanted);

#endif
