/* Which nodes of an expansion become hubs. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_HUBS_H
#define LAPEL_GRAMMAR_HUBS_H

#include "expansion.h"

/* Whether a word leads to each node, or it is the start or the end: those become states. */
void hubs_mark_states(const struct expansion *expansion, bool *is_state);

/* Marks the nodes where silent ways from several states meet, and from which many words go on:
 * with S states and W words, a hub makes S + W arcs of S times W. False without memory. */
bool hubs_choose(const struct expansion *expansion, const bool *is_state, bool *is_hub);

#endif
