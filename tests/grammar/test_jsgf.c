#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "jsgf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))
#define HEAD "#JSGF V1.0;\ngrammar bench;\n"

/* The form is that of the JSpeech Grammar Format, W3C Note of 5 June 2000 (section numbers from
 * memory). */

static void
reads(const char *text)
{
	struct problem problem = {""};
	struct jsgf *jsgf = jsgf_parse("bench.gram", text, &problem);
	if (jsgf == NULL)
		fail_msg("\"%s\": %s", text, problem.text);
	jsgf_destroy(jsgf);
}

/* Refused with a sentence that begins with the file, and the line if there is one, and has `what`
 * in it. */
static void
refuses(const char *text, int line, const char *what)
{
	struct problem problem = {""};
	char where[64];
	struct jsgf *jsgf = jsgf_parse("bench.gram", text, &problem);

	if (jsgf != NULL) {
		jsgf_destroy(jsgf);
		fail_msg("\"%.200s\" was read", text);
	}
	if (line > 0)
		snprintf(where, sizeof where, "bench.gram, line %d: ", line);
	else
		snprintf(where, sizeof where, "bench.gram: ");
	if (strncmp(problem.text, where, strlen(where)) != 0 || strstr(problem.text, what) == NULL)
		fail_msg("\"%.200s\": %s (not %s... %s)", text, problem.text, where, what);
	assert_null(strchr(problem.text, '\n'));
}

static void
whatever_the_form_allows_is_read(void **state)
{
	static const char *const BODIES[] = {
		"public <a> = chest;",
		"public <a> = chest | waist | hip;",
		"public <a> = /2/ chest | /0.5/ waist;",
		"public <a> = /10/ chest | waist;",
		"public <a> = /0/ chest | waist;",
		"public <a> = chest [ inches ] ( and a half )* waist+;",
		"public <a> = chest* +;",
		"public <a> = (((chest)));",
		"public <a> = <NULL> | chest | <VOID>;",
		"public <a> = chest {measure} (waist) {another \\} one};",
		"public <a> = \"chest\" \"t shirt\" \"a \\\"b\\\"\";",
		"// comment\npublic /* here */ <a> = chest; /* and\n there */",
		"public<a>=chest|waist;",
		"<b> = chest; public <a> = <b>; public <c> = waist;",
		"public <a> = <b>; <b> = chest;",
		"public <bench.a> = <b>; <bench.b> = chest;",
		"public <a> = chest <a> | chest;",
		"public <a> = chest ( waist [ <a> ] | <b> ); <b> = hip <a> | hem;",
		"public <a.b-c:1> = chest;",
		"public <\xc3\xa4rmel> = \xc3\xa4rmel na\xc3\xafve \xe8\xa2\x96 \xf0\x9f\x91\x95;",
		"public <a> = grammar public import;",
		"public <a> = it's t-shirt o.k. #9 100%;",
	};
	char text[600];

	for (size_t i = 0; i < COUNT(BODIES); i++) {
		snprintf(text, sizeof text, HEAD "%s", BODIES[i]);
		reads(text);
	}
	reads("\xef\xbb\xbf#JSGF V1.0;\r\ngrammar bench;\r\npublic <a> = chest;\r\n");
	reads("#JSGF V1.0 UTF-8 en;\ngrammar com.tidewrack.bench;\npublic <a> = chest;");
	reads("#JSGF\tV1.0 ISO8859-1;grammar bench;public <a> = chest;");
	reads("#JSGF V1.0;\ngrammar com.tidewrack.bench;\npublic <a> = <com.tidewrack.bench.b>;\n"
	      "<b> = chest;");
}

static void
bad_headers_are_refused(void **state)
{
	static const struct {
		const char *text;
		int line;
		const char *what;
	} CASES[] = {
		{"", 1, "no JSGF grammar"},
		{"grammar bench;\npublic <a> = chest;", 1, "no JSGF grammar"},
		{" #JSGF V1.0;\ngrammar bench;\npublic <a> = chest;", 1, "no JSGF grammar"},
		{"#ABNF 1.0;\n", 1, "no JSGF grammar"},
		{"#JSGF V2.0;\ngrammar bench;\npublic <a> = chest;", 1, "version"},
		{"#JSGF;\ngrammar bench;", 1, "version"},
		{"#JSGF V1.0\ngrammar bench;\n", 1, "semicolon"},
		{"#JSGF V1.0;\n", 2, "the grammar's name"},
		{"#JSGF V1.0;\npublic <a> = chest;", 2, "the grammar's name"},
		{"#JSGF V1.0;\ngrammar ;\n", 2, "the grammar's name"},
		{"#JSGF V1.0;\ngrammar bench\npublic <a> = chest;", 3, "semicolon"},
		{"#JSGF V1.0;\ngrammar bench;\npublic <a> = \xe4rmel;", 3, "UTF-8"},
		{"#JSGF V1.0;\ngrammar bench;\npublic <a> = \xc0\xaf;", 3, "UTF-8"},
		{"#JSGF V1.0;\ngrammar bench;\npublic <a> = a\x01;", 3, "UTF-8"},
	};
	for (size_t i = 0; i < COUNT(CASES); i++)
		refuses(CASES[i].text, CASES[i].line, CASES[i].what);
}

