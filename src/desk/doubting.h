/* What is doubtful of a value, by the same checks as at the station. Inside desk/. */
#ifndef LAPEL_DESK_DOUBTING_H
#define LAPEL_DESK_DOUBTING_H

#include "desk_inside.h"
#include "doubt.h"

/* Whether the call is doubted beside what stands in `record`: out of range, at odds with the tag or
 * another measure, a bin that is not on the user's list. */
bool doubting(const struct desk *desk, const struct record *record, const struct call *call,
	      struct doubt *doubt);

#endif
