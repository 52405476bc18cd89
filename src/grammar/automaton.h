/* A grammar as a graph of words: what the recogniser searches, and what tells whether a text may
 * go on. States are numbered from 0, the start; arcs carry a word, or none: to a hub, which is
 * where many words may follow many states (the start of the next call), and to the end. Of those no
 * two follow each other. Weighted, without useless states. */
#ifndef LAPEL_GRAMMAR_AUTOMATON_H
#define LAPEL_GRAMMAR_AUTOMATON_H

#include "jsgf.h"

#include <stdbool.h>

struct automaton; /* opaque, immutable once compiled */

struct arc {
	int from, to;
	int word;     /* index of a word, or -1: none */
	float weight; /* probability in (0, 1]: alternatives at one place add up to 1, as JSGF says;
			 an optional part and the end of a loop count as alternatives of weight 1 */
};

/* Compiles the first public rule. Refuses a grammar that explodes: more than `states_max` states
 * (0: 20000) or twenty times as many arcs, found out without taking long or much memory, whatever
 * the grammar (eighteen nested + or rules that refer to each other twice are told at once). */
struct automaton *automaton_compile(const struct jsgf *jsgf, int states_max,
				    struct problem *problem);
void automaton_destroy(struct automaton *automaton);

int automaton_state_count(const struct automaton *automaton);
int automaton_arc_count(const struct automaton *automaton);
const struct arc *automaton_arcs(const struct automaton *automaton); /* sorted by from */
/* One state is final, and no arc leaves it. Where a sentence may end or go on, a silent arc leads
 * there with the weight of ending. */
bool automaton_final(const struct automaton *automaton, int state);
int automaton_word_count(const struct automaton *automaton);
const char *automaton_word(const struct automaton *automaton, int index);

/* Where a text (words parted by single spaces) stands. */
struct standing {
	bool possible; /* some sentence begins so */
	bool complete; /* it is a sentence */
	bool longer;   /* more words may follow */
	/* Whether a word may follow that lengthens what was said last, not counting the words that
	 * begin a new call: those with which a loop that lies in no other loop begins anew, such as
	 * <calls> = <call>+. In a grammar that is nothing but a loop over words no word lengthens,
	 * and `longer` is what to go by. */
	bool lengthens;
};
struct standing automaton_standing(const struct automaton *automaton, const char *text);

#endif