static void
bad_rules_are_refused_by_line(void **state)
{
	static const struct {
		const char *body;
		int line;
		const char *what;
	} CASES[] = {
		{"public <a> = chest", 3, "ends where"},
		{"public <a> =\n\nchest\n<b> = waist;", 6, "\"=\""},
		{"public <a> = ;", 3, "nothing to say"},
		{"public <a> = chest | ;", 3, "nothing to say"},
		{"public <a> = | chest;", 3, "nothing to say"},
		{"public <a> = ();", 3, "nothing to say"},
		{"public <a> = chest [];", 3, "nothing to say"},
		{"public <a> = (chest;", 3, "a )"},
		{"public <a> = (chest];", 3, "a )"},
		{"public <a> = [chest);", 3, "a ]"},
		{"public <a> = chest);", 3, "a semicolon"},
		{"public <a> = +;", 3, "a word"},
		{"public <a> = * chest;", 3, "a word"},
		{"public <a> chest;", 3, "a ="},
		{"public a = chest;", 3, "a rule's name"},
		{"chest;", 3, "a rule's name"},
		{"public <a> = <b;", 3, "between < and >"},
		{"public <a> = <>;", 3, "between < and >"},
		{"public <a> = b>;", 3, "without a <"},
		{"public <a> = chest };", 3, "without a {"},
		{"public <a> = chest\n{ tag ;", 4, "no end (})"},
		{"public <a> = /* chest;", 3, "no end (*/)"},
		{"public <a> = \"chest;\n", 3, "quotation"},
		{"public <a> = \"\";", 3, "between the quotation marks"},
		{"public <a> = \"read(2)\";", 3, "( )"},
		{"public <a> = /two/ chest;", 3, "a weight has to be a number"},
		{"public <a> = /-1/ chest;", 3, "a weight has to be a number"},
		{"public <a> = /1.2.3/ chest;", 3, "a weight has to be a number"},
		{"public <a> = /nan/ chest;", 3, "a weight has to be a number"},
		{"public <a> = /2 chest;", 3, "a weight has to be a number"},
		{"public <a> = chest /2/ waist;", 3, "beginning of an alternative"},
		{"public <a> = /0/ chest | /0/ waist;", 3, "has to have a weight"},
		{"import <com.other.*>;\npublic <a> = chest;", 3, "cannot be imported"},
		{"public <a> = chest;\n<b> = hip;\n<a> = waist;", 5,
		 "<a> is defined a second time"},
		{"public <a> = chest <b>;", 3, "<b> is used here but defined nowhere"},
		{"public <a> = chest;\n<b> = <c>;", 4, "<c> is used here but defined nowhere"},
		{"public <NULL> = chest;", 3, "has a meaning already"},
		{"<a> = chest;", 0, "no rule is public"},
	};
	char text[600];

	for (size_t i = 0; i < COUNT(CASES); i++) {
		snprintf(text, sizeof text, HEAD "%s", CASES[i].body);
		refuses(text, CASES[i].line, CASES[i].what);
	}
}

static void
a_rule_may_lead_back_to_itself_at_its_right_end_only(void **state)
{
	static const struct {
		const char *body;
		int line;
	} CASES[] = {
		{"public <a> = <a> chest;", 3},
		{"public <a> = chest <a> waist;", 3},
		{"public <a> = chest\n[ <a> ] waist;", 4},
		{"public <a> = ( chest <a> )+;", 3},
		{"public <a> = chest <a>*;", 3},
		{"public <a> = <b>;\n<b> = chest <a> waist;", 4},
		{"public <a> = hip;\n<b> = chest <c> waist;\n<c> = <d>;\n<d> = hip <b>;", 4},
	};
	char text[600];

	for (size_t i = 0; i < COUNT(CASES); i++) {
		snprintf(text, sizeof text, HEAD "%s", CASES[i].body);
		refuses(text, CASES[i].line, "leads back to itself");
	}
	reads(HEAD "public <a> = chest <a> | chest;");
	reads(HEAD "public <a> = chest [ waist <a> ];");
	reads(HEAD "public <a> = chest <b> | hip; <b> = waist <a> | hem <b> | hem;");
}

