/* Choosing one place for each of several labels. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "search.h"

/* A label of 10 x 10 whose places stand in a row, 20 apart; each costs more than the one before. */
static void
add_place(struct choice *choice, int place, double cost)
{
	choice->candidates[choice->count++] =
		(struct candidate){.box = {20 * place, 0, 10, 10}, .cost = cost};
}

static void
each_gets_its_cheapest_place_where_they_are_not_in_the_way(void **state)
{
	struct choice *choices = calloc(2, sizeof *choices);
	add_place(&choices[0], 0, 1);
	add_place(&choices[0], 1, 2);
	add_place(&choices[1], 1, 1);
	add_place(&choices[1], 0, 2);
	search_choose(choices, 2);
	assert_int_equal(choices[0].chosen, 0);
	assert_int_equal(choices[1].chosen, 0);
	free(choices);
}

static void
one_gives_way_where_that_is_cheaper_for_all(void **state)
{
	struct choice *choices = calloc(2, sizeof *choices);
	/* Both want place 0; the second would have to pay much more for another. */
	add_place(&choices[0], 0, 1);
	add_place(&choices[0], 1, 5);
	add_place(&choices[1], 0, 1);
	add_place(&choices[1], 2, 50);
	search_choose(choices, 2);
	assert_int_equal(choices[0].chosen, 1);
	assert_int_equal(choices[1].chosen, 0);
	free(choices);
}

static void
a_label_without_room_is_left_out_and_no_other(void **state)
{
	struct choice *choices = calloc(4, sizeof *choices);
	add_place(&choices[0], 0, 1);
	add_place(&choices[1], 0, 1);
	add_place(&choices[2], 5, 1);
	search_choose(choices, 4);
	assert_int_equal(choices[0].chosen + choices[1].chosen, -1);
	assert_int_equal(choices[2].chosen, 0);
	assert_int_equal(choices[3].chosen, -1);
	free(choices);
}

static void
places_clash_by_boxes_and_by_leaders(void **state)
{
	struct candidate one = {.box = {0, 0, 10, 10}}, other = {.box = {12, 0, 10, 10}};
	assert_true(candidates_clash(&one, &other)); /* 2 apart is too close */
	other.box.x = 20; /* the next word of a line would be no farther off */
	assert_false(candidates_clash(&one, &other));
	other.box.x = 16;
	assert_true(candidates_clash(&one, &other));
	other.box.y = 14; /* below, 3 will do */
	assert_false(candidates_clash(&one, &other));
	other.box = (struct box){20, 0, 10, 10};
	other.has_leader = true;
	other.leader = (struct segment){{20, 5}, {-20, 5}};
	assert_true(candidates_clash(&one, &other));
	assert_true(candidates_clash(&other, &one));
	other.leader = (struct segment){{20, 12}, {-20, 12}};
	assert_false(candidates_clash(&one, &other));
	one.has_leader = true;
	one.leader = (struct segment){{5, 10}, {5, 30}};
	assert_true(candidates_clash(&one, &other));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_gets_its_cheapest_place_where_they_are_not_in_the_way),
		cmocka_unit_test(one_gives_way_where_that_is_cheaper_for_all),
		cmocka_unit_test(a_label_without_room_is_left_out_and_no_other),
		cmocka_unit_test(places_clash_by_boxes_and_by_leaders),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
