/* Where speech begins and ends: the chance of speech in each frame in, onsets, pauses and ends out.
 */
#include "endpointer.h"

#include "presence.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static const float silence = 0.05f, speech = 0.95f;

struct told {
	enum endpoint what;
	int64_t frame;
};

struct listening {
	struct endpointer endpointer;
	struct told told[64];
	int count;
};

static void
hear(struct listening *listening, int frames, float chance)
{
	for (int i = 0; i < frames; i++) {
		int64_t frame = listening->endpointer.frame;
		enum endpoint what = endpointer_frame(&listening->endpointer, chance);
		if (what != ENDPOINT_NONE && listening->count < 64)
			listening->told[listening->count++] = (struct told){what, frame};
	}
}

static void
assert_told(const struct listening *listening, int index, enum endpoint what, int64_t frame)
{
	assert_in_range(index, 0, listening->count - 1);
	assert_int_equal(listening->told[index].what, what);
	assert_int_equal(listening->told[index].frame, frame);
}

static void
a_quiet_room_says_nothing(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 1000, silence);
	assert_int_equal(listening.count, 0);
}

static void
a_word_begins_pauses_and_ends(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100 + PRESENCE_DELAY, silence);
	hear(&listening, 40, speech);
	assert_told(&listening, 0, ENDPOINT_BEGAN, 102 + PRESENCE_DELAY);
	assert_int_equal(listening.endpointer.first_voiced, 100);
	hear(&listening, 8, silence);
	/* frames after the last voiced one, of which the delay is a part */
	assert_told(&listening, 1, ENDPOINT_PAUSE, 139 + PAUSE_FRAMES);
	assert_int_equal(listening.endpointer.last_voiced, 139);
	endpointer_hang_over(&listening.endpointer, 2 * PAUSE_FRAMES);
	hear(&listening, 20, silence);
	assert_told(&listening, 2, ENDPOINT_ENDED, 139 + 2 * PAUSE_FRAMES);
	assert_int_equal(listening.count, 3);
}

static void
a_pause_that_lasts_is_told_again(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100 + PRESENCE_DELAY, silence);
	hear(&listening, 40, speech);
	hear(&listening, 6 * PAUSE_FRAMES, silence);
	assert_told(&listening, 1, ENDPOINT_PAUSE, 139 + PAUSE_FRAMES);
	assert_told(&listening, 2, ENDPOINT_PAUSE, 139 + 2 * PAUSE_FRAMES);
	assert_told(&listening, 3, ENDPOINT_PAUSE, 139 + 4 * PAUSE_FRAMES);
	assert_int_equal(listening.count, 4);
}

static void
the_first_sound_counts_with_no_silence_before_it(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 30, speech);
	assert_told(&listening, 0, ENDPOINT_BEGAN, 2);
	assert_int_equal(listening.endpointer.first_voiced, 0);
}

static void
a_click_is_not_speech(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100, silence);
	hear(&listening, 2, speech);
	hear(&listening, 100, silence);
	assert_int_equal(listening.count, 0);
}

static void
speech_after_a_pause_sets_the_hang_over_back(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100, silence);
	hear(&listening, 30, speech);
	hear(&listening, PAUSE_FRAMES + PRESENCE_DELAY, silence);
	endpointer_hang_over(&listening.endpointer, 16);
	hear(&listening, 30, speech);
	hear(&listening, 3 * PAUSE_FRAMES, silence);
	/* began, paused, paused for longer: that does not fill the longest hang-over */
	assert_told(&listening, 1, ENDPOINT_PAUSE, listening.told[1].frame);
	assert_told(&listening, listening.count - 1, ENDPOINT_PAUSE,
		    listening.told[listening.count - 1].frame);
	assert_true(listening.endpointer.speaking);
}

static void
what_begins_speech_is_surer_than_what_keeps_it_going(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100, 0.5f);
	assert_int_equal(listening.count, 0);
	hear(&listening, 20, speech);
	hear(&listening, 40, 0.5f);
	assert_int_equal(listening.count, 1);
	assert_true(listening.endpointer.speaking);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_quiet_room_says_nothing),
		cmocka_unit_test(a_word_begins_pauses_and_ends),
		cmocka_unit_test(a_pause_that_lasts_is_told_again),
		cmocka_unit_test(the_first_sound_counts_with_no_silence_before_it),
		cmocka_unit_test(a_click_is_not_speech),
		cmocka_unit_test(speech_after_a_pause_sets_the_hang_over_back),
		cmocka_unit_test(what_begins_speech_is_surer_than_what_keeps_it_going),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
