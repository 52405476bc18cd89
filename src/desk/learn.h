/* A word off the list, typed once: it joins the user's list, and is known from then on. Inside
 * desk/. */
#ifndef LAPEL_DESK_LEARN_H
#define LAPEL_DESK_LEARN_H

#include "desk_inside.h"

/* Puts `word` where `said` has "other": on the list of its type, if it is not there, and into
 * *learnt, which is otherwise as `said`. Of a cloth, all its fibres as typed. False with a problem:
 * a word that cannot be said (letters, ' and spaces alone can), or a list that cannot be written.
 */
bool learn(struct desk *desk, const struct call *said, const char *word, struct call *learnt,
	   struct problem *problem);

#endif
