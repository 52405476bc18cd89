/* From evidence to a verdict. */
#include "judge.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static const char weights[] =
	"# a comment\n"
	"intercept 1\nratio 0.5\nworst_ratio 0\nworst_stretch 0\noutside 0\n"
	"margin 0.25 # and another\nshortest 0\npace 0\nlevel_db 0\ncover 0\n"
	"words 0\ntake_from 0.9\ndoubt_from 0.5\nnear_from 0.2\nother_voice_db 11\n";

static void
confidence_is_the_logistic_of_the_weighted_evidence(void **state)
{
	struct judge judge;
	struct problem problem;
	struct evidence evidence = {{0}};
	assert_true(judge_read(&judge, "judge.txt", weights, &problem));
	evidence.value[EVIDENCE_RATIO] = -4;
	evidence.value[EVIDENCE_MARGIN] = 8;
	/* 1 - 2 + 2 = 1; 1 / (1 + exp(-1)) is 0.7310586 (tables of the logistic function) */
	assert_true(fabs(judge_confidence(&judge, &evidence) - 0.7310586) < 1e-7);
}

static void
two_thresholds_give_three_verdicts(void **state)
{
	struct judge judge;
	struct problem problem;
	assert_true(judge_read(&judge, "judge.txt", weights, &problem));
	assert_int_equal(judge_verdict(&judge, 0.95), VERDICT_TAKEN);
	assert_int_equal(judge_verdict(&judge, 0.9), VERDICT_TAKEN);
	assert_int_equal(judge_verdict(&judge, 0.89), VERDICT_DOUBTED);
	assert_int_equal(judge_verdict(&judge, 0.5), VERDICT_DOUBTED);
	assert_int_equal(judge_verdict(&judge, 0.49), VERDICT_REFUSED);
}

static void
bad_weights_are_named(void **state)
{
	static const struct {
		const char *text, *says;
	} rows[] = {
		{"", "no line for \"intercept\""},
		{"intercept one\n", "line 1: \"one\" is no number"},
		{"intercept 1\nintercept 1\n", "line 2: \"intercept\""},
		{"slope 1\n", "line 1: \"slope\" is unknown"},
		{"intercept\n", "line 1"},
		{"intercept nan\n", "no number"},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct judge judge;
		struct problem problem = {""};
		assert_false(judge_read(&judge, "judge.txt", rows[i].text, &problem));
		assert_non_null(strstr(problem.text, rows[i].says));
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(confidence_is_the_logistic_of_the_weighted_evidence),
		cmocka_unit_test(two_thresholds_give_three_verdicts),
		cmocka_unit_test(bad_weights_are_named),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
