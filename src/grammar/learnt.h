/* The words that the user's lists have learnt: a folder of plain tables like those of grammars/,
 * one for each list, to which the desk adds what was typed once. The user may edit them too. */
#ifndef LAPEL_GRAMMAR_LEARNT_H
#define LAPEL_GRAMMAR_LEARNT_H

#include "problem.h"
#include "vocabulary.h"

/* Adds what the folder's tables have, where there are any, to the vocabulary. A name that is on a
 * list already is passed over: it may have been put into grammars/ since. False when a table is not
 * written as it should be. */
bool learnt_read(struct vocabulary *vocabulary, const char *folder, struct problem *problem);

/* Adds one name to a list: to its table in the folder, which is made if need be, and to the
 * vocabulary. False, with nothing added, when it cannot be said or the table cannot be written. */
bool learnt_add(struct vocabulary *vocabulary, const char *folder, enum list list, const char *name,
		struct problem *problem);

#endif
