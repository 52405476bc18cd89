/* What was played, taken in step with what is heard. */
#include "played.h"

#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

enum { PIECE = 160, MARGIN = 320 };

static int16_t next;

static void
write_count(struct played *played, int count)
{
	for (; count > 0; count--) {
		next++;
		played_write(played, &next, 1);
	}
}

/* Takes a piece whose samples count up from `first` on; 0: it is silent. */
static void
assert_piece(struct played *played, int first)
{
	int16_t samples[PIECE];
	played_take(played, samples, PIECE);
	for (int i = 0; i < PIECE; i++)
		assert_int_equal(samples[i], first == 0 ? 0 : first + i);
}

static struct played *
begin(void)
{
	struct played *played = played_create();
	assert_non_null(played);
	next = 0;
	return played;
}

static void
before_a_stream_begins_all_is_silent(void **state)
{
	struct played *played = begin();
	assert_piece(played, 0);
	assert_false(played_keep_step(played));
	played_destroy(played);
}

static void
all_but_a_margin_is_passed_over_at_the_beginning(void **state)
{
	struct played *played = begin();
	int16_t samples[PIECE];
	played_begin(played, 16000);
	write_count(played, 1000);
	assert_true(played_take(played, samples, PIECE));
	assert_int_equal(samples[0], 1000 - MARGIN + 1);
	assert_false(played_take(played, samples, PIECE));
	assert_int_equal(samples[0], 1000 - MARGIN + PIECE + 1);
	played_destroy(played);
}

static void
what_comes_late_is_not_taken_for_what_comes_then(void **state)
{
	struct played *played = begin();
	played_begin(played, 16000);
	write_count(played, MARGIN);
	assert_piece(played, 1);
	assert_piece(played, 1 + PIECE);
	assert_piece(played, 0); /* nothing has come */
	write_count(played, 2 * PIECE);
	assert_piece(played, 1 + 3 * PIECE);
	played_destroy(played);
}

static void
a_drift_is_mended_but_not_every_burst(void **state)
{
	struct played *played = begin();
	played_begin(played, 16000);
	write_count(played, MARGIN);
	assert_piece(played, 1);
	write_count(played, 500);
	assert_false(played_keep_step(played));
	write_count(played, 1000);
	assert_true(played_keep_step(played));
	assert_piece(played, MARGIN + 1500 - MARGIN + 1);
	played_destroy(played);
}

static void
another_rate_is_brought_to_ours(void **state)
{
	struct played *played = begin();
	int16_t samples[PIECE];
	double sum = 0;
	int count = 0;
	played_begin(played, 48000);
	for (int piece = 0; piece < 100; piece++) {
		for (int i = 0; i < 480; i++) {
			int16_t one = (int16_t)lround(8000 * sin(2 * M_PI * 700 * next++ / 48000));
			played_write(played, &one, 1);
		}
		played_take(played, samples, PIECE);
		for (int i = 0; piece >= 20 && i < PIECE; i++, count++)
			sum += (double)samples[i] * samples[i];
	}
	assert_true(fabs(sqrt(sum / count) - 8000 / sqrt(2)) < 100);
	played_begin(played, 16000);
	assert_true(played_take(played, samples, PIECE));
	played_destroy(played);
}

/* A stream that counts up, in bursts, and a second one at another rate. */
static void *
write_streams(void *user)
{
	struct played *played = user;
	int16_t burst[200];
	int16_t counter = 0;
	for (int i = 0; i < 2000; i++) {
		if (i == 1000)
			played_begin(played, 48000);
		for (int k = 0; k < 200; k++)
			burst[k] = i < 1000 ? counter++ & 0x3fff : 0;
		played_write(played, burst, 200);
	}
	return NULL;
}

static void
one_thread_writes_while_another_takes(void **state)
{
	struct played *played = begin();
	pthread_t writer;
	int16_t samples[PIECE];
	int streams = 0;
	played_begin(played, 16000);
	assert_int_equal(pthread_create(&writer, NULL, write_streams, played), 0);
	for (int i = 0; i < 3000; i++) {
		streams += played_take(played, samples, PIECE);
		played_keep_step(played);
	}
	assert_int_equal(pthread_join(writer, NULL), 0);
	streams += played_take(played, samples, PIECE);
	assert_in_range(streams, 1, 2);
	played_destroy(played);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(before_a_stream_begins_all_is_silent),
		cmocka_unit_test(all_but_a_margin_is_passed_over_at_the_beginning),
		cmocka_unit_test(what_comes_late_is_not_taken_for_what_comes_then),
		cmocka_unit_test(a_drift_is_mended_but_not_every_burst),
		cmocka_unit_test(another_rate_is_brought_to_ours),
		cmocka_unit_test(one_thread_writes_while_another_takes),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
