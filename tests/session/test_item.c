/* Which item is in hand. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
an_item_is_made_by_the_first_call_that_writes(void **state)
{
	SCENE("an item is made by the first call that writes",
	      {"hear where am i", "store taken; answer taken; say plain: nothing is in hand"},
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear length twenty eight",
	       "store taken +length twenty eight; answer taken; say taken: length twenty eight"});
}

static void
next_with_measures_missing_says_which_and_again_sets_aside(void **state)
{
	SCENE("next with measures missing says which and again sets aside",
	      {"hear kind shirt + chest twenty one",
	       "store taken opened +kind shirt; answer taken; store taken +chest twenty one; "
	       "answer taken; say taken: kind shirt, chest twenty one"},
	      {"hear next", "store taken; answer taken; say plain: missing length"},
	      {"tap", "store taken put aside; answer taken; say taken: an item without a number, "
		      "shirt, set aside, missing length"},
	      {"hear where am i", "store taken; answer taken; say plain: nothing is in hand"});
}

static void
next_after_something_else_says_again_what_is_missing(void **state)
{
	SCENE("next after something else says again what is missing",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear next", "store taken; answer taken; say plain: missing chest, length"},
	      {"hear chest twenty one",
	       "store taken +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear next", "store taken; answer taken; say plain: missing length"},
	      {"hear length twenty eight",
	       "store taken +length twenty eight; answer taken; say taken: length twenty eight"},
	      {"hear next", "store taken closed; answer taken; say taken: an item without a "
			    "number, shirt, done"});
}

static void
next_on_an_item_of_which_nothing_was_said_changes_nothing(void **state)
{
	SCENE("next on an item of which nothing was said changes nothing",
	      {"tap", "store taken; answer taken; say plain: nothing is in hand"},
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hold",
	       "store taken -chest twenty one; answer taken; say struck: struck chest twenty one"},
	      {"tap", "store taken; answer taken; say plain: an item without a number, nothing was "
		      "said of it"});
}

static void
an_item_does_not_close_over_an_open_doubt_without_saying_so(void **state)
{
	SCENE("an item does not close over an open doubt without saying so",
	      {"hear kind scarf",
	       "store taken opened +kind scarf; answer taken; say taken: kind scarf"},
	      {"hear ?maker marlock/maker hallowick", "store doubted; answer doubted; say doubted: "
						      "marlock or hallowick?; listen question"},
	      {"hear next", "store taken; answer taken; say plain: a question stands; say doubted: "
			    "marlock or hallowick?"},
	      {"hear next",
	       "store taken closed; answer taken; say plain: kept for the desk: maker marlock or "
	       "hallowick; say taken: an item without a number, scarf, done; listen item"},
	      {"hear where am i", "store taken; answer taken; say plain: nothing is in hand"});
}

static void
previous_opens_the_item_before_and_next_comes_back(void **state)
{
	SCENE("previous opens the item before and next comes back",
	      {"hear kind shirt + item seven",
	       "store taken opened +kind shirt; answer taken; find label 7; store taken +item "
	       "seven; answer taken; say taken: kind shirt, item seven"},
	      {"hear next", "store taken; answer taken; say plain: missing chest, length"},
	      {"hear next", "store taken put aside; answer taken; say taken: item seven, shirt, "
			    "set aside, missing chest, length"},
	      {"hear kind trousers + item eight",
	       "store taken opened +kind trousers; answer taken; find label 8; store taken +item "
	       "eight; answer taken; say taken: kind trousers, item eight"},
	      {"hear previous", "find before 2; store taken; answer taken; say taken: item seven, "
				"shirt, missing chest, length"},
	      {"hear chest twenty",
	       "store taken reopened +chest twenty; answer taken; say taken: chest twenty"},
	      {"hear next", "store taken; answer taken; say plain: missing length"},
	      {"hear next",
	       "find item 2; store taken put aside; answer taken; say taken: item seven, shirt, "
	       "set aside, missing length, back to item eight, trousers"},
	      {"hear waist sixteen",
	       "store taken +waist sixteen; answer taken; say taken: waist sixteen"});
}

static void
an_item_only_looked_at_is_left_as_it_was(void **state)
{
	SCENE("an item only looked at is left as it was",
	      {"hear kind scarf + item seven",
	       "store taken opened +kind scarf; answer taken; find label 7; store taken +item "
	       "seven; answer taken; say taken: kind scarf, item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, scarf, done"},
	      {"hear previous",
	       "find before 0; store taken; answer taken; say taken: item seven, scarf"},
	      {"hear next", "store taken; answer taken; say taken: item seven, scarf, as it was"},
	      {"hear previous",
	       "find before 0; store taken; answer taken; say taken: item seven, scarf"},
	      {"hear previous", "find before 1; store refused; answer refused; say refused: there "
				"is no item before"});
}

static void
open_item_reaches_any_item_and_keeps_its_history(void **state)
{
	SCENE("open item reaches any item and keeps its history",
	      {"hear kind scarf + item seven",
	       "store taken opened +kind scarf; answer taken; find label 7; store taken +item "
	       "seven; answer taken; say taken: kind scarf, item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, scarf, done"},
	      {"hear kind scarf + item eight",
	       "store taken opened +kind scarf; answer taken; find label 8; store taken +item "
	       "eight; answer taken; say taken: kind scarf, item eight"},
	      {"hear open item seven",
	       "find label 7; store taken; answer taken; say taken: item seven, scarf"},
	      {"hear length sixty",
	       "store taken reopened +length sixty; answer taken; say taken: length sixty"},
	      {"hear open item eight",
	       "find label 8; store taken closed; answer taken; say taken: item eight, scarf"},
	      {"hear open item eight",
	       "find label 8; store taken; answer taken; say plain: item eight is in hand"},
	      {"hear open item nine",
	       "find label 9; store refused; answer refused; say refused: there is no item nine"});
}

static void
leaving_an_item_keeps_its_doubts_for_the_desk(void **state)
{
	SCENE("leaving an item keeps its doubts for the desk",
	      {"hear kind scarf + item seven",
	       "store taken opened +kind scarf; answer taken; find label 7; store taken +item "
	       "seven; answer taken; say taken: kind scarf, item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, scarf, done"},
	      {"hear kind scarf + item eight",
	       "store taken opened +kind scarf; answer taken; find label 8; store taken +item "
	       "eight; answer taken; say taken: kind scarf, item eight"},
	      {"hear ?maker marlock/maker hallowick", "store doubted; answer doubted; say doubted: "
						      "marlock or hallowick?; listen question"},
	      {"hear open item seven",
	       "find label 7; store taken; answer taken; say plain: kept for the desk: maker "
	       "marlock or hallowick; say taken: item seven, scarf; listen item"});
}

static void
set_aside_puts_it_aside_whatever_is_missing(void **state)
{
	SCENE("set aside puts it aside whatever is missing",
	      {"hear set aside",
	       "store refused; answer refused; say refused: nothing is in hand to set aside"},
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear set aside", "store taken put aside; answer taken; say taken: an item without "
				 "a number, shirt, set aside, missing chest, length"});
}

static void
a_number_is_given_once(void **state)
{
	SCENE("a number is given once",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear item seven", "find label 7; find label 8; store refused; answer refused; say "
				  "refused: seven is taken, eight is free"},
	      {"hear item eight",
	       "find label 8; store taken +item eight; answer taken; say taken: item eight"});
}

static void
another_number_for_a_garment_that_was_measured_is_doubted(void **state)
{
	SCENE("another number for a garment that was measured is doubted",
	      {"hear item seven + kind scarf",
	       "find label 7; store taken opened +item seven; answer taken; store taken +kind "
	       "scarf; answer taken; say taken: item seven, kind scarf"},
	      {"hear item eight", "find label 8; store taken -item seven +item eight; answer "
				  "taken; say taken: item eight, was seven"},
	      {"hear length sixty",
	       "store taken +length sixty; answer taken; say taken: length sixty"},
	      {"hear item nine",
	       "find label 9; store doubted; answer doubted; say doubted: item eight is in hand: "
	       "is it to be nine?; listen question"},
	      {"hear no", "store taken settles 5; answer taken; say struck: dropped: item nine; "
			  "listen item"},
	      {"hear item nine",
	       "find label 9; store doubted; answer doubted; say doubted: item eight is in hand: "
	       "is it to be nine?; listen question"},
	      {"hear yes", "find label 9; store taken -item eight +item nine settles 7; answer "
			   "taken; say taken: item nine, was eight; listen item"});
}

static void
the_number_that_was_to_come_is_taken_though_half_heard(void **state)
{
	SCENE("the number that was to come is taken though half heard",
	      {"hear item eight", "find label 8; store taken opened +item eight; answer taken; say "
				  "taken: item eight"},
	      {"hear kind scarf", "store taken +kind scarf; answer taken; say taken: kind scarf"},
	      {"tap", "store taken closed; answer taken; say taken: item eight, scarf, done"},
	      {"hear ?item nine/item five", "find label 9; store taken opened +item nine; answer "
					    "taken; say taken: item nine"});
}

static void
a_number_out_of_turn_is_doubted(void **state)
{
	SCENE("a number out of turn is doubted",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear item nine",
	       "find label 9; find label 8; store doubted; answer doubted; say doubted: nine is "
	       "out of turn, next is eight: is that right?; listen question"},
	      {"hear yes", "find label 9; store taken opened +item nine settles 3; answer taken; "
			   "say taken: item nine; listen item"},
	      {"hear next", "store taken closed; answer taken; say taken: item nine, done"},
	      {"hear item eleven",
	       "find label 11; find label 10; store doubted; answer doubted; say doubted: eleven "
	       "is out of turn, next is ten: is that right?; listen question"},
	      {"hear item ten", "find label 10; store taken opened +item ten settles 6; answer "
				"taken; say taken: item ten; listen item"});
}

static void
a_number_taken_back_may_be_given_again(void **state)
{
	SCENE("a number taken back may be given again",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear item eight",
	       "find label 8; store taken opened +item eight; answer taken; say taken: item eight"},
	      {"hold", "store taken -item eight; answer taken; say struck: struck item eight"},
	      {"hear item eight",
	       "find label 8; store taken +item eight; answer taken; say taken: item eight"});
}

static void
what_was_dictated_to_the_wrong_item_moves(void **state)
{
	SCENE("what was dictated to the wrong item moves",
	      {"hear kind scarf + item seven",
	       "store taken opened +kind scarf; answer taken; find label 7; store taken +item "
	       "seven; answer taken; say taken: kind scarf, item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, scarf, done"},
	      {"hear kind scarf + item eight",
	       "store taken opened +kind scarf; answer taken; find label 8; store taken +item "
	       "eight; answer taken; say taken: kind scarf, item eight"},
	      {"hear open item seven",
	       "find label 7; store taken; answer taken; say taken: item seven, scarf"},
	      {"hear length sixty + flaw hole hem",
	       "store taken reopened +length sixty; answer taken; store taken +flaw hole hem; "
	       "answer taken; say taken: length sixty, flaw hole hem"},
	      {"hear these belong to item eight",
	       "find label 8; store taken +length sixty +flaw hole hem from 1 closed -length sixty "
	       "-flaw hole hem; answer taken; say taken: two moved to item eight"},
	      {"hear read it all", "store taken; answer taken; say plain: item eight, scarf, "
				   "length sixty, flaw hole hem"},
	      {"hear next", "store taken closed; answer taken; say taken: item eight, scarf, done"},
	      {"hear open item seven",
	       "find label 7; store taken; answer taken; say taken: item seven, scarf"},
	      {"hear read it all", "store taken; answer taken; say plain: item seven, scarf"});
}

static void
they_move_to_a_new_item_when_there_is_none_of_that_number(void **state)
{
	SCENE("they move to a new item when there is none of that number",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear kind scarf + length sixty",
	       "store taken +kind scarf; answer taken; store taken +length sixty; answer taken; "
	       "say taken: kind scarf, length sixty"},
	      {"hear these belong to item eight",
	       "find label 8; store taken opened +kind scarf +length sixty +item eight from 1 "
	       "-kind scarf -length sixty; answer taken; say taken: two moved to the new item "
	       "eight"},
	      {"hear read it all",
	       "store taken; answer taken; say plain: item eight, scarf, length sixty"},
	      {"hear strike that",
	       "store taken -kind scarf -length sixty -item eight; answer taken; say struck: "
	       "struck kind scarf, length sixty, item eight"},
	      {"hear these belong to item eight",
	       "find label 8; store refused; answer refused; say refused: nothing was dictated "
	       "that could move"});
}

static void
what_is_kept_goes_into_the_new_item_that_a_move_makes(void **state)
{
	SCENE("what is kept goes into the new item that a move makes",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear keep bin twelve",
	       "store taken; answer taken; say taken: bin twelve from here on"},
	      {"hear open item seven",
	       "find label 7; store taken; answer taken; say taken: item seven"},
	      {"hear length sixty",
	       "store taken reopened +length sixty; answer taken; say taken: length sixty"},
	      {"hear these belong to item eight",
	       "find label 8; store taken opened +length sixty +item eight +bin twelve from 1 "
	       "closed -length sixty; answer taken; say taken: one moved to the new item eight, "
	       "bin twelve"},
	      {"hold", "store taken -length sixty -item eight; answer taken; say struck: struck "
		       "length sixty, item eight"},
	      {"hear read it all",
	       "store taken; answer taken; say plain: an item without a number, bin twelve"});
}

static void
a_move_to_the_wrong_item_can_be_moved_on(void **state)
{
	SCENE("a move to the wrong item can be moved on",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear item eight",
	       "find label 8; store taken opened +item eight; answer taken; say taken: item eight"},
	      {"hear next", "store taken closed; answer taken; say taken: item eight, done"},
	      {"hear length sixty",
	       "store taken opened +length sixty; answer taken; say taken: length sixty"},
	      {"hear these belong to item seven",
	       "find label 7; store taken reopened +length sixty from 3 put aside -length sixty; "
	       "answer taken; say taken: one moved to item seven"},
	      {"hear these belong to item eight",
	       "find label 8; store taken reopened +length sixty from 1 closed -length sixty; "
	       "answer taken; say taken: one moved to item eight"},
	      {"hear where am i", "store taken; answer taken; say plain: item eight, one measure"});
}

static void
a_move_that_could_not_be_written_moves_nothing(void **state)
{
	SCENE("a move that could not be written moves nothing",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear length sixty",
	       "store taken opened +length sixty; answer taken; say taken: length sixty"},
	      {"disk full", ""},
	      {"hear these belong to item seven",
	       "find label 7; store taken reopened +length sixty from 2 put aside -length sixty; "
	       "answer refused; say trouble: these belong to item seven not written: the disk is "
	       "full"},
	      {"disk free", ""},
	      {"hear read it all",
	       "store taken; answer taken; say plain: an item without a number, length sixty"},
	      {"hear these belong to item seven",
	       "find label 7; store taken reopened +length sixty from 2 put aside -length sixty; "
	       "answer taken; say taken: one moved to item seven"});
}

static void
nothing_moves_where_nothing_was_dictated(void **state)
{
	SCENE("nothing moves where nothing was dictated",
	      {"hear these belong to item seven",
	       "store refused; answer refused; say refused: nothing is in hand"},
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear these belong to item eight",
	       "find label 8; store refused; answer refused; say refused: nothing was dictated "
	       "that could move"},
	      {"hear these belong to item seven",
	       "find label 7; store refused; answer refused; say refused: item seven is in hand"});
}

static void
a_number_that_was_struck_is_free_until_the_item_was_closed_under_it(void **state)
{
	SCENE("a number that was struck is free until the item was closed under it",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hold", "store taken -item seven; answer taken; say struck: struck item seven"},
	      {"hear chest twenty one",
	       "store taken +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear next",
	       "store taken closed; answer taken; say taken: an item without a number, done"},
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear open item seven",
	       "find label 7; store taken; answer taken; say taken: item seven"},
	      {"hold",
	       "store taken reopened -item seven; answer taken; say struck: struck item seven"},
	      {"hear set aside", "store taken put aside; answer taken; say taken: an item without "
				 "a number, set aside"},
	      {"hear item seven", "find label 7; store taken opened +item seven; answer refused; "
				  "say trouble: item seven not written: it was already used"});
}

static void
a_number_that_was_restored_is_the_last_again(void **state)
{
	SCENE("a number that was restored is the last again",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hold", "store taken -item seven; answer taken; say struck: struck item seven"},
	      {"hear restore",
	       "store taken +item seven; answer taken; say taken: restored item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear where am i", "store taken; answer taken; say plain: nothing is in hand, the "
				  "next number is eight"});
}

static void
a_number_given_away_since_is_not_restored(void **state)
{
	SCENE("a number given away since is not restored",
	      {"hear kind scarf",
	       "store taken opened +kind scarf; answer taken; say taken: kind scarf"},
	      {"hear item seven",
	       "find label 7; store taken +item seven; answer taken; say taken: item seven"},
	      {"hold", "store taken -item seven; answer taken; say struck: struck item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: an item without a "
			    "number, scarf, done"},
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear previous", "find before 0; store taken; answer taken; say taken: item seven"},
	      {"hear previous", "find before 2; store taken; answer taken; say taken: an item "
				"without a number, scarf"},
	      {"hear restore", "store taken reopened +item seven; answer refused; say trouble: "
			       "restore not written: it was already used"});
}

static void
the_free_number_that_is_offered_is_not_the_taken_one(void **state)
{
	SCENE("the free number that is offered is not the taken one",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear next", "store taken closed; answer taken; say taken: item seven, done"},
	      {"hear item six",
	       "find label 6; find label 8; store doubted; answer doubted; say doubted: six is out "
	       "of turn, next is eight: is that right?; listen question"},
	      {"hear yes", "find label 6; store taken opened +item six settles 3; answer taken; "
			   "say taken: item six; listen item"},
	      {"hear next", "store taken closed; answer taken; say taken: item six, done"},
	      {"hear item seven", "find label 7; find label 7; find label 8; store refused; answer "
				  "refused; say refused: seven is taken, eight is free"});
}

static void
a_move_to_a_new_item_out_of_turn_is_doubted(void **state)
{
	SCENE("a move to a new item out of turn is doubted",
	      {"hear item seven",
	       "find label 7; store taken opened +item seven; answer taken; say taken: item seven"},
	      {"hear length sixty",
	       "store taken +length sixty; answer taken; say taken: length sixty"},
	      {"hear these belong to item nine",
	       "find label 9; store doubted; answer doubted; say doubted: item nine is new and out "
	       "of turn: is that right?; listen question"},
	      {"hear yes",
	       "find label 9; store taken opened +length sixty +item nine settles 3 from 1 -length "
	       "sixty; answer taken; say taken: one moved to the new item nine; listen item"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(an_item_is_made_by_the_first_call_that_writes),
		cmocka_unit_test(next_with_measures_missing_says_which_and_again_sets_aside),
		cmocka_unit_test(next_after_something_else_says_again_what_is_missing),
		cmocka_unit_test(next_on_an_item_of_which_nothing_was_said_changes_nothing),
		cmocka_unit_test(an_item_does_not_close_over_an_open_doubt_without_saying_so),
		cmocka_unit_test(previous_opens_the_item_before_and_next_comes_back),
		cmocka_unit_test(an_item_only_looked_at_is_left_as_it_was),
		cmocka_unit_test(open_item_reaches_any_item_and_keeps_its_history),
		cmocka_unit_test(leaving_an_item_keeps_its_doubts_for_the_desk),
		cmocka_unit_test(set_aside_puts_it_aside_whatever_is_missing),
		cmocka_unit_test(a_number_is_given_once),
		cmocka_unit_test(another_number_for_a_garment_that_was_measured_is_doubted),
		cmocka_unit_test(the_number_that_was_to_come_is_taken_though_half_heard),
		cmocka_unit_test(a_number_out_of_turn_is_doubted),
		cmocka_unit_test(a_number_taken_back_may_be_given_again),
		cmocka_unit_test(what_was_dictated_to_the_wrong_item_moves),
		cmocka_unit_test(they_move_to_a_new_item_when_there_is_none_of_that_number),
		cmocka_unit_test(what_is_kept_goes_into_the_new_item_that_a_move_makes),
		cmocka_unit_test(a_move_to_the_wrong_item_can_be_moved_on),
		cmocka_unit_test(a_move_that_could_not_be_written_moves_nothing),
		cmocka_unit_test(nothing_moves_where_nothing_was_dictated),
		cmocka_unit_test(
			a_number_that_was_struck_is_free_until_the_item_was_closed_under_it),
		cmocka_unit_test(a_number_that_was_restored_is_the_last_again),
		cmocka_unit_test(a_number_given_away_since_is_not_restored),
		cmocka_unit_test(the_free_number_that_is_offered_is_not_the_taken_one),
		cmocka_unit_test(a_move_to_a_new_item_out_of_turn_is_doubted),
	};
	return cmocka_run_group_tests_name("item", tests, NULL, NULL);
}
