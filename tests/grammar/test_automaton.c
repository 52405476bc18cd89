#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "automaton.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
#define HEAD "#JSGF V1.0;\ngrammar bench;\n"

#define DIGITS "( one | two | three | four | five | six | seven | eight | nine )"

static struct automaton *
try_compile(const char *text, struct problem *problem)
{
	struct jsgf *jsgf = jsgf_parse("bench.gram", text, problem);
	if (jsgf == NULL)
		fail_msg("%s", problem->text);
	struct automaton *automaton = automaton_compile(jsgf, 0, problem);
	jsgf_destroy(jsgf);
	return automaton;
}

/* What must hold of every automaton. */
static void
check_form(const struct automaton *automaton)
{
	const struct arc *arcs = automaton_arcs(automaton);
	int states = automaton_state_count(automaton), count = automaton_arc_count(automaton);
	bool *used = calloc((size_t)states, sizeof *used);
	bool *silent = calloc((size_t)states, sizeof *silent);

	assert_non_null(used);
	assert_non_null(silent);
	used[0] = true;
	for (int i = 0; i < count; i++) {
		assert_in_range(arcs[i].from, 0, states - 1);
		assert_in_range(arcs[i].to, 0, states - 1);
		assert_true(arcs[i].weight > 0 && arcs[i].weight <= 1);
		assert_true(arcs[i].word >= -1 && arcs[i].word < automaton_word_count(automaton));
		assert_true(i == 0 || arcs[i - 1].from <= arcs[i].from);
		assert_false(automaton_final(automaton, arcs[i].from));
		used[arcs[i].to] = true;
		if (arcs[i].word < 0)
			silent[arcs[i].from] = true;
	}
	/* Between two words there is at most one silent arc. */
	for (int i = 0; i < count; i++)
		if (arcs[i].word < 0)
			assert_false(silent[arcs[i].to]);
	for (int i = 0; i < states; i++)
		assert_true(used[i]);
	free(used);
	free(silent);
}

static struct automaton *
compile(const char *text)
{
	struct problem problem = {""};
	struct automaton *automaton = try_compile(text, &problem);
	if (automaton == NULL)
		fail_msg("%s", problem.text);
	check_form(automaton);
	return automaton;
}

static struct automaton *
compile_body(const char *body)
{
	char text[2000];
	snprintf(text, sizeof text, HEAD "%s", body);
	return compile(text);
}

/* The weight of the best way of saying a text from a state on; 0 when there is none. */
static double
best_weight(const struct automaton *automaton, int state, const char *text)
{
	const struct arc *arcs = automaton_arcs(automaton);
	double best = automaton_final(automaton, state) && *text == '\0' ? 1 : 0;
	size_t length = strcspn(text, " ");

	for (int i = 0; i < automaton_arc_count(automaton); i++) {
		const char *rest = text;
		if (arcs[i].from != state)
			continue;
		if (arcs[i].word >= 0) {
			const char *word = automaton_word(automaton, arcs[i].word);
			if (length == 0 || strlen(word) != length ||
			    memcmp(word, text, length) != 0)
				continue;
			rest += length + (text[length] == ' ');
		}
		double weight = arcs[i].weight * best_weight(automaton, arcs[i].to, rest);
		best = weight > best ? weight : best;
	}
	return best;
}

/* Weights are as sphinxbase's jsgf.c has them: the alternatives of a group add up to 1, an optional
 * part is one of two, and so is the end of a loop. */
