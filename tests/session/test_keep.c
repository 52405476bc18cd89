/* Facts that hold for every item. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
what_is_kept_is_written_into_each_new_item_and_said(void **state)
{
	SCENE("what is kept is written into each new item and said",
	      {"hear keep bin twelve",
	       "store taken; answer taken; say taken: bin twelve from here on"},
	      {"hear keep maker marlock",
	       "store taken; answer taken; say taken: maker marlock from here on"},
	      {"hear kind scarf", "store taken opened +kind scarf +bin twelve +maker marlock; "
				  "answer taken; say taken: kind scarf, bin twelve, maker marlock"},
	      {"hear next", "store taken closed; answer taken; say taken: an item without a "
			    "number, scarf, done"},
	      {"hear kind scarf + bin eleven",
	       "store taken opened +kind scarf +bin twelve +maker marlock; answer taken; store "
	       "taken -bin twelve +bin eleven; answer taken; say taken: kind scarf, bin twelve, "
	       "maker marlock, bin eleven, was twelve"},
	      {"hear next", "store taken closed; answer taken; say taken: an item without a "
			    "number, scarf, done"},
	      {"hear keep nothing", "store taken; answer taken; say taken: nothing is kept"},
	      {"hear kind scarf",
	       "store taken opened +kind scarf; answer taken; say taken: kind scarf"});
}

static void
kept_again_it_replaces(void **state)
{
	SCENE("kept again it replaces",
	      {"hear keep bin twelve",
	       "store taken; answer taken; say taken: bin twelve from here on"},
	      {"hear keep bin eleven",
	       "store taken; answer taken; say taken: bin eleven from here on"},
	      {"hear kind scarf", "store taken opened +kind scarf +bin eleven; answer taken; say "
				  "taken: kind scarf, bin eleven"});
}

static void
the_item_in_hand_gets_it_unless_something_else_was_said_of_it(void **state)
{
	SCENE("the item in hand gets it unless something else was said of it",
	      {"hear kind scarf",
	       "store taken opened +kind scarf; answer taken; say taken: kind scarf"},
	      {"hear keep bin twelve",
	       "store taken +bin twelve; answer taken; say taken: bin twelve from here on"},
	      {"hear keep bin eleven",
	       "store taken; answer taken; say taken: bin eleven from here on"},
	      {"hear read it all", "store taken; answer taken; say plain: an item without a "
				   "number, scarf, bin twelve"});
}

static void
strike_that_leaves_what_is_kept(void **state)
{
	SCENE("strike that leaves what is kept",
	      {"hear keep bin twelve",
	       "store taken; answer taken; say taken: bin twelve from here on"},
	      {"hear kind scarf", "store taken opened +kind scarf +bin twelve; answer taken; say "
				  "taken: kind scarf, bin twelve"},
	      {"hold", "store taken -kind scarf; answer taken; say struck: struck kind scarf"},
	      {"hold", "store refused; answer refused; say refused: nothing to strike"},
	      {"hear read it all",
	       "store taken; answer taken; say plain: an item without a number, bin twelve"});
}

static void
a_kept_bin_off_the_list_is_doubted(void **state)
{
	SCENE_WITH(SCENE_BINS, "a kept bin off the list is doubted",
		   {"hear keep bin fourteen",
		    "store doubted; answer doubted; say doubted: bin fourteen is not on the list: "
		    "is that right?; listen question"},
		   {"hear yes", "store taken settles 1; answer taken; say taken: bin fourteen from "
				"here on; listen item"},
		   {"hear kind scarf", "store taken opened +kind scarf +bin fourteen; answer "
				       "taken; say taken: kind scarf, bin fourteen"},
		   {"hear bin eleven", "store taken -bin fourteen +bin eleven; answer taken; say "
				       "taken: bin eleven, was fourteen"},
		   {"hear bin fifteen", "store doubted; answer doubted; say doubted: bin fifteen "
					"is not on the list: is that right?; listen question"},
		   {"hear no", "store taken settles 5; answer taken; say struck: dropped: bin "
			       "fifteen; listen item"});
}

static void
what_could_not_be_written_is_not_kept(void **state)
{
	SCENE("what could not be written is not kept", {"disk full", ""},
	      {"hear keep bin twelve",
	       "store taken; answer refused; say trouble: not written: the disk is full"},
	      {"disk free", ""},
	      {"hear kind scarf",
	       "store taken opened +kind scarf; answer taken; say taken: kind scarf"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_kept_is_written_into_each_new_item_and_said),
		cmocka_unit_test(kept_again_it_replaces),
		cmocka_unit_test(the_item_in_hand_gets_it_unless_something_else_was_said_of_it),
		cmocka_unit_test(strike_that_leaves_what_is_kept),
		cmocka_unit_test(a_kept_bin_off_the_list_is_doubted),
		cmocka_unit_test(what_could_not_be_written_is_not_kept),
	};
	return cmocka_run_group_tests_name("keep", tests, NULL, NULL);
}
