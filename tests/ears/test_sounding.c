/* How words sound to the network. */
#include "sounding.h"

#include "small_network.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

static void
a_word_runs_through_the_parts_of_its_phones(void **state)
{
	static const char *const words[] = {"zhoo", "ah", "aha", "ahs"};
	struct problem problem = {""};
	struct pronunciations *known = pronunciations_create();
	assert_true(pronunciations_read(known, "words",
					"ah AA\naha AA AA\naha(2) AA\nzhoo ZH UW\nahs AA ZH\n",
					NULL, &problem));
	struct sounding *sounding = sounding_create(*state, known, words, 4);
	pronunciations_destroy(known);
	assert_non_null(sounding);
	assert_int_equal(sounding_silence(sounding), 0);
	const struct sounded *aha = sounding_of(sounding, "aha ah", 3);
	assert_non_null(aha);
	assert_int_equal(aha->way_count, 2);
	assert_int_equal(aha->ways[0].count, 4);
	assert_int_equal(aha->ways[0].outputs[3], 2);
	assert_int_equal(aha->ways[1].count, 2);
	/* a word by its letters, neither more nor fewer */
	assert_string_equal(sounding_of(sounding, "aha ah", 2)->word, "ah");
	assert_null(sounding_of(sounding, "ahab", 4));
	assert_null(sounding_of(sounding, "a", 1));
	assert_null(sounding_of(sounding, "", 0));
	/* with phones that the network lacks */
	assert_null(sounding_of(sounding, "zhoo", 4));
	assert_null(sounding_of(sounding, "ahs", 3));
	sounding_destroy(sounding);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_word_runs_through_the_parts_of_its_phones),
	};
	return cmocka_run_group_tests(tests, small_network_set_up, small_network_tear_down);
}
