/* The states of an automaton with their arcs while it is being made: found in an expansion, and
 * made fewer. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_ARCS_H
#define LAPEL_GRAMMAR_ARCS_H

#include "automaton.h"
#include "expansion.h"

struct state {
	int first, count; /* its arcs */
	bool hub;	  /* only silent arcs lead to it, and only words leave it */
};

struct arcs {
	struct state *states;
	struct arc *arcs; /* by state; of each, sorted by word and then by where it leads */
	int state_count, arc_count;
	int start, end; /* no arc leaves `end` */
	int state_room, arc_room;
};

/* Takes the silent edges out of an expansion: a state for each node that a word leads to. Silent
 * arcs are left only where they save many: to a hub, which is a node that several states lead to
 * and from which many words go on, and to the end. So no two silent arcs follow each other but at
 * the end. The weight of an arc is that of the best way.
 * Refuses more than `arcs_max` arcs; `file` names the grammar. */
bool arcs_find(struct arcs *arcs, const struct expansion *expansion, const char *file, int arcs_max,
	       struct problem *problem);

/* Takes out what cannot be reached or leads nowhere; joins states from which everything goes on
 * alike (weights within a part in ten thousand); puts a hub that one state alone leads to into that
 * state; numbers states from 0, the start, in order of reaching them. False without memory, or when
 * nothing can be said. */
bool arcs_reduce(struct arcs *arcs, const char *file, struct problem *problem);

void arcs_finish(struct arcs *arcs);

#endif
