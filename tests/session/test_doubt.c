/* What was heard well but is doubted by what it says. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
an_unusual_value_is_asked_about_and_yes_takes_it(void **state)
{
	SCENE_WITH(SCENE_RANGES, "an unusual value is asked about and yes takes it",
		   {"hear chest thirty one",
		    "store doubted; answer doubted; say doubted: chest thirty one inches is more "
		    "than usual: inches or centimetres?; listen question chest"},
		   {"hear yes", "store taken opened +chest thirty one settles 1; answer taken; say "
				"taken: chest thirty one; listen item"},
		   {"hear chest thirty one", "store taken -chest thirty one +chest thirty one; "
					     "answer taken; say taken: chest thirty one"});
}

static void
an_unusual_value_with_another_unit_has_a_second(void **state)
{
	SCENE_WITH(SCENE_RANGES, "an unusual value with another unit has a second",
		   {"hear chest forty",
		    "store doubted; answer doubted; say doubted: chest forty inches is more than "
		    "usual: inches or centimetres?; listen question chest"},
		   {"hear second", "store taken opened +chest forty centimetres settles 1; answer "
				   "taken; say taken: chest forty centimetres; listen item"});
}

static void
an_impossible_value_is_taken_only_when_it_is_said_again(void **state)
{
	SCENE_WITH(
		SCENE_RANGES, "an impossible value is taken only when it is said again",
		{"hear length three",
		 "store doubted; answer doubted; say doubted: length three inches is less than any "
		 "garment: say it again; listen question length"},
		{"hear yes", "store refused; answer refused; say refused: say it again; say "
			     "doubted: length three inches is less than any garment: say it again"},
		{"tap", "store refused; answer refused; say refused: say it again; say doubted: "
			"length three inches is less than any garment: say it again"},
		{"hear length three", "store taken opened +length three settles 1; answer taken; "
				      "say taken: length three; listen item"});
}

static void
an_impossible_value_may_have_been_in_the_other_unit(void **state)
{
	SCENE_WITH(SCENE_RANGES, "an impossible value may have been in the other unit",
		   {"hear chest fifty",
		    "store doubted; answer doubted; say doubted: chest fifty inches is more than "
		    "any garment: centimetres?; listen question chest"},
		   {"tap", "store taken opened +chest fifty centimetres settles 1; answer taken; "
			   "say taken: chest fifty centimetres; listen item"});
}

static void
another_value_answers_the_doubt(void **state)
{
	SCENE_WITH(SCENE_RANGES, "another value answers the doubt",
		   {"hear chest fifty",
		    "store doubted; answer doubted; say doubted: chest fifty inches is more than "
		    "any garment: centimetres?; listen question chest"},
		   {"hear chest twenty", "store taken opened +chest twenty settles 1; answer "
					 "taken; say taken: chest twenty; listen item"},
		   {"hear chest fifty one",
		    "store doubted; answer doubted; say doubted: chest fifty one inches is more "
		    "than any garment: centimetres?; listen question chest"},
		   {"hear fifty two", "store doubted settles 3; answer doubted; say doubted: chest "
				      "fifty two inches is more than any garment: centimetres?"},
		   {"hear no twenty one",
		    "store taken -chest twenty +chest twenty one settles 4; answer taken; say "
		    "taken: chest twenty one, was twenty; listen item"});
}

static void
an_item_just_like_the_one_before_is_asked_about(void **state)
{
	SCENE_WITH(SCENE_RANGES, "an item just like the one before is asked about",
		   {"hear kind shirt + chest twenty one + length twenty eight",
		    "store taken opened +kind shirt; answer taken; store taken +chest twenty one; "
		    "answer taken; store taken +length twenty eight; answer taken; say taken: kind "
		    "shirt, chest twenty one, length twenty eight"},
		   {"hear next", "store taken closed; answer taken; say taken: an item without a "
				 "number, shirt, done"},
		   {"hear kind shirt + chest twenty one + length twenty eight",
		    "store taken opened +kind shirt; answer taken; store taken +chest twenty one; "
		    "answer taken; store doubted; answer doubted; say taken: kind shirt, chest "
		    "twenty one; say doubted: length twenty eight inches, again the same as the "
		    "item before: is that right?; listen question length"},
		   {"hear yes", "store taken +length twenty eight settles 7; answer taken; say "
				"taken: length twenty eight; listen item"});
}

static void
a_bin_off_the_list_is_asked_about(void **state)
{
	SCENE_WITH(SCENE_BINS, "a bin off the list is asked about",
		   {"hear bin twelve",
		    "store taken opened +bin twelve; answer taken; say taken: bin twelve"},
		   {"hear bin four eighty two",
		    "store doubted; answer doubted; say doubted: bin four eighty two is not on the "
		    "list: is that right?; listen question"},
		   {"hear yes", "store taken -bin twelve +bin four eighty two settles 2; answer "
				"taken; say taken: bin four eighty two, was twelve; listen item"},
		   {"hear bin four eighty three",
		    "store doubted; answer doubted; say doubted: bin four eighty three is not on "
		    "the list: is that right?; listen question"},
		   {"hear bin thirteen",
		    "store taken -bin four eighty two +bin thirteen settles 4; answer taken; say "
		    "taken: bin thirteen, was four eighty two; listen item"});
}

static void
what_is_said_of_a_doubt_is_no_second_reading(void **state)
{
	SCENE_WITH(
		SCENE_BINS, "what is said of a doubt is no second reading",
		{"hear bin twenty", "store doubted; answer doubted; say doubted: bin twenty is not "
				    "on the list: is that right?; listen question"},
		{"hear second", "store refused; answer refused; say refused: there is no second; "
				"say doubted: bin twenty is not on the list: is that right?"},
		{"hear no", "store taken settles 1; answer taken; say struck: dropped: bin twenty; "
			    "listen item"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(an_unusual_value_is_asked_about_and_yes_takes_it),
		cmocka_unit_test(an_unusual_value_with_another_unit_has_a_second),
		cmocka_unit_test(an_impossible_value_is_taken_only_when_it_is_said_again),
		cmocka_unit_test(an_impossible_value_may_have_been_in_the_other_unit),
		cmocka_unit_test(another_value_answers_the_doubt),
		cmocka_unit_test(an_item_just_like_the_one_before_is_asked_about),
		cmocka_unit_test(a_bin_off_the_list_is_asked_about),
		cmocka_unit_test(what_is_said_of_a_doubt_is_no_second_reading),
	};
	return cmocka_run_group_tests_name("doubt", tests, NULL, NULL);
}
