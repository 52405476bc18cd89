/* Laying words over frames. */
#include "laying.h"

#include "small_network.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static char path[] = "/tmp/lapel-laying-XXXXXX";

struct bench {
	struct network *network;
	struct sounding *sounding;
	struct laying *laying;
};
static struct bench bench;

static int
set_up(void **state)
{
	static const char *const words[] = {"ah", "zhoo"};
	struct problem problem = {""};
	int fd = mkstemp(path);
	if (fd < 0 || close(fd) != 0)
		return 1;
	small_network_write(path, small_header, 0);
	bench.network = network_read(path, &problem);
	struct pronunciations *known = pronunciations_create();
	bool read = pronunciations_read(known, "words", "ah AA\nzhoo ZH UW\n", NULL, &problem);
	bench.sounding = sounding_create(bench.network, known, words, 2);
	bench.laying = laying_create(bench.network, bench.sounding);
	pronunciations_destroy(known);
	return !read || bench.sounding == NULL || bench.laying == NULL;
}

static int
tear_down(void **state)
{
	laying_destroy(bench.laying);
	sounding_destroy(bench.sounding);
	network_destroy(bench.network);
	return unlink(path);
}

static float *
scores_of(const int *said, int frames)
{
	float *bands = malloc(sizeof *bands * BANDS * (size_t)frames);
	assert_non_null(bands);
	small_network_frames(said, frames, bands);
	float *scores = network_scores(bench.network, bands, frames);
	assert_non_null(scores);
	free(bands);
	return scores;
}

static void
a_word_lies_where_it_was_said(void **state)
{
	static const int said[] = {0, 0, 1, 1, 2, 2, 2, 0, 0, 0};
	struct laid laid;
	float *scores = scores_of(said, 10);
	laying_lay(bench.laying, scores, 10, "ah", &laid, NULL);
	assert_true(laid.possible);
	assert_int_equal(laid.word_count, 1);
	assert_int_equal(laid.words[0].first_frame, 2);
	assert_int_equal(laid.words[0].last_frame, 6);
	assert_int_equal(laid.words[0].parts, 2);
	free(scores);
}

static void
two_words_lie_side_by_side_or_with_silence_between(void **state)
{
	static const int close[] = {0, 1, 2, 1, 2, 0}, apart[] = {1, 2, 0, 0, 1, 2};
	struct laid laid;
	float *scores = scores_of(close, 6);
	laying_lay(bench.laying, scores, 6, "ah ah", &laid, NULL);
	assert_int_equal(laid.words[0].last_frame, 2);
	assert_int_equal(laid.words[1].first_frame, 3);
	free(scores);
	scores = scores_of(apart, 6);
	laying_lay(bench.laying, scores, 6, "ah ah", &laid, NULL);
	assert_int_equal(laid.words[0].last_frame, 1);
	assert_int_equal(laid.words[1].first_frame, 4);
	free(scores);
}

static void
the_right_number_of_words_fits_best(void **state)
{
	static const int said[] = {0, 1, 2, 0, 1, 2, 0, 0};
	struct laid one, two, three;
	float *scores = scores_of(said, 8);
	laying_lay(bench.laying, scores, 8, "ah", &one, NULL);
	laying_lay(bench.laying, scores, 8, "ah ah", &two, NULL);
	laying_lay(bench.laying, scores, 8, "ah ah ah", &three, NULL);
	assert_true(two.score > one.score);
	assert_true(two.score > three.score);
	free(scores);
}

static void
what_cannot_be_laid_says_so(void **state)
{
	static const int said[] = {1, 2, 0};
	struct laid laid;
	float *scores = scores_of(said, 3);
	laying_lay(bench.laying, scores, 3, "ah ah", &laid, NULL); /* four parts in three frames */
	assert_false(laid.possible);
	laying_lay(bench.laying, scores, 3, "zhoo", &laid,
		   NULL); /* phones that the network lacks */
	assert_false(laid.possible);
	laying_lay(bench.laying, scores, 3, "", &laid, NULL);
	assert_false(laid.possible);
	free(scores);
}

static void
anything_fits_at_least_as_well_as_the_words(void **state)
{
	static const int said[] = {0, 1, 2, 1, 2, 2, 0, 0, 1, 2, 0, 0};
	struct laid laid;
	float anything[12], sum = 0;
	float *scores = scores_of(said, 12);
	assert_true(laying_anything(bench.laying, scores, 12, anything));
	for (int i = 0; i < 12; i++)
		sum += anything[i];
	laying_lay(bench.laying, scores, 12, "ah", &laid, NULL);
	assert_true(sum >= laid.score);
	free(scores);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_word_lies_where_it_was_said),
		cmocka_unit_test(two_words_lie_side_by_side_or_with_silence_between),
		cmocka_unit_test(the_right_number_of_words_fits_best),
		cmocka_unit_test(what_cannot_be_laid_says_so),
		cmocka_unit_test(anything_fits_at_least_as_well_as_the_words),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
