/* How large a grammar may become, and that this is found out without making it so large. None of
 * these tests looks at a clock: what they bound is how many states and arcs are made. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "automaton.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define HEAD "#JSGF V1.0;\ngrammar bench;\n"

static struct automaton *
try_compile(const char *text, int states_max, struct problem *problem)
{
	struct jsgf *jsgf = jsgf_parse("bench.gram", text, problem);
	if (jsgf == NULL)
		fail_msg("%s", problem->text);
	struct automaton *automaton = automaton_compile(jsgf, states_max, problem);
	jsgf_destroy(jsgf);
	return automaton;
}

static struct automaton *
compile(const char *text)
{
	struct problem problem = {""};
	struct automaton *automaton = try_compile(text, 0, &problem);
	if (automaton == NULL)
		fail_msg("%s", problem.text);
	return automaton;
}

/* Refused in a sentence that names the file and has `what` in it. */
static void
refuses(const char *text, int states_max, const char *what)
{
	struct problem problem = {""};
	struct automaton *automaton = try_compile(text, states_max, &problem);
	assert_null(automaton);
	if (strncmp(problem.text, "bench.gram", 10) != 0 || strstr(problem.text, what) == NULL)
		fail_msg("%s", problem.text);
}

/* r1 says r0 twice, r2 says r1 twice: 2 to the power of `steps` words. */
static char *
doubling(int steps)
{
	char *text = malloc((size_t)steps * 60 + 200);
	assert_non_null(text);
	char *to = stpcpy(text, HEAD "<r0> = chest;\n");
	for (int i = 1; i <= steps; i++)
		to += sprintf(to, "<r%d> = <r%d> <r%d>;\n", i, i - 1, i - 1);
	sprintf(to, "public <all> = <r%d>;\n", steps);
	return text;
}

static void
explosive_grammars_are_refused_at_once(void **state)
{
	char *text = doubling(40);
	refuses(text, 0,
		"explodes: with its rules put into each other it would need more than "
		"20000 states");
	free(text);
	text = doubling(10);
	refuses(text, 500, "more than 500 states");
	struct automaton *automaton = compile(text);
	assert_int_equal(automaton_state_count(automaton), 1025);
	automaton_destroy(automaton);
	free(text);

	/* Any of 5000 words may be left out, so each may be followed by any after it. */
	enum { OPTIONAL_WORDS = 5000 };
	text = malloc((size_t)OPTIONAL_WORDS * 12 + 200);
	assert_non_null(text);
	char *to = stpcpy(text, HEAD "public <a> =");
	for (int i = 0; i < OPTIONAL_WORDS; i++)
		to += sprintf(to, " [ w%d ]", i);
	strcpy(to, ";");
	refuses(text, 0,
		"too many words may follow each other, it would need more than 400000 arcs");
	free(text);
}

/* A loop of loops of loops, eighteen deep. */
static struct automaton *
nested(const char *inside, const char *loop)
{
	char text[400], *to = stpcpy(text, HEAD "public <a> = ((((((((((((((((((");
	to = stpcpy(to, inside);
	for (int i = 0; i < 18; i++)
		to = stpcpy(stpcpy(to, ")"), loop);
	strcpy(to, ";");
	return compile(text);
}

static void
nested_loops_are_loops(void **state)
{
	struct automaton *automaton = nested("chest+", "+");
	assert_true(automaton_state_count(automaton) <= 4);
	assert_true(automaton_arc_count(automaton) <= 6);
	assert_true(automaton_standing(automaton, "chest chest chest").complete);
	assert_false(automaton_standing(automaton, "").complete);
	automaton_destroy(automaton);

	automaton = nested("chest waist*", "*");
	assert_true(automaton_state_count(automaton) <= 6);
	assert_true(automaton_standing(automaton, "").complete);
	assert_true(automaton_standing(automaton, "chest waist chest").complete);
	assert_false(automaton_standing(automaton, "waist").complete);
	automaton_destroy(automaton);

	char text[4000], *to = stpcpy(text, HEAD "<r0> = chest;\n");
	for (int i = 1; i <= 60; i++)
		to += sprintf(to, "<r%d> = ( <r%d> | <r%d> )+;\n", i, i - 1, i - 1);
	strcpy(to, "public <a> = <r60>;\n");
	automaton = compile(text);
	assert_true(automaton_state_count(automaton) <= 4);
	automaton_destroy(automaton);
}

static void
a_long_list_is_no_explosion(void **state)
{
	enum { NAMES = 100000 };
	char *text = malloc((size_t)NAMES * 12 + 200);
	assert_non_null(text);
	char *to = stpcpy(text, HEAD "public <a> = maker ( w0");
	for (int i = 1; i < NAMES; i++)
		to += sprintf(to, " | w%d", i);
	strcpy(to, " );");
	struct automaton *automaton = compile(text);
	assert_int_equal(automaton_state_count(automaton), 3);
	assert_int_equal(automaton_arc_count(automaton), NAMES + 1);
	assert_true(automaton_standing(automaton, "maker w99999").complete);
	automaton_destroy(automaton);
	free(text);
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(explosive_grammars_are_refused_at_once),
		cmocka_unit_test(nested_loops_are_loops),
		cmocka_unit_test(a_long_list_is_no_explosion),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
