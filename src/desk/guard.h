/* Who may come in. Inside desk/. */
#ifndef LAPEL_DESK_GUARD_H
#define LAPEL_DESK_GUARD_H

#include "request.h"

/* Why the request is turned away, with the status to answer it by; NULL lets it in. A foreign Host
 * (a name that was made to point here), a foreign Origin (another site's page), no secret. */
const char *guard_refuses(struct request *request, unsigned *status);

/* Whether both texts are the same, in a time that does not tell how much of them is. */
bool guard_same_secret(const char *one, const char *other);

/* A new secret in hexadecimal figures; false when the system gives none. */
bool guard_make_secret(char *secret, size_t size);

#endif