static void
weights_are_shares_of_their_group(void **state)
{
	static const struct {
		const char *body, *text;
		double weight;
	} CASES[] = {
		{"public <a> = chest;", "chest", 1},
		{"public <a> = chest | waist;", "waist", 1.0 / 2},
		{"public <a> = /3/ chest | waist;", "chest", 3.0 / 4},
		{"public <a> = /3/ chest | waist;", "waist", 1.0 / 4},
		{"public <a> = /3/ chest | /0/ waist;", "waist", 0},
		{"public <a> = /3/ chest | /0/ waist;", "chest", 1},
		{"public <a> = /1/ chest | /3/ <b>; <b> = /1/ hip | /4/ hem;", "hem", 3.0 / 5},
		{"public <a> = chest [ wide ];", "chest", 1.0 / 2},
		{"public <a> = chest [ wide ];", "chest wide", 1.0 / 2},
		{"public <a> = chest [ wide | narrow ];", "chest wide", 1.0 / 4},
		{"public <a> = chest [ /3/ wide | narrow ];", "chest wide", 3.0 / 8},
		{"public <a> = [ wide ] [ long ];", "", 1.0 / 4},
		{"public <a> = [ wide ] [ long ];", "long", 1.0 / 4},
		{"public <a> = chest+;", "chest", 1.0 / 2},
		{"public <a> = chest+;", "chest chest chest", 1.0 / 8},
		{"public <a> = chest*;", "", 1.0 / 2},
		{"public <a> = chest*;", "chest chest", 1.0 / 8},
		{"public <a> = ( chest | waist )+;", "waist chest", 1.0 / 16},
		{"public <a> = /2/ chest | /2/ chest;", "chest", 1.0 / 2}, /* the better way */
		{"public <a> = /1/ chest | /3/ chest;", "chest", 3.0 / 4},
		{"public <a> = chest ( /9/ <NULL> | <a> );", "chest", 9.0 / 10},
		{"public <a> = chest ( /9/ <NULL> | <a> );", "chest chest", 9.0 / 100},
		{"public <a> = chest | <VOID>;", "chest", 1.0 / 2},
		{"public <a> = <NULL> chest <NULL>;", "chest", 1},
		{"public <a> = <NULL>;", "", 1},
		{"public <a> = (chest*)*;", "chest", 1.0 / 16},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct automaton *automaton = compile_body(CASES[i].body);
		double weight = best_weight(automaton, 0, CASES[i].text);
		if (fabs(weight - CASES[i].weight) > 1e-6)
			fail_msg("%s: \"%s\" has %g, not %g", CASES[i].body, CASES[i].text, weight,
				 CASES[i].weight);
		automaton_destroy(automaton);
	}
}

static void
a_text_stands_somewhere(void **state)
{
	static const struct {
		const char *body, *text;
		bool possible, complete, longer;
	} CASES[] = {
		{"public <a> = chest twenty [ one ];", "", true, false, true},
		{"public <a> = chest twenty [ one ];", "chest", true, false, true},
		{"public <a> = chest twenty [ one ];", "chest twenty", true, true, true},
		{"public <a> = chest twenty [ one ];", "chest twenty one", true, true, false},
		{"public <a> = chest twenty [ one ];", "chest twenty two", false, false, false},
		{"public <a> = chest twenty [ one ];", "chest one", false, false, false},
		{"public <a> = chest twenty [ one ];", "twenty", false, false, false},
		{"public <a> = chest twenty [ one ];", "hip", false, false, false},
		{"public <a> = chest twenty [ one ];", "ches", false, false, false},
		{"public <a> = chest twenty [ one ];", "chest  twenty", false, false, false},
		{"public <a> = ( chest | chest wide ) hem;", "chest hem", true, true, false},
		{"public <a> = ( chest | chest wide ) hem;", "chest wide", true, false, true},
		{"public <a> = chest+ hem;", "chest chest chest", true, false, true},
		{"public <a> = chest+ hem;", "hem", false, false, false},
		{"public <a> = chest* hem;", "hem", true, true, false},
		{"public <a> = chest <a> | hem;", "chest chest hem", true, true, false},
		{"public <a> = chest <b> | hem; <b> = waist <a>;", "chest waist chest waist hem",
		 true, true, false},
		{"public <a> = chest <VOID> | hem;", "chest", false, false, false},
		{"public <a> = chest ( <VOID> | hem );", "chest hem", true, true, false},
		{"public <a> = [ chest ];", "", true, true, true},
		{"public <a> = " DIGITS "+;", "four two seven", true, true, true},
		{"public <a> = first; public <b> = second;", "first", true, true, false},
		{"public <a> = first; public <b> = second;", "second", false, false, false},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct automaton *automaton = compile_body(CASES[i].body);
		struct standing standing = automaton_standing(automaton, CASES[i].text);
		if (standing.possible != CASES[i].possible ||
		    standing.complete != CASES[i].complete || standing.longer != CASES[i].longer)
			fail_msg("%s: \"%s\": possible %d, complete %d, longer %d", CASES[i].body,
				 CASES[i].text, standing.possible, standing.complete,
				 standing.longer);
		automaton_destroy(automaton);
	}
}

