/* The coach of lapel practise: an invented garment, call by call, and what was hard. Pure: what is
 * heard goes in, what is to be said comes out. */
#ifndef LAPEL_COMMAND_COACH_H
#define LAPEL_COMMAND_COACH_H

#include "ears.h"
#include "vocabulary.h"

enum { COACH_TEXT_MAX = 768 };

struct coach_answer {
	const char *cue; /* a name of cues.txt, or NULL */
	char text[COACH_TEXT_MAX];
	bool over; /* that was the last call */
};

struct coach; /* opaque */

/* The garment is made up from the lists: `vocabulary` and `meaning` are borrowed for the call. NULL
 * when there is no memory. */
struct coach *coach_create(const struct vocabulary *vocabulary,
			   const struct meaning_setting *meaning);
void coach_destroy(struct coach *coach); /* NULL is allowed */

/* The welcome and the first call; later on: what is waited for, once more. */
void coach_prompt(const struct coach *coach, bool welcome, struct coach_answer *answer);

/* False when it was clearly not for us: nothing is to be answered. */
bool coach_heard(struct coach *coach, const struct ears_utterance *utterance,
		 struct coach_answer *answer);

/* How many calls were understood, and which took more than one try. */
void coach_tell_hard(const struct coach *coach, char *text, size_t size);

#endif
