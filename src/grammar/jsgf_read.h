/* Reads the rules of a JSGF text into a tree. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_JSGF_READ_H
#define LAPEL_GRAMMAR_JSGF_READ_H

#include "jsgf_tree.h"

/* Fills an empty tree, whose `file` is set. What the rules say of each other is not checked yet. */
bool jsgf_read(struct jsgf *jsgf, const char *text, struct problem *problem);

#endif
