/* Orders: taking back, asking back, pausing. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
hold_strikes_the_last_reading_and_says_which(void **state)
{
	SCENE("hold strikes the last reading and says which",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear length twenty eight",
	       "store taken +length twenty eight; answer taken; say taken: length twenty eight"},
	      {"hold", "store taken -length twenty eight; answer taken; say struck: struck length "
		       "twenty eight"},
	      {"hold",
	       "store taken -chest twenty one; answer taken; say struck: struck chest twenty one"},
	      {"hold", "store refused; answer refused; say refused: nothing to strike"});
}

static void
a_struck_reading_gives_way_to_the_one_before(void **state)
{
	SCENE("a struck reading gives way to the one before",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear chest twenty two", "store taken -chest twenty one +chest twenty two; answer "
					"taken; say taken: chest twenty two, was twenty one"},
	      {"hear strike that", "store taken -chest twenty two +chest twenty one; answer taken; "
				   "say struck: struck chest twenty two, back to twenty one"},
	      {"hear restore", "store taken -chest twenty one +chest twenty two; answer taken; say "
			       "taken: restored chest twenty two, was twenty one"},
	      {"hear restore", "store refused; answer refused; say refused: nothing was struck"});
}

static void
strike_measure_and_strike_flaw_name_what_goes(void **state)
{
	SCENE("strike measure and strike flaw name what goes",
	      {"hear chest twenty one + flaw hole cuff + flaw stain hem",
	       "store taken opened +chest twenty one; answer taken; store taken +flaw hole cuff; "
	       "answer taken; store taken +flaw stain hem; answer taken; say taken: chest twenty "
	       "one, flaw hole cuff, flaw stain hem"},
	      {"hear strike chest",
	       "store taken -chest twenty one; answer taken; say struck: struck chest twenty one"},
	      {"hear strike chest",
	       "store refused; answer refused; say refused: there is no chest to strike"},
	      {"hear strike flaw cuff",
	       "store taken -flaw hole cuff; answer taken; say struck: struck flaw hole cuff"},
	      {"hear strike flaw collar",
	       "store refused; answer refused; say refused: there is no such flaw to strike"});
}

static void
restore_over_a_later_reading_says_what_it_was(void **state)
{
	SCENE("restore over a later reading says what it was",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hold",
	       "store taken -chest twenty one; answer taken; say struck: struck chest twenty one"},
	      {"hear chest twenty two",
	       "store taken +chest twenty two; answer taken; say taken: chest twenty two"},
	      {"hear restore", "store taken -chest twenty two +chest twenty one; answer taken; say "
			       "taken: restored chest twenty one, was twenty two"});
}

static void
repeat_says_the_last_thing_again(void **state)
{
	SCENE("repeat says the last thing again",
	      {"double tap", "store taken; answer taken; say plain: nothing was said yet"},
	      {"hear chest twenty one + length twenty eight",
	       "store taken opened +chest twenty one; answer taken; store taken +length twenty "
	       "eight; answer taken; say taken: chest twenty one, length twenty eight"},
	      {"double tap",
	       "store taken; answer taken; say plain: chest twenty one, length twenty eight"},
	      {"double tap",
	       "store taken; answer taken; say plain: chest twenty one, length twenty eight"},
	      {"hear where am i",
	       "store taken; answer taken; say plain: an item without a number, two measures"},
	      {"hear repeat",
	       "store taken; answer taken; say plain: an item without a number, two measures"});
}

static void
repeat_asks_the_question_again(void **state)
{
	SCENE("repeat asks the question again",
	      {"hear chest twenty one + ?length thirteen/length thirty",
	       "store taken opened +chest twenty one; answer taken; store doubted; answer doubted; "
	       "say taken: chest twenty one; say doubted: thirteen or thirty?; listen question "
	       "length"},
	      {"hear repeat", "store taken; answer taken; say plain: chest twenty one; say "
			      "doubted: thirteen or thirty?"});
}

static void
read_it_all_and_what_is_missing_and_where_am_i(void **state)
{
	SCENE("read it all and what is missing and where am i",
	      {"hear read it all", "store taken; answer taken; say plain: nothing is in hand"},
	      {"hear what is missing", "store taken; answer taken; say plain: nothing is in hand"},
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear what is missing",
	       "store taken; answer taken; say plain: missing chest, length"},
	      {"hear chest twenty one + length none + bin twelve + flaw small hole left cuff",
	       "store taken +chest twenty one; answer taken; store taken +length none; answer "
	       "taken; store taken +bin twelve; answer taken; store taken +flaw small hole left "
	       "cuff; answer taken; say taken: chest twenty one, length none, bin twelve, flaw "
	       "small hole left cuff"},
	      {"hear what is missing", "store taken; answer taken; say plain: nothing is missing"},
	      {"hear read it all",
	       "store taken; answer taken; say plain: an item without a number, shirt, chest "
	       "twenty one, length none, bin twelve, flaw small hole left cuff"},
	      {"hear where am i", "store taken; answer taken; say plain: an item without a number, "
				  "shirt, bin twelve, two measures, one flaw"});
}

static void
strikes_are_restored_one_by_one_the_last_first(void **state)
{
	SCENE("strikes are restored one by one, the last first",
	      {"hear chest twenty one + length twenty eight + flaw hole cuff",
	       "store taken opened +chest twenty one; answer taken; store taken +length twenty "
	       "eight; answer taken; store taken +flaw hole cuff; answer taken; say taken: chest "
	       "twenty one, length twenty eight, flaw hole cuff"},
	      {"hear strike chest",
	       "store taken -chest twenty one; answer taken; say struck: struck chest twenty one"},
	      {"hold",
	       "store taken -flaw hole cuff; answer taken; say struck: struck flaw hole cuff"},
	      {"hold", "store taken -length twenty eight; answer taken; say struck: struck length "
		       "twenty eight"},
	      {"hear restore", "store taken +length twenty eight; answer taken; say taken: "
			       "restored length twenty eight"},
	      {"hear restore", "store taken +flaw hole cuff; answer taken; say taken: restored "
			       "flaw hole cuff"},
	      {"hear restore", "store taken +chest twenty one; answer taken; say taken: restored "
			       "chest twenty one"},
	      {"hear restore", "store refused; answer refused; say refused: nothing was struck"});
}

static void
what_is_missing_between_items_names_what_was_set_aside(void **state)
{
	SCENE("what is missing between items names what was set aside",
	      {"hear kind shirt + item seven",
	       "store taken opened +kind shirt; answer taken; find label 7; store taken +item "
	       "seven; answer taken; say taken: kind shirt, item seven"},
	      {"hear set aside", "store taken put aside; answer taken; say taken: item seven, "
				 "shirt, set aside, missing chest, length"},
	      {"hear kind shirt + chest twenty",
	       "store taken opened +kind shirt; answer taken; store taken +chest twenty; answer "
	       "taken; say taken: kind shirt, chest twenty"},
	      {"hear set aside", "store taken put aside; answer taken; say taken: an item without "
				 "a number, shirt, set aside, missing length"},
	      {"hear what is missing",
	       "store taken; answer taken; say plain: nothing is in hand, unfinished: item seven, "
	       "shirt, and an item without a number, shirt"},
	      {"hear previous", "find before 0; store taken; answer taken; say taken: an item "
				"without a number, shirt, missing length"},
	      {"hear length thirty",
	       "store taken reopened +length thirty; answer taken; say taken: length thirty"},
	      {"hear next", "store taken closed; answer taken; say taken: an item without a "
			    "number, shirt, done"},
	      {"hear what is missing",
	       "store taken; answer taken; say plain: nothing is in hand, unfinished: item seven, "
	       "shirt"});
}

static void
a_pause_hears_only_resume(void **state)
{
	SCENE("a pause hears only resume",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear pause", "store taken; answer taken; say paused: paused; listen paused"},
	      {"hear chest twenty one", ""},
	      {"tap", "store refused; answer refused; say refused: paused"}, {"time 30000", ""},
	      {"hear ?resume", "store refused; answer refused; say refused: "},
	      {"hear resume", "store taken; answer taken; say resumed: listening; say doubted: "
			      "thirteen or thirty?; listen question chest"},
	      {"hear first", "store taken opened +chest thirteen settles 1; answer taken; say "
			     "taken: chest thirteen; listen item"});
}

static void
a_long_hold_pauses_and_resumes(void **state)
{
	SCENE("a long hold pauses and resumes",
	      {"long hold", "store taken; answer taken; say paused: paused; listen paused"},
	      {"long hold", "store taken; answer taken; say resumed: listening; listen item"},
	      {"hear resume", "store taken; answer taken; say plain: listening"});
}

static void
help_says_what_is_open_at_the_moment(void **state)
{
	SCENE("help says what is open at the moment",
	      {"hear help", "store taken; answer taken; say plain: kind, item, bin, keep, "
			    "previous, open item, pause; help kinds"},
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear help measures", "store taken; answer taken; say plain: chest, length, sleeve"},
	      {"hear help flaws", "store taken; answer taken; say plain: hole, stain, mould"},
	      {"hear help parts",
	       "store taken; answer taken; say plain: cuff, collar, hem, front, back"},
	      {"hear help kinds",
	       "store taken; answer taken; say plain: shirt, trousers, scarf, set"},
	      {"hear help orders",
	       "store taken; answer taken; say plain: next, previous, repeat, strike that, "
	       "restore, read it all, what is missing, where am I, open item, set aside, these "
	       "belong to item, keep, ask me, stop asking, pause, resume"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear help",
	       "store taken; answer taken; say plain: first, second, yes, no, or say it again"},
	      {"long hold", "store taken; answer taken; say paused: paused; listen paused"});
}

static void
hand_over_names_who(void **state)
{
	SCENE("hand over names who", {"hear hand over to ada",
				      "store taken; answer taken; say taken: handed over to ada"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(hold_strikes_the_last_reading_and_says_which),
		cmocka_unit_test(a_struck_reading_gives_way_to_the_one_before),
		cmocka_unit_test(strike_measure_and_strike_flaw_name_what_goes),
		cmocka_unit_test(restore_over_a_later_reading_says_what_it_was),
		cmocka_unit_test(repeat_says_the_last_thing_again),
		cmocka_unit_test(repeat_asks_the_question_again),
		cmocka_unit_test(read_it_all_and_what_is_missing_and_where_am_i),
		cmocka_unit_test(strikes_are_restored_one_by_one_the_last_first),
		cmocka_unit_test(what_is_missing_between_items_names_what_was_set_aside),
		cmocka_unit_test(a_pause_hears_only_resume),
		cmocka_unit_test(a_long_hold_pauses_and_resumes),
		cmocka_unit_test(help_says_what_is_open_at_the_moment),
		cmocka_unit_test(hand_over_names_who),
	};
	return cmocka_run_group_tests_name("order", tests, NULL, NULL);
}
