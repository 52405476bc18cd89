/* How loud the room is, how loud the speech, and what clips. */
#include "levels.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

/* A sine of so many dBFS peak. */
static void
add_tone(struct levels *levels, double peak_dbfs, double seconds)
{
	double peak = 32767 * pow(10, peak_dbfs / 20);
	for (int64_t i = 0; i < (int64_t)(seconds * 16000); i++) {
		int16_t sample = (int16_t)(peak * sin(2 * M_PI * 1000 * (double)i / 16000));
		levels_add(levels, &sample, 1);
	}
}

static void
a_sine_is_3_db_below_its_peak(void **state)
{
	static const double peaks[] = {0, -6, -20, -60};
	for (size_t i = 0; i < sizeof peaks / sizeof *peaks; i++) {
		struct levels levels;
		levels_init(&levels);
		add_tone(&levels, peaks[i], 1);
		assert_true(fabs(levels.last_dbfs - (peaks[i] - 3.01)) < 0.3);
		assert_int_equal(levels_percentile_dbfs(&levels, 50), (int)lround(peaks[i] - 3.01));
		assert_int_equal(levels.frames, 100);
	}
}

static void
speech_is_what_stands_out_of_the_room(void **state)
{
	struct levels levels;
	double speech;
	levels_init(&levels);
	add_tone(&levels, -57, 3);
	assert_false(levels_speech_dbfs(&levels, &speech));
	add_tone(&levels, -20, 1);
	assert_int_equal(levels_room_dbfs(&levels), -60);
	assert_true(levels_speech_dbfs(&levels, &speech));
	assert_true(fabs(speech + 23) < 0.6);
}

static void
clipping_is_several_samples_at_the_end_of_the_scale(void **state)
{
	struct levels levels;
	int16_t touched[] = {0, 32767, 32767, 0, -32768, 0},
		cut[] = {0, 32767, 32767, 32767, 32767, 0};
	levels_init(&levels);
	levels_add(&levels, touched, 6);
	assert_int_equal(levels.clipped, 0);
	levels_add(&levels, cut, 6);
	assert_int_equal(levels.clipped, 4);
}

static void
nothing_has_the_lowest_level(void **state)
{
	struct levels levels;
	double speech;
	int16_t silence[320] = {0};
	levels_init(&levels);
	assert_int_equal(levels_room_dbfs(&levels), LEVELS_LOWEST);
	levels_add(&levels, silence, 320);
	assert_int_equal(levels_room_dbfs(&levels), LEVELS_LOWEST);
	assert_false(levels_speech_dbfs(&levels, &speech));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_sine_is_3_db_below_its_peak),
		cmocka_unit_test(speech_is_what_stands_out_of_the_room),
		cmocka_unit_test(clipping_is_several_samples_at_the_end_of_the_scale),
		cmocka_unit_test(nothing_has_the_lowest_level),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
