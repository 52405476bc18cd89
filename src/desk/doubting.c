#include "doubting.h"

#include "phrase.h"

#include <stdio.h>

static bool
off_the_list(const struct desk *desk, const struct call *call, struct doubt *doubt)
{
	const struct vocabulary *vocabulary = desk->setting.vocabulary;
	if (call->type != CALL_BIN || vocabulary_count(vocabulary, LIST_BIN) == 0 ||
	    vocabulary_find(vocabulary, LIST_BIN, call->label) >= 0)
		return false;
	*doubt = (struct doubt){.severity = DOUBT_ASK};
	snprintf(doubt->reason, sizeof doubt->reason, "bin %s is not on the list: is that right?",
		 call->label);
	return true;
}

bool
doubting(const struct desk *desk, const struct record *record, const struct call *call,
	 struct doubt *doubt)
{
	struct doubt_view view = {.vocabulary = desk->setting.vocabulary,
				  .ranges = desk->setting.ranges,
				  .record = record};
	return off_the_list(desk, call, doubt) || doubt_call(&view, call, doubt);
}
