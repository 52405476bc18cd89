#include "sound.h"

#include <setjmp.h>
#include <sndfile.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static void
sounds_are_added_where_they_meet(void **unused)
{
	int16_t one[] = {1, 2, 3}, two[] = {10, 20};
	struct sound sound = {NULL, 0};
	const struct sound first = {one, 3}, second = {two, 2};
	assert_true(sound_mix(&sound, &first, 0));
	assert_true(sound_mix(&sound, &second, 2));
	static const int16_t want[] = {1, 2, 13, 20};
	assert_int_equal(sound.count, 4);
	assert_memory_equal(sound.samples, want, sizeof want);
	sound_finish(&sound);
}

static void
what_lies_between_is_silence(void **unused)
{
	int16_t one[] = {7};
	struct sound sound = {NULL, 0};
	const struct sound first = {one, 1};
	assert_true(sound_mix(&sound, &first, 3));
	assert_true(sound_mix(&sound, &first, 6));
	static const int16_t want[] = {0, 0, 0, 7, 0, 0, 7};
	assert_int_equal(sound.count, 7);
	assert_memory_equal(sound.samples, want, sizeof want);
	sound_finish(&sound);
}

static void
a_sum_stays_within_16_bits(void **unused)
{
	int16_t loud[] = {30000, -30000, 30000};
	struct sound sound = {NULL, 0};
	const struct sound other = {loud, 3};
	assert_true(sound_mix(&sound, &other, 0));
	assert_true(sound_mix(&sound, &other, 0));
	static const int16_t want[] = {32767, -32768, 32767};
	assert_memory_equal(sound.samples, want, sizeof want);
	sound_finish(&sound);
}

static void
an_empty_sound_adds_nothing(void **unused)
{
	struct sound sound = {NULL, 0};
	const struct sound empty = {NULL, 0};
	assert_true(sound_mix(&sound, &empty, 100));
	assert_int_equal(sound.count, 0);
	sound_finish(&sound);
	sound_finish(&sound);
	sound_finish(NULL);
}

static void
a_sound_is_written_as_it_is(void **unused)
{
	char path[] = "/tmp/lapel-sound-XXXXXX";
	close(mkstemp(path));
	int16_t samples[] = {0, 1, -1, 32767, -32768}, back[8];
	const struct sound sound = {samples, 5};
	struct problem problem = {""};
	assert_true(sound_write(path, &sound, &problem));
	SF_INFO info = {0};
	SNDFILE *file = sf_open(path, SFM_READ, &info);
	assert_non_null(file);
	assert_int_equal(info.samplerate, SOUND_RATE_HZ);
	assert_int_equal(info.channels, 1);
	assert_int_equal(info.format, SF_FORMAT_WAV | SF_FORMAT_PCM_16);
	assert_int_equal(sf_read_short(file, back, 8), 5);
	assert_memory_equal(back, samples, sizeof samples);
	sf_close(file);
	unlink(path);
}

static void
an_empty_sound_is_a_file_too(void **unused)
{
	char path[] = "/tmp/lapel-sound-XXXXXX";
	close(mkstemp(path));
	const struct sound sound = {NULL, 0};
	assert_true(sound_write(path, &sound, NULL));
	SF_INFO info = {0};
	SNDFILE *file = sf_open(path, SFM_READ, &info);
	assert_non_null(file);
	assert_int_equal(info.frames, 0);
	sf_close(file);
	unlink(path);
}

static void
a_file_that_cannot_be_made_is_named(void **unused)
{
	const struct sound sound = {NULL, 0};
	struct problem problem = {""};
	assert_false(sound_write("/no such folder/said.wav", &sound, &problem));
	assert_non_null(strstr(problem.text, "/no such folder/said.wav"));
	assert_non_null(strstr(problem.text, "No such file or directory"));
	assert_false(sound_write("/tmp", &sound, &problem));
	assert_non_null(strstr(problem.text, "/tmp: Is a directory"));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {cmocka_unit_test(sounds_are_added_where_they_meet),
					   cmocka_unit_test(what_lies_between_is_silence),
					   cmocka_unit_test(a_sum_stays_within_16_bits),
					   cmocka_unit_test(an_empty_sound_adds_nothing),
					   cmocka_unit_test(a_sound_is_written_as_it_is),
					   cmocka_unit_test(an_empty_sound_is_a_file_too),
					   cmocka_unit_test(a_file_that_cannot_be_made_is_named)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
