/* Choosing among sentences: the network's order, and the recogniser's word where there is doubt. */
#include "choosing.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

static struct found *
two(double sleeve, double sweep)
{
	static struct found found;
	found.count = 2;
	strcpy(found.texts[0].text, "sleeve twenty");
	found.texts[0].score = sleeve;
	strcpy(found.texts[1].text, "sweep twenty");
	found.texts[1].score = sweep;
	return &found;
}

static void
what_is_far_behind_is_no_doubt(void **state)
{
	struct found *alone = two(-10, 0);
	alone->count = 1;
	assert_false(choosing_doubts(alone));
	assert_true(choosing_doubts(two(-10, -12)));
	assert_false(choosing_doubts(two(-10, -90)));
}

static void
without_the_recogniser_the_network_orders(void **state)
{
	struct choice choices[FOUND_MAX];
	assert_int_equal(choosing_order(two(-10, -12), NULL, choices), 2);
	assert_string_equal(choices[0].text, "sleeve twenty");
	assert_true(choices[0].score == -10 && choices[1].score == -12);
}

static void
the_recogniser_turns_a_close_choice_over_and_not_a_clear_one(void **state)
{
	/* 400 steps of 1024 ln 1.0001 nats: 41 nats, of which a share counts. */
	struct weighed weighed = {{-1400, -1000}};
	struct choice choices[FOUND_MAX];
	choosing_order(two(-10, -12), &weighed, choices);
	assert_string_equal(choices[0].text, "sweep twenty");
	choosing_order(two(-10, -90), &weighed, choices);
	assert_string_equal(choices[0].text, "sleeve twenty");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_far_behind_is_no_doubt),
		cmocka_unit_test(without_the_recogniser_the_network_orders),
		cmocka_unit_test(the_recogniser_turns_a_close_choice_over_and_not_a_clear_one),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
