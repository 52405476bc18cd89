/* What the rules of a grammar say of each other.
 *
 * Rules that lead back to themselves are found as the strongly connected parts of the graph of
 * references (Tarjan 1972): a reference inside such a part has to be at the right end of its rule,
 * where it makes a loop; anywhere else it would make a bracket, which no graph of words can. */
#include "jsgf_tree.h"

#include <stdlib.h>

/* Of expressions in each other, through all rules: what the stack of a thread can bear. */
enum { DEPTH_MAX = 2000 };

struct visit {
	int order; /* 0: not yet visited */
	int low;   /* the earliest one on the stack that can be reached */
	int part;  /* the number of its strongly connected part; 0 while it is on the stack */
};

struct check {
	struct jsgf *jsgf;
	struct visit *visits;
	int *stack;
	int stack_count, order, parts, depth;
	struct problem *problem;
};

static bool visit_rule(struct check *check, int rule);

static bool
visit_reference(struct check *check, int from, const struct expression *reference)
{
	struct jsgf *jsgf = check->jsgf;
	struct visit *visit = &check->visits[from];
	const struct visit *to = &check->visits[reference->value];

	if (jsgf->rules[reference->value].expression < 0)
		return problem_say(check->problem,
				   "%s, line %d: the rule <%s> is used here but defined nowhere",
				   jsgf->file, reference->line,
				   names_text(jsgf->rule_names, reference->value));
	if (to->order == 0) {
		if (!visit_rule(check, reference->value))
			return false;
		visit->low = to->low < visit->low ? to->low : visit->low;
	} else if (to->part == 0) {
		visit->low = to->order < visit->low ? to->order : visit->low;
	}
	return true;
}

/* Visits the rules that the expression refers to. */
static bool
visit_expression(struct check *check, int rule, int number)
{
	const struct expression *expression = &check->jsgf->expressions[number];
	bool good = true;

	if (check->depth == DEPTH_MAX)
		return problem_say(check->problem, "%s, line %d: rules lie too deep in each other",
				   check->jsgf->file, expression->line);
	check->depth++;
	if (expression->type == EXPRESSION_RULE)
		good = visit_reference(check, rule, expression);
	for (int part = expression->first; good && part >= 0;
	     part = check->jsgf->expressions[part].next)
		good = visit_expression(check, rule, part);
	check->depth--;
	return good;
}

static bool
visit_rule(struct check *check, int rule)
{
	struct visit *visit = &check->visits[rule];

	visit->order = visit->low = ++check->order;
	check->stack[check->stack_count++] = rule;
	if (!visit_expression(check, rule, check->jsgf->rules[rule].expression))
		return false;
	if (visit->low < visit->order)
		return true;
	check->parts++;
	int member;
	do {
		member = check->stack[--check->stack_count];
		check->visits[member].part = check->parts;
	} while (member != rule);
	return true;
}

/* Looks at each reference in an expression of `rule`; `right`: nothing comes after it. */
static bool
check_ends(struct check *check, int rule, int number, bool right)
{
	struct jsgf *jsgf = check->jsgf;
	const struct expression *expression = &jsgf->expressions[number];

	if (expression->type == EXPRESSION_RULE) {
		if (check->visits[rule].part != check->visits[expression->value].part)
			return true;
		jsgf->rules[expression->value].recursive = true;
		return right ||
		       problem_say(check->problem,
				   "%s, line %d: the rule <%s> leads back to itself here before "
				   "its end; only the last thing in a rule may do so",
				   jsgf->file, expression->line,
				   names_text(jsgf->rule_names, expression->value));
	}
	bool loop = expression->type == EXPRESSION_STAR || expression->type == EXPRESSION_PLUS;
	bool sequence = expression->type == EXPRESSION_SEQUENCE;
	for (int part = expression->first; part >= 0; part = jsgf->expressions[part].next) {
		bool last = !sequence || part == expression->first;
		if (!check_ends(check, rule, part, right && !loop && last))
			return false;
	}
	return true;
}

bool
jsgf_check(struct jsgf *jsgf, struct problem *problem)
{
	int count = names_count(jsgf->rule_names);
	struct check check = {
		.jsgf = jsgf,
		.visits = calloc((size_t)count + 1, sizeof *check.visits),
		.stack = calloc((size_t)count + 1, sizeof *check.stack),
		.problem = problem,
	};
	bool good = check.visits != NULL && check.stack != NULL;

	if (!good)
		problem_say(problem, "%s: there is no memory left for it", jsgf->file);
	for (int rule = 0; good && rule < count; rule++) {
		if (jsgf->rules[rule].expression >= 0 && check.visits[rule].order == 0)
			good = visit_rule(&check, rule);
	}
	for (int rule = 0; good && rule < count; rule++)
		good = jsgf->rules[rule].expression < 0 ||
		       check_ends(&check, rule, jsgf->rules[rule].expression, true);
	if (good && jsgf->public_rule < 0)
		good = problem_say(
			problem,
			"%s: no rule is public, so there is nothing to listen for: write "
			"\"public\" before the one that is meant",
			jsgf->file);
	free(check.visits);
	free(check.stack);
	return good;
}
