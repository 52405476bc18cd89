/* A grammar written out: its rules put into each other, as a graph of nodes in which an edge is a
 * word, or silent. Inside grammar/.
 *
 * The graph is built from its end to its start. What may be said by a rule on the way to a node is
 * written out once for that node, however many places lead there; so the end of a rule that refers
 * to the rule itself leads back to where it began, which makes the loop. */
#ifndef LAPEL_GRAMMAR_EXPANSION_H
#define LAPEL_GRAMMAR_EXPANSION_H

#include "jsgf_tree.h"

struct edge {
	int to;
	int word; /* -1: silent */
	float weight;
	int next; /* of the same node and sort, -1: none */
};

struct node {
	int first_word, first_silent; /* edges, -1: none */
	/* Where a loop that is not inside another begins anew: there the next call begins. */
	bool opens;
};

struct expansion {
	struct node *nodes;
	struct edge *edges;
	int node_count, edge_count;
	int node_room, edge_room;
	int start, end;
};

/* Writes the public rule out into an empty expansion; refuses one of more than `nodes_max` nodes,
 * or twenty times as many edges. */
bool expansion_build(struct expansion *expansion, const struct jsgf *jsgf, int nodes_max,
		     struct problem *problem);
void expansion_finish(struct expansion *expansion);

/* Marks the words (by number) with which a loop that is in no other begins anew. False without
 * memory. */
bool expansion_opening_words(const struct expansion *expansion, bool *opening);

#endif
