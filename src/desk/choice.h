/* What else may have been said: the other readings of what was heard. Inside desk/. */
#ifndef LAPEL_DESK_CHOICE_H
#define LAPEL_DESK_CHOICE_H

#include "calls.h"

enum { CHOICES_MAX = 5 };

struct choice {
	struct call call;
	char written[256]; /* "chest 30 in": how it is shown, and asked for */
	char text[256];	   /* the words; empty when it was not among what was heard */
	double confidence; /* 0 then */
};

/* Other meanings of the call, each once: best first what else may have been heard, and then the
 * same number in the other unit where that would fit `record` (or NULL) better. How many. */
int choices_of(struct desk *desk, const struct record *record, const struct past_call *call,
	       struct choice *choices);

/* As the page knows them: an array. */
json_t *choices_json(struct desk *desk, const struct choice *choices, int count);

#endif
