/* The desk follows the records: whatever changes, by anybody, is worked into the listing, and told
 * to the pages that are open. Inside desk/. */
#ifndef LAPEL_DESK_FOLLOW_H
#define LAPEL_DESK_FOLLOW_H

#include "desk_inside.h"

/* Works in what changed, and then some of what is to come, as long as `budget_ms` lets it. */
void follow(struct desk *desk, int budget_ms);
/* Only what changed, before somebody is answered who may have changed it. */
void follow_changes(struct desk *desk, int budget_ms);

/* Looks whether anybody wrote since it was looked last. */
bool follow_is_due(struct desk *desk);

/* Before anything else; false when the listing cannot be read. */
bool follow_begin(struct desk *desk, struct problem *problem);

#endif
