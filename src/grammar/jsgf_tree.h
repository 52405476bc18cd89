/* A JSGF grammar as a tree, as jsgf.c makes it and the expansion reads it. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_JSGF_TREE_H
#define LAPEL_GRAMMAR_JSGF_TREE_H

#include "jsgf.h"
#include "names.h"

#include <stdbool.h>

enum expression_type {
	EXPRESSION_WORD,	 /* value: the word's number */
	EXPRESSION_RULE,	 /* value: the rule's number */
	EXPRESSION_SEQUENCE,	 /* of parts, one after another: here the last comes first */
	EXPRESSION_ALTERNATIVES, /* of parts, with weights that add up to 1 */
	EXPRESSION_OPTIONAL,	 /* of one part */
	EXPRESSION_STAR,
	EXPRESSION_PLUS,
	EXPRESSION_NULL, /* <NULL>: always said, in silence */
	EXPRESSION_VOID	 /* <VOID>: never said */
};

struct expression {
	enum expression_type type;
	int value;
	int first; /* the first of its parts, -1: none */
	int next;  /* the next part of what it is part of, -1: none */
	float weight;
	int line;
};

struct rule {
	int expression; /* -1: referred to, but not defined */
	int line;	/* of its definition, or of the first reference */
	bool recursive; /* leads back to itself, at its right end */
};

struct jsgf {
	char *file;
	char *name;	     /* the grammar's own */
	struct names *words; /* lower case */
	struct names *rule_names;
	struct rule *rules; /* numbered as rule_names */
	int rule_room;
	struct expression *expressions;
	int expression_count, expression_room;
	int public_rule; /* -1: none */
};

/* Finds the rules that lead back to themselves, and refuses those that do so elsewhere than at the
 * right end, undefined rules, and rules that lie too deep in each other. */
bool jsgf_check(struct jsgf *jsgf, struct problem *problem);

#endif
