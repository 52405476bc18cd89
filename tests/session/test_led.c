/* The station asks. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
ask_me_names_the_next_missing_measure_and_a_bare_value_answers(void **state)
{
	SCENE("ask me names the next missing measure and a bare value answers",
	      {"hear ask me", "store taken; answer taken; say plain: say the kind, then I ask"},
	      {"hear kind shirt", "store taken opened +kind shirt; answer taken; say taken: kind "
				  "shirt; say plain: chest?; listen asked chest"},
	      {"hear twenty one", "store taken +chest twenty one; answer taken; say taken: "
				  "twenty one; say plain: length?; listen asked length"},
	      {"hear twenty eight", "store taken +length twenty eight; answer taken; say taken: "
				    "twenty eight; say plain: that is all; listen item"},
	      {"tap", "store taken closed; answer taken; say taken: an item without a number, "
		      "shirt, done"});
}

static void
any_call_is_taken_in_between_without_asking_again(void **state)
{
	SCENE("any call is taken in between without asking again",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"hear flaw hole cuff",
	       "store taken +flaw hole cuff; answer taken; say taken: flaw hole cuff"},
	      {"hear length twenty eight",
	       "store taken +length twenty eight; answer taken; say taken: length twenty eight"},
	      {"hear twenty one", "store taken +chest twenty one; answer taken; say taken: "
				  "twenty one; say plain: that is all; listen item"});
}

static void
a_tap_skips_and_what_was_skipped_is_still_missing(void **state)
{
	SCENE("a tap skips and what was skipped is still missing",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"tap", "store taken; answer taken; say plain: length?; listen asked length"},
	      {"hear twenty eight", "store taken +length twenty eight; answer taken; say taken: "
				    "twenty eight; say plain: that is all; listen item"},
	      {"hear next", "store taken; answer taken; say plain: missing chest"},
	      {"hear next", "store taken put aside; answer taken; say taken: an item without a "
			    "number, shirt, set aside, missing chest"});
}

static void
a_doubted_answer_is_asked_about_before_the_next_measure(void **state)
{
	SCENE("a doubted answer is asked about before the next measure",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"hear ?thirteen/thirty", "store doubted; answer doubted; say doubted: thirteen or "
					"thirty?; listen question chest"},
	      {"hear second", "store taken +chest thirty settles 3; answer taken; say taken: chest "
			      "thirty; say plain: length?; listen asked length"});
}

static void
full_names_the_measure_even_when_it_was_asked_for(void **state)
{
	struct session_setting full = session_usual;
	full.read_back = READ_BACK_FULL;
	scene_run_with(&full, 0, "full names the measure even when it was asked for",
		       (const struct row[]){
			       {"hear kind shirt", "store taken opened +kind shirt; answer taken; "
						   "say taken: kind shirt"},
			       {"hear ask me",
				"store taken; answer taken; say plain: chest?; listen asked chest"},
			       {"hear twenty one",
				"store taken +chest twenty one; answer taken; say taken: chest "
				"twenty one inches; say plain: length?; listen asked length"},
			       {NULL, NULL}});
}

static void
none_answers_too(void **state)
{
	SCENE("none answers too",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"hear none", "store taken +chest none; answer taken; say taken: chest none; say "
			    "plain: length?; listen asked length"});
}

static void
the_measure_is_asked_again_when_speech_cut_it_short(void **state)
{
	SCENE("the measure is asked again when speech cut it short",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"speech", "hush"},
	      {"hear flaw hole cuff", "store taken +flaw hole cuff; answer taken; say taken: flaw "
				      "hole cuff; say plain: chest?"},
	      {"spoken", ""}, {"speech", ""}, {"noise", ""});
}

static void
stop_asking_gives_the_lead_back(void **state)
{
	SCENE("stop asking gives the lead back",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"hear stop asking", "store taken; answer taken; say plain: you lead; listen item"},
	      {"hear twenty one",
	       "store refused; answer refused; say refused: twenty one of what?"});
}

static void
strike_that_asks_for_it_again(void **state)
{
	SCENE("strike that asks for it again",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"hear twenty one", "store taken +chest twenty one; answer taken; say taken: "
				  "twenty one; say plain: length?; listen asked length"},
	      {"hold", "store taken -chest twenty one; answer taken; say struck: struck chest "
		       "twenty one; say plain: chest?; listen asked chest"});
}

static void
what_was_skipped_of_one_kind_is_asked_for_of_another(void **state)
{
	SCENE("what was skipped of one kind is asked for of another",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"tap", "store taken; answer taken; say plain: length?; listen asked length"},
	      {"tap", "store taken; answer taken; say plain: that is all; listen item"},
	      {"hear kind trousers",
	       "store taken -kind shirt +kind trousers; answer taken; say taken: kind trousers, "
	       "was shirt; say plain: waist?; listen asked waist"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(ask_me_names_the_next_missing_measure_and_a_bare_value_answers),
		cmocka_unit_test(any_call_is_taken_in_between_without_asking_again),
		cmocka_unit_test(a_tap_skips_and_what_was_skipped_is_still_missing),
		cmocka_unit_test(a_doubted_answer_is_asked_about_before_the_next_measure),
		cmocka_unit_test(full_names_the_measure_even_when_it_was_asked_for),
		cmocka_unit_test(none_answers_too),
		cmocka_unit_test(the_measure_is_asked_again_when_speech_cut_it_short),
		cmocka_unit_test(stop_asking_gives_the_lead_back),
		cmocka_unit_test(strike_that_asks_for_it_again),
		cmocka_unit_test(what_was_skipped_of_one_kind_is_asked_for_of_another),
	};
	return cmocka_run_group_tests_name("led", tests, NULL, NULL);
}
