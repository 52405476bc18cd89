/* What a search leaves behind: where which word may have ended, and how good the best way there
 * was. Private to the search. */
#ifndef LAPEL_EARS_LATTICE_H
#define LAPEL_EARS_LATTICE_H

#include "search.h"

/* A word of the grammar in one of its ways. */
struct strand {
	int from, to; /* states of the automaton */
	int word;
	float entering;	  /* nats: the grammar's share, and what a word costs */
	int first, count; /* its parts in the graph's outputs */
};

/* A word may have ended. */
struct ending {
	int strand;
	int first_frame, last_frame;
	float before; /* of the best way to the word's beginning */
	float score;  /* of the best way to its end */
	int earlier;  /* the ending before at the same state, or -1 */
};

struct silent {
	int from, to;
	float weight; /* nats */
};

struct lattice {
	const struct automaton *automaton;
	const struct strand *strands;
	const struct silent *silents; /* sorted by `to` */
	int silent_count;
	struct ending *endings;
	int ending_count, ending_room;
	int *latest;	 /* ending of each state, or -1 */
	double *silence; /* of the frames before each frame: the silence's scores added up */
	int frames;
	double best; /* of a whole sentence */
};

bool lattice_add(struct lattice *lattice, struct ending ending);

/* The best sentences, each text once: those within `margin` nats of the best. False when memory
 * ran out. */
bool lattice_read(const struct lattice *lattice, double margin, struct found *found);

#endif
