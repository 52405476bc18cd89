/* Samples across a thread border: in order, none twice, and what was lost is counted. */
#include "ring.h"

#include <pthread.h>
#include <sched.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>

#include <cmocka.h>

static void
what_is_written_is_read_in_order(void **state)
{
	struct ring *ring = ring_create(8);
	int16_t got[8];
	assert_non_null(ring);
	/* Several rounds, so that reading and writing go over the end. */
	for (int16_t round = 0; round < 10; round++) {
		int16_t some[5] = {round, round + 1, round + 2, round + 3, round + 4};
		assert_int_equal(ring_write(ring, some, 5), 5);
		assert_int_equal(ring_filled(ring), 5);
		assert_int_equal(ring_read(ring, got, 8), 5);
		assert_memory_equal(got, some, sizeof some);
	}
	assert_int_equal(ring_written(ring), 50);
	assert_int_equal(ring_taken(ring), 50);
	assert_int_equal(ring_read(ring, got, 8), 0);
	ring_destroy(ring);
}

static void
a_full_ring_keeps_what_it_has_and_counts_what_it_loses(void **state)
{
	struct ring *ring = ring_create(3); /* room for 4 */
	int16_t some[6] = {1, 2, 3, 4, 5, 6}, got[6];
	assert_int_equal(ring_write(ring, some, 6), 4);
	assert_int_equal(ring_lost(ring), 2);
	assert_int_equal(ring_write(ring, some, 1), 0);
	assert_int_equal(ring_lost(ring), 3);
	assert_int_equal(ring_read(ring, got, 2), 2);
	assert_int_equal(ring_write(ring, some + 4, 2), 2);
	assert_int_equal(ring_read(ring, got, 6), 4);
	assert_int_equal(got[0], 3);
	assert_int_equal(got[3], 6);
	assert_int_equal(ring_lost(ring), 3);
	ring_destroy(ring);
}

static void
an_offer_that_does_not_fit_is_no_loss(void **state)
{
	struct ring *ring = ring_create(4);
	int16_t some[6] = {0};
	assert_int_equal(ring_offer(ring, some, 6), 4);
	assert_int_equal(ring_lost(ring), 0);
	assert_int_equal(ring_skip(ring, 3), 3);
	assert_int_equal(ring_filled(ring), 1);
	ring_destroy(ring);
}

static void
nothing_is_made_of_nothing(void **state)
{
	struct ring *ring = ring_create(1);
	int16_t sample = 7;
	assert_int_equal(ring_write(ring, &sample, 0), 0);
	assert_int_equal(ring_read(ring, &sample, 1), 0);
	assert_int_equal(ring_skip(ring, 5), 0);
	assert_int_equal(ring_write(ring, &sample, 1), 1);
	ring_destroy(ring);
	ring_destroy(NULL);
}

enum { PASSED = 1000000, PIECE = 37 };

/* Counts up, in pieces, and comes again with what did not fit. */
static void *
count_up(void *user)
{
	struct ring *ring = user;
	int16_t piece[PIECE];
	for (int64_t at = 0; at < PASSED;) {
		int64_t some = PASSED - at < PIECE ? PASSED - at : PIECE;
		for (int64_t i = 0; i < some; i++)
			piece[i] = (int16_t)(at + i);
		int64_t fitted = ring_offer(ring, piece, some);
		if (fitted == 0)
			sched_yield();
		at += fitted;
	}
	return NULL;
}

static void
two_threads_pass_a_million_samples_in_order(void **state)
{
	struct ring *ring = ring_create(1024);
	pthread_t writer;
	int64_t at = 0, wrong = 0;
	assert_int_equal(pthread_create(&writer, NULL, count_up, ring), 0);
	while (at < PASSED) {
		int16_t piece[160];
		int64_t some = ring_read(ring, piece, 160);
		for (int64_t i = 0; i < some; i++)
			wrong += piece[i] != (int16_t)(at + i);
		if (some == 0)
			sched_yield();
		at += some;
	}
	pthread_join(writer, NULL);
	assert_int_equal(wrong, 0);
	assert_int_equal(ring_filled(ring), 0);
	assert_int_equal(ring_lost(ring), 0);
	ring_destroy(ring);
}

/* Writes without regard for the reader: what was taken in and what was lost make up the whole. */
static void *
pour(void *user)
{
	static const int16_t piece[PIECE];
	for (int i = 0; i < 20000; i++)
		ring_write(user, piece, PIECE);
	return NULL;
}

static void
taken_in_and_lost_make_up_the_whole(void **state)
{
	struct ring *ring = ring_create(256);
	pthread_t writer;
	int16_t piece[64];
	int64_t read = 0;
	assert_int_equal(pthread_create(&writer, NULL, pour, ring), 0);
	while (ring_written(ring) + ring_lost(ring) < 20000 * PIECE)
		read += ring_read(ring, piece, 64);
	pthread_join(writer, NULL);
	for (int64_t some; (some = ring_read(ring, piece, 64)) > 0;)
		read += some;
	assert_int_equal(read + ring_lost(ring), 20000 * PIECE);
	ring_destroy(ring);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_written_is_read_in_order),
		cmocka_unit_test(a_full_ring_keeps_what_it_has_and_counts_what_it_loses),
		cmocka_unit_test(an_offer_that_does_not_fit_is_no_loss),
		cmocka_unit_test(nothing_is_made_of_nothing),
		cmocka_unit_test(two_threads_pass_a_million_samples_in_order),
		cmocka_unit_test(taken_in_and_lost_make_up_the_whole),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
