#include "kept_sound.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <sndfile.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Reads it back the way others would: as a file. */
static void
is_the_same(const int16_t *samples, int64_t count)
{
	unsigned char *bytes;
	int64_t size;
	assert_true(kept_sound_pack(samples, count, &bytes, &size));

	FILE *file = tmpfile();
	assert_non_null(file);
	assert_int_equal(fwrite(bytes, 1, (size_t)size, file), (size_t)size);
	fflush(file);
	rewind(file);
	SF_INFO info = {0};
	SNDFILE *sound = sf_open_fd(fileno(file), SFM_READ, &info, SF_FALSE);
	assert_non_null(sound);
	assert_int_equal(info.samplerate, 16000);
	assert_int_equal(info.channels, 1);
	assert_int_equal(info.format, SF_FORMAT_FLAC | SF_FORMAT_PCM_16);
	int16_t *back = calloc((size_t)count + 1, sizeof *back);
	assert_int_equal(sf_read_short(sound, back, count + 1), count);
	assert_memory_equal(back, samples, (size_t)count * sizeof *back);
	sf_close(sound);
	fclose(file);
	free(back);
	free(bytes);
}

static void
kept_sound_is_the_sound_that_was_heard(void **state)
{
	enum { LONGEST = 20 * KEPT_SOUND_RATE_HZ };
	static const int64_t counts[] = {1, 15, 16, 4095, 4096, 4097, 16000, LONGEST};
	int16_t *samples = malloc(LONGEST * sizeof *samples);
	uint32_t noise = 1;
	for (int i = 0; i < LONGEST; i++) {
		noise = noise * 1664525u + 1013904223u; /* Numerical Recipes, from memory */
		samples[i] = (int16_t)(noise >> 16);
	}
	samples[0] = INT16_MIN;
	samples[15] = INT16_MAX;
	for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
		is_the_same(samples, counts[i]);
	free(samples);
}

static void
quiet_sound_takes_little_room(void **state)
{
	static int16_t quiet[3 * KEPT_SOUND_RATE_HZ];
	unsigned char *bytes;
	int64_t size;
	for (size_t i = 0; i < sizeof quiet / sizeof *quiet; i++)
		quiet[i] = (int16_t)(i % 7) - 3;
	assert_true(kept_sound_pack(quiet, 3 * KEPT_SOUND_RATE_HZ, &bytes, &size));
	assert_true(size < (int64_t)sizeof quiet / 2);
	free(bytes);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(kept_sound_is_the_sound_that_was_heard),
		cmocka_unit_test(quiet_sound_takes_little_room),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