/* Words that begin the next call do not lengthen what was said. */
static void
the_next_call_does_not_lengthen(void **state)
{
	static const char calls[] =
		"public <calls> = <call>+;\n"
		"<call> = ( chest | waist | hip | hem | sleeve | length | collar | thigh ) <number>"
		" [ inches ] | next | cloth <share>+;\n"
		"<share> = <number> ( wool | silk );\n"
		"<number> = " DIGITS " [ and a half ];\n";
	static const struct {
		const char *text;
		bool lengthens;
	} CASES[] = {
		{"chest", true},
		{"chest nine", true},
		{"chest nine and a half", true},
		{"chest nine inches", false},
		{"chest nine inches waist nine inches", false},
		{"next", false},
		{"next next", false},
		{"cloth nine wool", true}, /* and more of the cloth */
	};
	struct automaton *automaton = compile_body(calls);

	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct standing standing = automaton_standing(automaton, CASES[i].text);
		if (!standing.possible || !standing.longer ||
		    standing.lengthens != CASES[i].lengthens)
			fail_msg("\"%s\": possible %d, longer %d, lengthens %d", CASES[i].text,
				 standing.possible, standing.longer, standing.lengthens);
	}
	automaton_destroy(automaton);
}

static void
what_goes_on_alike_is_one_state(void **state)
{
	static const struct {
		const char *body;
		int states, arcs;
	} CASES[] = {
		{"public <a> = chest;", 2, 1},
		{"public <a> = chest | waist | hip;", 2, 3},
		{"public <a> = chest one | waist one | hip one;", 3, 4},
		{"public <a> = chest <n> | waist <n>; <n> = one [ half ] | two [ half ];", 4, 6},
		/* one way is likelier than the other, so they stay two */
		{"public <a> = chest ( /3/ one | two ) | waist ( one | two );", 4, 6},
		{"public <a> = ( chest | chest );", 2, 1},
		{"public <a> = chest <VOID> | hem;", 2, 1},
		{"public <a> = <NULL>;", 1, 0},
	};
	for (size_t i = 0; i < COUNT(CASES); i++) {
		struct automaton *automaton = compile_body(CASES[i].body);
		if (automaton_state_count(automaton) != CASES[i].states ||
		    automaton_arc_count(automaton) != CASES[i].arcs)
			fail_msg("%s: %d states, %d arcs", CASES[i].body,
				 automaton_state_count(automaton), automaton_arc_count(automaton));
		automaton_destroy(automaton);
	}
}

static void
a_loop_over_many_words_has_a_hub(void **state)
{
	enum { CALLS = 300 };
	char *text = malloc((size_t)CALLS * 40 + 200);
	assert_non_null(text);
	/* Every call goes on in a way of its own, so there are as many ends as calls. */
	char *to = stpcpy(text, HEAD "public <a> = ( ");
	for (int i = 0; i < CALLS; i++)
		to += sprintf(to, "%sw%d ( /%d/ <NULL> | very )", i > 0 ? " | " : "", i, i + 1);
	strcpy(to, " )+;");
	struct automaton *automaton = compile(text);
	/* Without a hub it would be CALLS * CALLS arcs. */
	assert_true(automaton_arc_count(automaton) < 5 * CALLS);
	assert_true(automaton_standing(automaton, "w7 very w299 w0").complete);
	automaton_destroy(automaton);
	free(text);
}

static void
only_words_that_can_be_said_are_left(void **state)
{
	struct automaton *automaton =
		compile_body("public <a> = chest | waist <VOID>; <b> = hip; public <c> = hem;");
	assert_int_equal(automaton_word_count(automaton), 1);
	assert_string_equal(automaton_word(automaton, 0), "chest");
	automaton_destroy(automaton);
	automaton_destroy(NULL);
}

/* Refused in a sentence that names the file and has `what` in it. */
static void
refuses(const char *text, const char *what)
{
	struct problem problem = {""};
	struct automaton *automaton = try_compile(text, &problem);
	assert_null(automaton);
	if (strncmp(problem.text, "bench.gram", 10) != 0 || strstr(problem.text, what) == NULL)
		fail_msg("%s", problem.text);
}

static void
a_grammar_that_says_nothing_is_refused(void **state)
{
	refuses(HEAD "public <a> = <VOID>;", "nothing can be said");
	refuses(HEAD "public <a> = chest <VOID>;", "nothing can be said");
	refuses(HEAD "public <a> = chest <a>;", "nothing can be said");
	refuses(HEAD "public <a> = <a>;", "nothing can be said");
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(weights_are_shares_of_their_group),
		cmocka_unit_test(a_text_stands_somewhere),
		cmocka_unit_test(the_next_call_does_not_lengthen),
		cmocka_unit_test(what_goes_on_alike_is_one_state),
		cmocka_unit_test(a_loop_over_many_words_has_a_hub),
		cmocka_unit_test(only_words_that_can_be_said_are_left),
		cmocka_unit_test(a_grammar_that_says_nothing_is_refused),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
