/* What may be said, by calls, for the card. */
#ifndef LAPEL_COMMAND_WORDS_CALLS_H
#define LAPEL_COMMAND_WORDS_CALLS_H

#include "vocabulary.h"

/* Words in capitals stand for one of the list with that head, or for a number; what stands in
 * square brackets may be left out. */
struct call_words {
	const char *head;
	const char *text; /* ways of saying, with "; " between them */
};

struct list_words {
	const char *head;
	enum list list;
};

/* In the order of the card; *count is set. */
const struct call_words *words_calls(int *count);
const struct list_words *words_lists(int *count);

#endif
