/* What may be said at the station, as JSGF: the rules of grammars/station.gram with the lists of
 * the vocabulary put in, for each place in the conversation. */
#ifndef LAPEL_GRAMMAR_STATION_H
#define LAPEL_GRAMMAR_STATION_H

#include "problem.h"
#include "vocabulary.h"

/* Reads the lists (kinds.txt, measures.txt, flaws.txt ...) in folder `grammars` into a new
 * vocabulary, which the caller destroys. `bins` names the user's file of bins, or NULL. A bin's
 * digits are said as a label's; one of letters and digits is refused unless it has another way to
 * be said, in words. */
struct vocabulary *station_vocabulary(const char *grammars, const char *bins,
				      struct problem *problem);

enum station_place {
	STATION_ITEM,	  /* free order: any calls, one after another */
	STATION_ASKED,	  /* as before, and a bare length for the measure just asked for */
	STATION_QUESTION, /* "first", "second", "yes", "no", a bare value, or any calls */
	STATION_PAUSED,	  /* only "resume" */
	STATION_PLACES
};

/* The JSGF text of a place, which the caller frees. */
char *station_grammar(const char *grammars, const struct vocabulary *vocabulary,
		      enum station_place place, struct problem *problem);

#endif
