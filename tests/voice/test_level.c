#include "level.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

/* A sine of a second, then as long a pause as wanted. The caller finishes it. */
static struct sound
sine(double peak, int64_t pause)
{
	struct sound sound = {NULL, SOUND_RATE_HZ + pause};
	sound.samples = calloc((size_t)sound.count, sizeof *sound.samples);
	for (int i = 0; i < SOUND_RATE_HZ; i++)
		sound.samples[i] = (int16_t)lrint(peak * sin(2 * M_PI * 500 * i / SOUND_RATE_HZ));
	return sound;
}

static void
decibels_are_of_full_scale(void **unused)
{
	assert_true(fabs(level_sample(0) - 32767) < 1e-9);
	assert_true(fabs(level_sample(-20) - 3276.7) < 1e-9);
	assert_int_equal((int)level_sample(-6), 16422); /* 32767 * 10^(-6/20), worked by hand */
}

/* A sine's root mean square is 3.01 dB below its peak. */
static void
the_level_of_a_sine_is_3_decibels_below_its_peak(void **unused)
{
	struct sound sound = sine(level_sample(-20), 0);
	assert_int_equal(level_peak(&sound), 3277);
	assert_true(fabs(level_active_dbfs(&sound) - -23.01) < 0.01);
	sound_finish(&sound);
}

static void
pauses_do_not_count(void **unused)
{
	struct sound sound = sine(level_sample(-20), 10 * SOUND_RATE_HZ);
	assert_true(fabs(level_active_dbfs(&sound) - -23.01) < 0.01);
	sound_finish(&sound);
}

static void
silence_has_no_level_and_is_left_alone(void **unused)
{
	int16_t zeros[1000] = {0};
	struct sound silence = {zeros, 1000}, empty = {NULL, 0};
	assert_true(level_active_dbfs(&silence) == -INFINITY);
	assert_true(level_active_dbfs(&empty) == -INFINITY);
	level_set(&silence, -24, -7);
	level_set(&empty, -24, -7);
	level_limit(&empty, -6);
	assert_int_equal(level_peak(&silence), 0);
}

static void
a_level_is_set_but_for_the_peak(void **unused)
{
	struct sound sound = sine(level_sample(-40), 0);
	level_set(&sound, -24, -7);
	assert_true(fabs(level_active_dbfs(&sound) - -24) < 0.1);
	level_set(&sound, -1, -7);
	assert_true(level_peak(&sound) <= level_sample(-7));
	assert_true(level_peak(&sound) >= level_sample(-7) - 2);
	sound_finish(&sound);
}

static void
a_limit_turns_down_what_is_above_it_and_nothing_else(void **unused)
{
	struct sound loud = sine(32767, 0), soft = sine(16000, 0);
	loud.samples[0] = INT16_MIN;
	level_limit(&loud, LEVEL_CEILING_DBFS);
	level_limit(&soft, LEVEL_CEILING_DBFS);
	assert_true(level_peak(&loud) <= level_sample(LEVEL_CEILING_DBFS));
	assert_true(level_peak(&loud) >= level_sample(LEVEL_CEILING_DBFS) - 2);
	assert_int_equal(level_peak(&soft), 16000);
	sound_finish(&loud);
	sound_finish(&soft);
}

/* The sum that level.h makes: a sine at the ceiling, words at 65 dB(A), 80 dB(A) in ITU-T H.870. */
static void
the_ceiling_keeps_to_the_listening_allowance(void **unused)
{
	double above_words_db = LEVEL_CEILING_DBFS - 3.01 - LEVEL_SPEECH_DBFS;
	assert_true(65 + above_words_db <= 80);
	assert_true(60 + above_words_db <= 75);
	assert_true(LEVEL_SPEECH_PEAK_DBFS < LEVEL_CEILING_DBFS);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(decibels_are_of_full_scale),
		cmocka_unit_test(the_level_of_a_sine_is_3_decibels_below_its_peak),
		cmocka_unit_test(pauses_do_not_count),
		cmocka_unit_test(silence_has_no_level_and_is_left_alone),
		cmocka_unit_test(a_level_is_set_but_for_the_peak),
		cmocka_unit_test(a_limit_turns_down_what_is_above_it_and_nothing_else),
		cmocka_unit_test(the_ceiling_keeps_to_the_listening_allowance)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
