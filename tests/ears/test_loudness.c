/* How loud a piece of sound is over its own quiet. */
#include "loudness.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

enum { FRAME = 160, FRAMES = 100 };

static void
square(int16_t *samples, int from, int to, int16_t height)
{
	for (int i = from * FRAME; i < to * FRAME; i++)
		samples[i] = i % 2 ? height : (int16_t)-height;
}

static void
a_word_in_a_quiet_room(void **state)
{
	int16_t samples[FRAME * FRAMES];
	square(samples, 0, FRAMES, 10);
	square(samples, 30, 60, 10000);
	struct loudness loudness = loudness_of(samples, FRAME * FRAMES);
	/* a thousand times the amplitude is 60 dB */
	assert_in_range((int)loudness.over_room_db, 59, 61);
	assert_int_equal(loudness.first, 30);
	assert_int_equal(loudness.last, 59);
}

static void
an_even_sound_is_not_loud(void **state)
{
	int16_t samples[FRAME * FRAMES];
	square(samples, 0, FRAMES, 500);
	assert_int_equal((int)loudness_of(samples, FRAME * FRAMES).over_room_db, 0);
}

static void
less_than_a_frame_is_nothing(void **state)
{
	int16_t samples[FRAME] = {0};
	struct loudness loudness = loudness_of(samples, FRAME - 1);
	assert_int_equal(loudness.first, 0);
	assert_int_equal(loudness.last, 0);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_word_in_a_quiet_room),
		cmocka_unit_test(an_even_sound_is_not_loud),
		cmocka_unit_test(less_than_a_frame_is_nothing),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
