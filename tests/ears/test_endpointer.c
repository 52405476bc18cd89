/* Where speech begins and ends: frames of band energies in, onsets, pauses and ends out. */
#include "endpointer.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

enum { QUIET = 30, LOUD = 65 };

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
hear(struct listening *listening, int frames, float level_db)
{
	float bands[BANDS];
	for (int i = 0; i < frames; i++) {
		for (int band = 0; band < BANDS; band++)
			bands[band] = level_db + (float)((band * 7 + i * 13) % 5) / 4;
		int64_t frame = listening->endpointer.frame;
		enum endpoint what = endpointer_frame(&listening->endpointer, bands);
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
	hear(&listening, 1000, QUIET);
	assert_int_equal(listening.count, 0);
}

static void
a_word_begins_pauses_and_ends(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100, QUIET);
	hear(&listening, 40, LOUD);
	assert_told(&listening, 0, ENDPOINT_BEGAN, 102);
	assert_int_equal(listening.endpointer.first_voiced, 100);
	hear(&listening, 8, QUIET);
	assert_told(&listening, 1, ENDPOINT_PAUSE, 147);
	assert_int_equal(listening.endpointer.last_voiced, 139);
	endpointer_hang_over(&listening.endpointer, 16);
	hear(&listening, 20, QUIET);
	assert_told(&listening, 2, ENDPOINT_ENDED, 155);
	assert_int_equal(listening.count, 3);
}

static void
the_first_sound_counts_with_no_silence_before_it(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 30, LOUD);
	assert_told(&listening, 0, ENDPOINT_BEGAN, 2);
	assert_int_equal(listening.endpointer.first_voiced, 0);
}

static void
a_click_is_not_speech(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100, QUIET);
	hear(&listening, 2, LOUD);
	hear(&listening, 100, QUIET);
	assert_int_equal(listening.count, 0);
}

static void
speech_after_a_pause_sets_the_hang_over_back(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 100, QUIET);
	hear(&listening, 30, LOUD);
	hear(&listening, 10, QUIET);
	endpointer_hang_over(&listening.endpointer, 16);
	hear(&listening, 30, LOUD);
	hear(&listening, 30, QUIET);
	/* began, pause, pause: thirty quiet frames do not fill the longest hang-over */
	assert_int_equal(listening.count, 3);
	assert_true(listening.endpointer.speaking);
}

static void
a_fan_that_is_switched_on_becomes_the_room(void **state)
{
	struct listening listening = {.count = 0};
	endpointer_init(&listening.endpointer);
	hear(&listening, 300, QUIET);
	hear(&listening, 400, QUIET + 20);
	assert_false(listening.endpointer.speaking);
	int before = listening.count;
	hear(&listening, 40, LOUD);
	assert_told(&listening, before, ENDPOINT_BEGAN, 702);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_quiet_room_says_nothing),
		cmocka_unit_test(a_word_begins_pauses_and_ends),
		cmocka_unit_test(the_first_sound_counts_with_no_silence_before_it),
		cmocka_unit_test(a_click_is_not_speech),
		cmocka_unit_test(speech_after_a_pause_sets_the_hang_over_back),
		cmocka_unit_test(a_fan_that_is_switched_on_becomes_the_room),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
