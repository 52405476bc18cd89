/* How well the words fit, held against how well anything would have fitted. */
#include "evidence.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

enum { FRAMES = 100 };

static void
close_to(double value, double wanted)
{
	assert_true(fabs(value - wanted) < 1e-6);
}

static const struct laid two_words = {
	true, -140, 2, {{10, 49, 12, -80}, {50, 79, 9, -60}} /* "chest", "nine" */
};

/* Words at two nats a frame below nothing, where any phones are at one; silence fits as well as
 * any. */
static struct evidence_ground
ground_of(const struct laid *laid, float *anything)
{
	static float laid_scores[FRAMES];
	for (int i = 0; i < FRAMES; i++) {
		anything[i] = -1;
		laid_scores[i] = i >= 10 && i < 80 ? -2 : -1;
	}
	return (struct evidence_ground){.laid = laid,
					.laid_scores = laid_scores,
					.anything = anything,
					.frames = FRAMES,
					.has_other = true,
					.margin = 12,
					.level_db = 40,
					.loud_first = 10,
					.loud_last = 79};
}

static void
words_are_held_against_any_phones_frame_by_frame(void **state)
{
	float anything[FRAMES];
	struct evidence evidence;
	struct evidence_ground ground = ground_of(&two_words, anything);
	evidence_gather(&ground, 0, 2, &evidence);
	close_to(evidence.value[EVIDENCE_RATIO], -1);	    /* -140 over 70 frames, less -1 */
	close_to(evidence.value[EVIDENCE_WORST_RATIO], -1); /* both words alike */
	close_to(evidence.value[EVIDENCE_MARGIN], 12);
	close_to(evidence.value[EVIDENCE_SHORTEST], 10); /* 30 frames for three phones */
	close_to(evidence.value[EVIDENCE_PACE], 10);
	close_to(evidence.value[EVIDENCE_COVER], 1);
}

static void
a_word_that_fails_in_one_phone_is_told_by_it(void **state)
{
	float anything[FRAMES];
	struct evidence evidence;
	struct evidence_ground ground = ground_of(&two_words, anything);
	for (int i = 60; i < 68; i++)
		anything[i] = 3;
	evidence_gather(&ground, 0, 2, &evidence);
	close_to(evidence.value[EVIDENCE_WORST_STRETCH], -5);
	evidence_gather(&ground, 0, 1, &evidence);
	close_to(evidence.value[EVIDENCE_WORST_STRETCH], -1);
}

static void
what_was_said_besides_the_words_counts(void **state)
{
	float anything[FRAMES];
	struct evidence evidence;
	struct evidence_ground ground = ground_of(&two_words, anything);
	evidence_gather(&ground, 0, 2, &evidence);
	close_to(evidence.value[EVIDENCE_OUTSIDE], 0);
	for (int i = 85; i < 95; i++)
		anything[i] = 3;
	evidence_gather(&ground, 0, 2, &evidence);
	close_to(evidence.value[EVIDENCE_OUTSIDE], 40);
}

static void
a_call_is_judged_by_its_own_words(void **state)
{
	float anything[FRAMES];
	struct evidence evidence;
	struct evidence_ground ground = ground_of(&two_words, anything);
	for (int i = 50; i < 80; i++)
		anything[i] = -0.5;
	evidence_gather(&ground, 1, 1, &evidence);
	close_to(evidence.value[EVIDENCE_RATIO], -1.5);
	close_to(evidence.value[EVIDENCE_WORDS], 1);
	evidence_gather(&ground, 0, 1, &evidence);
	close_to(evidence.value[EVIDENCE_RATIO], -1);
}

static void
alone_within_the_beam_is_far_ahead(void **state)
{
	float anything[FRAMES];
	struct evidence evidence;
	struct evidence_ground ground = ground_of(&two_words, anything);
	ground.has_other = false;
	evidence_gather(&ground, 0, 2, &evidence);
	close_to(evidence.value[EVIDENCE_MARGIN], 120);
}

static void
no_words_are_no_evidence(void **state)
{
	static const struct laid nothing = {.possible = false};
	float anything[FRAMES];
	struct evidence evidence;
	struct evidence_ground ground = ground_of(&nothing, anything);
	evidence_gather(&ground, 0, 0, &evidence);
	close_to(evidence.value[EVIDENCE_RATIO], -10);
	close_to(evidence.value[EVIDENCE_WORST_RATIO], -10);
	close_to(evidence.value[EVIDENCE_PACE], 0);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(words_are_held_against_any_phones_frame_by_frame),
		cmocka_unit_test(a_word_that_fails_in_one_phone_is_told_by_it),
		cmocka_unit_test(what_was_said_besides_the_words_counts),
		cmocka_unit_test(a_call_is_judged_by_its_own_words),
		cmocka_unit_test(alone_within_the_beam_is_far_ahead),
		cmocka_unit_test(no_words_are_no_evidence),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
