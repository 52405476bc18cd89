/* A link that carries nothing above 4 kHz is told from one that does, by real speech. */
#include "bandwidth.h"
#include "rate_change.h"
#include "sound_file.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Human speech at 16 kHz, of the package pocketsphinx-testdata. */
static const char speech_path[] = "/usr/share/pocketsphinx/test/data/librivox/"
				  "sense_and_sensibility_01_austen_64kb-0870.wav";

static int64_t
read_speech(int16_t **samples)
{
	int64_t count = 0;
	if (!sound_file_read(speech_path, samples, &count, NULL))
		skip();
	return count;
}

/* As a telephone link gives it: through 8 kHz and back. */
static int64_t
through_telephone(int16_t **samples, int64_t count)
{
	struct rate_change *down = rate_change_create(16000, 8000);
	struct rate_change *up = rate_change_create(8000, 16000);
	int16_t *out = malloc((size_t)count * sizeof *out);
	int64_t made = 0;
	assert_true(down != NULL && up != NULL && out != NULL);
	for (int64_t at = 0; at < count; at += 160) {
		int16_t low[200];
		int64_t some = count - at < 160 ? count - at : 160;
		int64_t got = rate_change_do(down, *samples + at, some, low, 200);
		made += rate_change_do(up, low, got, out + made, count - made);
	}
	rate_change_destroy(down);
	rate_change_destroy(up);
	free(*samples);
	*samples = out;
	return made;
}

static void
speech_over_a_wide_link_reaches_above_4_khz(void **state)
{
	struct bandwidth bandwidth;
	int16_t *samples;
	int64_t count = read_speech(&samples);
	bandwidth_init(&bandwidth);
	bandwidth_add(&bandwidth, samples, count);
	assert_true(bandwidth_known(&bandwidth));
	assert_true(bandwidth_above_4_khz_db(&bandwidth) > -45);
	assert_false(bandwidth_narrow(&bandwidth));
	free(samples);
}

static void
the_same_speech_over_a_telephone_link_does_not(void **state)
{
	struct bandwidth bandwidth;
	int16_t *samples;
	int64_t count = through_telephone(&samples, read_speech(&samples));
	bandwidth_init(&bandwidth);
	bandwidth_add(&bandwidth, samples, count);
	assert_true(bandwidth_known(&bandwidth));
	assert_true(bandwidth_above_4_khz_db(&bandwidth) < -55);
	assert_true(bandwidth_narrow(&bandwidth));
	free(samples);
}

static void
silence_tells_nothing(void **state)
{
	struct bandwidth bandwidth;
	int16_t silence[16000] = {0};
	bandwidth_init(&bandwidth);
	for (int i = 0; i < 10; i++)
		bandwidth_add(&bandwidth, silence, 16000);
	assert_false(bandwidth_known(&bandwidth));
	assert_false(bandwidth_narrow(&bandwidth));
}

static void
a_tone_is_measured_where_it_lies(void **state)
{
	static const struct {
		double hz;
		bool narrow;
	} rows[] = {{440, true}, {1000, true}, {3000, true}, {4800, false}, {7000, false}};
	for (size_t row = 0; row < sizeof rows / sizeof *rows; row++) {
		struct bandwidth bandwidth;
		bandwidth_init(&bandwidth);
		for (int i = 0; i < 3 * 16000; i++) {
			int16_t sample = (int16_t)(8000 * sin(2 * M_PI * rows[row].hz * i / 16000));
			bandwidth_add(&bandwidth, &sample, 1);
		}
		assert_int_equal(bandwidth_narrow(&bandwidth), rows[row].narrow);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(speech_over_a_wide_link_reaches_above_4_khz),
		cmocka_unit_test(the_same_speech_over_a_telephone_link_does_not),
		cmocka_unit_test(silence_tells_nothing),
		cmocka_unit_test(a_tone_is_measured_where_it_lies),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
