#include "expansion.h"

#include "growth.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH_MAX = 2000, EDGES_TO_A_NODE = 20 };

/* Where a rule begins that leads to the node `to`. */
struct beginning {
	int rule, to, node;
};

struct building {
	struct expansion *expansion;
	const struct jsgf *jsgf;
	int nodes_max;
	int depth;
	int loops;		      /* how many loops what is being written out lies in */
	struct beginning *beginnings; /* a hash table; free where node is -1 */
	int beginning_count, slot_count;
	struct problem *problem;
};

static bool attach(struct building *building, int from, int number, int to, float weight);

static bool
no_memory(const struct building *building)
{
	return problem_say(building->problem, "%s: there is no memory left for it",
			   building->jsgf->file);
}

static bool
explodes(const struct building *building)
{
	return problem_say(building->problem,
			   "%s: this grammar explodes: with its rules put into each other it would "
			   "need more than %d states",
			   building->jsgf->file, building->nodes_max);
}

/* A new node, or -1. */
static int
add_node(struct building *building)
{
	struct expansion *expansion = building->expansion;
	if (expansion->node_count == building->nodes_max) {
		explodes(building);
		return -1;
	}
	if (!growth_reserve(&expansion->nodes, &expansion->node_room, expansion->node_count + 1,
			    sizeof *expansion->nodes)) {
		no_memory(building);
		return -1;
	}
	expansion->nodes[expansion->node_count] =
		(struct node){.first_word = -1, .first_silent = -1};
	return expansion->node_count++;
}

/* With weight 0 there is nothing to add. */
static bool
add_edge(struct building *building, int from, int to, int word, float weight)
{
	struct expansion *expansion = building->expansion;
	if (weight <= 0)
		return true;
	if (expansion->edge_count / EDGES_TO_A_NODE >= building->nodes_max)
		return explodes(building);
	if (!growth_reserve(&expansion->edges, &expansion->edge_room, expansion->edge_count + 1,
			    sizeof *expansion->edges))
		return no_memory(building);
	struct node *node = &expansion->nodes[from];
	int *first = word < 0 ? &node->first_silent : &node->first_word;
	expansion->edges[expansion->edge_count] =
		(struct edge){.to = to, .word = word, .weight = weight, .next = *first};
	*first = expansion->edge_count++;
	return true;
}

static struct beginning *
slot_of(const struct building *building, int rule, int to)
{
	uint32_t mask = (uint32_t)building->slot_count - 1;
	uint32_t slot = ((uint32_t)rule * 2654435761u ^ (uint32_t)to * 2246822519u) & mask;
	struct beginning *table = building->beginnings;
	while (table[slot].node >= 0 && (table[slot].rule != rule || table[slot].to != to))
		slot = (slot + 1) & mask;
	return &table[slot];
}

static bool
remember(struct building *building, struct beginning beginning)
{
	if (2 * (building->beginning_count + 1) > building->slot_count) {
		int old_count = building->slot_count;
		struct beginning *old = building->beginnings;
		int count = old_count == 0 ? 256 : 2 * old_count;
		struct beginning *table = malloc((size_t)count * sizeof *table);
		if (table == NULL)
			return no_memory(building);
		for (int i = 0; i < count; i++)
			table[i].node = -1;
		building->beginnings = table;
		building->slot_count = count;
		for (int i = 0; i < old_count; i++)
			if (old[i].node >= 0)
				*slot_of(building, old[i].rule, old[i].to) = old[i];
		free(old);
	}
	*slot_of(building, beginning.rule, beginning.to) = beginning;
	building->beginning_count++;
	return true;
}

/* The node where the rule begins that leads to `to`, or -1. */
static int
rule_beginning(struct building *building, int rule, int to)
{
	const struct rule *defined = &building->jsgf->rules[rule];
	if (building->slot_count > 0) {
		const struct beginning *known = slot_of(building, rule, to);
		if (known->node >= 0)
			return known->node;
	}
	int node = add_node(building);
	if (node < 0 || !remember(building, (struct beginning){rule, to, node}))
		return -1;
	building->expansion->nodes[node].opens = defined->recursive && building->loops == 0;
	building->loops += defined->recursive;
	bool good = attach(building, node, defined->expression, to, 1);
	building->loops -= defined->recursive;
	return good ? node : -1;
}

/* The node where the expression begins that leads to `to`, or -1. */
static int
beginning(struct building *building, int number, int to)
{
	const struct expression *expression = &building->jsgf->expressions[number];
	if (expression->type == EXPRESSION_RULE)
		return rule_beginning(building, expression->value, to);
	if (expression->type == EXPRESSION_NULL)
		return to;
	int node = add_node(building);
	return node >= 0 && attach(building, node, number, to, 1) ? node : -1;
}

