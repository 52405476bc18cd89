/* Other rates become 16 kHz piece by piece, with the pitch that they had. */
#include "rate_change.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

enum { OUT_MAX = 40000 };

/* Two seconds of 500 Hz, in pieces that no one would choose. */
static int64_t
tone_through(int from_hz, int16_t *out)
{
	struct rate_change *change = rate_change_create(from_hz, 16000);
	int16_t piece[1000];
	int64_t made = 0, at = 0, pieces[] = {1, 160, 479, 733};
	assert_non_null(change);
	for (int turn = 0; at < 2 * from_hz; turn++) {
		int64_t some = pieces[turn % 4];
		for (int64_t i = 0; i < some; i++)
			piece[i] =
				(int16_t)(9000 * sin(2 * M_PI * 500 * (double)(at + i) / from_hz));
		made += rate_change_do(change, piece, some, out + made, OUT_MAX - made);
		at += some;
	}
	rate_change_destroy(change);
	return made;
}

static void
a_tone_keeps_its_pitch_and_its_level(void **state)
{
	static const int rates[] = {8000, 22050, 32000, 44100, 48000};
	static int16_t out[OUT_MAX];
	for (size_t i = 0; i < sizeof rates / sizeof *rates; i++) {
		int64_t made = tone_through(rates[i], out);
		int crossings = 0;
		double sum = 0;
		assert_in_range(made, 31000, 33000);
		for (int64_t at = 8000; at < 24000; at++) {
			crossings += out[at - 1] < 0 && out[at] >= 0;
			sum += (double)out[at] * out[at];
		}
		assert_in_range(crossings, 499, 501);
		assert_in_range((int)sqrt(sum / 16000), 6300, 6430);
	}
}

static void
no_more_comes_out_than_was_made_room_for(void **state)
{
	struct rate_change *change = rate_change_create(44100, 16000);
	static int16_t in[4096], out[160];
	for (int i = 0; i < 500; i++) {
		int64_t some = rate_change_most_in(change, 160);
		assert_in_range(some, 1, 4096);
		assert_in_range(rate_change_do(change, in, some, out, 160), 0, 160);
	}
	rate_change_destroy(change);
}

static void
no_change_passes_samples_through(void **state)
{
	int16_t in[3] = {1, -2, 3}, out[3];
	assert_int_equal(rate_change_most_in(NULL, 3), 3);
	assert_int_equal(rate_change_do(NULL, in, 3, out, 3), 3);
	assert_memory_equal(in, out, sizeof in);
	rate_change_destroy(NULL);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_tone_keeps_its_pitch_and_its_level),
		cmocka_unit_test(no_more_comes_out_than_was_made_room_for),
		cmocka_unit_test(no_change_passes_samples_through),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