static void
words_come_once_in_lower_case(void **state)
{
	static const char *const WORDS[] = {"chest", "twenty", "t", "shirt", "one", "\xc3\x84rmel"};
	struct problem problem = {""};
	struct jsgf *jsgf = jsgf_parse("bench.gram",
				       HEAD "public <a> = Chest TWENTY chest \"T Shirt\" <b>;\n"
					    "<b> = one | twenty | \xc3\x84RMEL;",
				       &problem);
	assert_non_null(jsgf);
	assert_int_equal(jsgf_word_count(jsgf), COUNT(WORDS));
	for (size_t i = 0; i < COUNT(WORDS); i++)
		assert_string_equal(jsgf_word(jsgf, (int)i), WORDS[i]);
	jsgf_destroy(jsgf);
	jsgf_destroy(NULL);
}

/* `count` times the same text after a beginning, then an end; the caller frees it. */
static char *
repeated(const char *beginning, const char *again, int count, const char *end)
{
	size_t step = strlen(again);
	char *text = malloc(strlen(beginning) + step * (size_t)count + strlen(end) + 1);
	assert_non_null(text);
	char *to = stpcpy(text, beginning);
	for (int i = 0; i < count; i++, to += step)
		memcpy(to, again, step);
	strcpy(to, end);
	return text;
}

static void
depth_and_length_are_bounded(void **state)
{
	char *deep = repeated(HEAD "public <a> = ", "(", 100000, "chest;");
	refuses(deep, 3, "deep in each other");
	free(deep);
	deep = repeated(HEAD "public <a> = ", "[(", 20, "chest");
	char *closed = repeated(deep, ")]", 20, ";");
	reads(closed);
	free(deep);
	free(closed);

	char *word = repeated(HEAD "public <a> = ", "x", 64, ";");
	refuses(word, 3, "longer than 63 letters");
	free(word);
	char *long_one = repeated(HEAD "public <a> = chest", " chest", 200000, ";");
	reads(long_one);
	free(long_one);
	char *name = repeated(HEAD "public <", "a", 201, "> = chest;");
	refuses(name, 3, "longer than 200 letters");
	free(name);
}

static void
a_long_chain_of_rules_does_not_exhaust_the_stack(void **state)
{
	enum { RULES = 20000 };
	char *text = malloc((size_t)RULES * 40 + 200);
	assert_non_null(text);
	char *to = stpcpy(text, HEAD "public <r0> = <r1>;\n");
	for (int i = 1; i < RULES; i++)
		to += sprintf(to, "<r%d> = <r%d>;\n", i, i + 1);
	sprintf(to, "<r%d> = chest;\n", RULES);
	struct problem problem = {""};
	assert_null(jsgf_parse("bench.gram", text, &problem));
	assert_non_null(strstr(problem.text, "too deep"));
	free(text);
}

/* Grammars cut off anywhere, or with a letter changed, are read or refused with a sentence. */
static void
damaged_grammars_do_no_harm(void **state)
{
	static const char good[] =
		HEAD "/* lengths */ <digit> = /2/ one | two {2} | \"three\"; // few\n"
		     "public <length> = <digit>+ [ and ( a half | <digit> quarters ) ]*;\n";
	static const char changes[] = "<>()[]{}/*+|;=\"\\ \n\x01\xff";
	char text[sizeof good];

	for (size_t i = 0; i < sizeof good; i++) {
		struct problem problem = {""};
		memcpy(text, good, sizeof good);
		text[i] = '\0';
		struct jsgf *jsgf = jsgf_parse("bench.gram", text, &problem);
		assert_true(jsgf != NULL || problem.text[0] != '\0');
		jsgf_destroy(jsgf);
	}
	for (size_t i = 0; i + 1 < sizeof good; i++) {
		for (const char *change = changes; *change != '\0'; change++) {
			struct problem problem = {""};
			memcpy(text, good, sizeof good);
			text[i] = *change;
			struct jsgf *jsgf = jsgf_parse("bench.gram", text, &problem);
			assert_true(jsgf != NULL || problem.text[0] != '\0');
			jsgf_destroy(jsgf);
		}
	}
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(whatever_the_form_allows_is_read),
		cmocka_unit_test(bad_headers_are_refused),
		cmocka_unit_test(bad_rules_are_refused_by_line),
		cmocka_unit_test(a_rule_may_lead_back_to_itself_at_its_right_end_only),
		cmocka_unit_test(words_come_once_in_lower_case),
		cmocka_unit_test(depth_and_length_are_bounded),
		cmocka_unit_test(a_long_chain_of_rules_does_not_exhaust_the_stack),
		cmocka_unit_test(damaged_grammars_do_no_harm),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