/* The parts from the last to the second have a beginning each, and the first begins at `from`. */
static bool
attach_sequence(struct building *building, int from, int last, int to, float weight)
{
	const struct expression *expressions = building->jsgf->expressions;
	int part = last;

	for (; to >= 0 && expressions[part].next >= 0; part = expressions[part].next)
		to = beginning(building, part, to);
	return to >= 0 && attach(building, from, part, to, weight);
}

/* From the loop's beginning through the part and back; the way out is before (*) or after (+). */
static bool
attach_loop(struct building *building, int from, const struct expression *loop, int to,
	    float weight)
{
	int begin = add_node(building);
	int after = loop->type == EXPRESSION_PLUS ? add_node(building) : begin;
	if (begin < 0 || after < 0)
		return false;
	building->expansion->nodes[begin].opens = building->loops == 0;
	building->loops++;
	bool good = attach(building, begin, loop->first, after, after == begin ? 0.5f : 1);
	building->loops--;
	return good && (after == begin || add_edge(building, after, begin, -1, 0.5f)) &&
	       add_edge(building, after, to, -1, 0.5f) &&
	       add_edge(building, from, begin, -1, weight);
}

static bool
attach_expression(struct building *building, int from, int number, int to, float weight)
{
	const struct expression *expressions = building->jsgf->expressions;
	const struct expression *expression = &expressions[number];
	int node;

	switch (expression->type) {
	case EXPRESSION_WORD:
		return add_edge(building, from, to, expression->value, weight);
	case EXPRESSION_RULE:
		node = rule_beginning(building, expression->value, to);
		return node >= 0 && add_edge(building, from, node, -1, weight);
	case EXPRESSION_SEQUENCE:
		return attach_sequence(building, from, expression->first, to, weight);
	case EXPRESSION_ALTERNATIVES:
		for (int part = expression->first; part >= 0; part = expressions[part].next)
			if (!attach(building, from, part, to, weight * expressions[part].weight))
				return false;
		return true;
	case EXPRESSION_OPTIONAL:
		return add_edge(building, from, to, -1, weight / 2) &&
		       attach(building, from, expression->first, to, weight / 2);
	case EXPRESSION_STAR:
	case EXPRESSION_PLUS:
		return attach_loop(building, from, expression, to, weight);
	case EXPRESSION_NULL:
		return add_edge(building, from, to, -1, weight);
	case EXPRESSION_VOID:
		return true;
	}
	return true;
}

/* Adds ways from `from` to `to` on which the expression is said. */
static bool
attach(struct building *building, int from, int number, int to, float weight)
{
	if (building->depth == DEPTH_MAX)
		return problem_say(building->problem,
				   "%s, line %d: rules lie too deep in each other",
				   building->jsgf->file, building->jsgf->expressions[number].line);
	building->depth++;
	bool good = attach_expression(building, from, number, to, weight);
	building->depth--;
	return good;
}

bool
expansion_build(struct expansion *expansion, const struct jsgf *jsgf, int nodes_max,
		struct problem *problem)
{
	struct building building = {
		.expansion = expansion, .jsgf = jsgf, .nodes_max = nodes_max, .problem = problem};

	expansion->end = add_node(&building);
	expansion->start = expansion->end < 0
				   ? -1
				   : rule_beginning(&building, jsgf->public_rule, expansion->end);
	free(building.beginnings);
	return expansion->start >= 0;
}

void
expansion_finish(struct expansion *expansion)
{
	free(expansion->nodes);
	free(expansion->edges);
	memset(expansion, 0, sizeof *expansion);
}

bool
expansion_opening_words(const struct expansion *expansion, bool *opening)
{
	size_t size = (size_t)expansion->node_count;
	bool *seen = calloc(size, sizeof *seen);
	int *stack = calloc(size, sizeof *stack), count = 0;
	bool good = seen != NULL && stack != NULL;

	for (int i = 0; good && i < expansion->node_count; i++) {
		seen[i] = expansion->nodes[i].opens;
		if (seen[i])
			stack[count++] = i;
	}
	while (good && count > 0) {
		const struct node *node = &expansion->nodes[stack[--count]];
		for (int i = node->first_word; i >= 0; i = expansion->edges[i].next)
			opening[expansion->edges[i].word] = true;
		for (int i = node->first_silent; i >= 0; i = expansion->edges[i].next) {
			int to = expansion->edges[i].to;
			if (!seen[to])
				stack[count++] = to;
			seen[to] = true;
		}
	}
	free(seen);
	free(stack);
	return good;
}
