/* Doubts, and the questions about them. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
a_doubt_is_stored_and_asked_and_first_writes_it(void **state)
{
	SCENE("a doubt is stored and asked and first writes it",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear first", "store taken opened +chest thirteen settles 1; answer taken; say "
			     "taken: chest thirteen; listen item"},
	      {"hear chest twenty", "store taken -chest thirteen +chest twenty; answer taken; say "
				    "taken: chest twenty, was thirteen"});
}

static void
second_writes_the_runner_up(void **state)
{
	SCENE("second writes the runner up",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear second", "store taken opened +chest thirty settles 1; answer taken; say "
			      "taken: chest thirty; listen item"});
}

static void
a_tap_is_first_while_a_question_stands(void **state)
{
	SCENE("a tap is first while a question stands",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"tap", "store taken opened +chest thirteen settles 1; answer taken; say taken: "
		      "chest thirteen; listen item"},
	      {"tap",
	       "store taken closed; answer taken; say taken: an item without a number, done"});
}

static void
without_a_runner_up_yes_writes_it_and_there_is_no_second(void **state)
{
	SCENE("without a runner up yes writes it and there is no second",
	      {"hear ?chest thirteen", "store doubted; answer doubted; say doubted: chest "
				       "thirteen?; listen question chest"},
	      {"hear second", "store refused; answer refused; say refused: there is no second; say "
			      "doubted: chest thirteen?"},
	      {"hear yes", "store taken opened +chest thirteen settles 1; answer taken; say taken: "
			   "chest thirteen; listen item"});
}

static void
no_and_strike_that_and_hold_drop_it(void **state)
{
	SCENE("no and strike that and hold drop it",
	      {"hear chest twenty",
	       "store taken opened +chest twenty; answer taken; say taken: chest twenty"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear no", "store taken settles 2; answer taken; say struck: dropped: chest "
			  "thirteen or thirty; listen item"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear strike that", "store taken settles 4; answer taken; say struck: dropped: "
				   "chest thirteen or thirty; listen item"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hold", "store taken settles 6; answer taken; say struck: dropped: chest thirteen "
		       "or thirty; listen item"},
	      {"hold", "store taken -chest twenty; answer taken; say struck: struck chest twenty"});
}

static void
saying_the_call_again_answers_with_or_without_its_name(void **state)
{
	SCENE("saying the call again answers with or without its name",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear chest thirty", "store taken opened +chest thirty settles 1; answer taken; say "
				    "taken: chest thirty; listen item"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear thirteen", "store taken -chest thirty +chest thirteen settles 3; answer "
				"taken; say taken: chest thirteen, was thirty; listen item"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear chest fourteen",
	       "store taken -chest thirteen +chest fourteen settles 5; answer taken; say taken: "
	       "chest fourteen, was thirteen; listen item"},
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear no thirty", "store taken -chest fourteen +chest thirty settles 7; answer "
				 "taken; say taken: chest thirty, was fourteen; listen item"});
}

static void
a_bare_value_tells_which_measure_was_meant(void **state)
{
	SCENE("a bare value tells which measure was meant",
	      {"hear ?chest thirteen/waist sixteen",
	       "store doubted; answer doubted; say doubted: chest thirteen, or waist sixteen?; "
	       "listen question chest"},
	      {"hear sixteen", "store taken opened +waist sixteen settles 1; answer taken; say "
			       "taken: waist sixteen; listen item"});
}

static void
doubted_again_it_is_asked_again(void **state)
{
	SCENE("doubted again it is asked again",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear ?chest thirty/chest thirteen",
	       "store doubted settles 1; answer doubted; say doubted: thirty or thirteen?"},
	      {"hear first", "store taken opened +chest thirty settles 2; answer taken; say taken: "
			     "chest thirty; listen item"});
}

static void
questions_are_asked_one_at_a_time_in_order(void **state)
{
	SCENE("questions are asked one at a time in order",
	      {"hear ?chest thirteen/chest thirty + ?length fifteen/length fifty",
	       "store doubted; answer doubted; store doubted; answer doubted; say doubted: "
	       "thirteen or thirty?; listen question chest"},
	      {"hear second",
	       "store taken opened +chest thirty settles 1; answer taken; say taken: chest thirty; "
	       "say doubted: fifteen or fifty?; listen question length"},
	      {"hear first", "store taken +length fifteen settles 2; answer taken; say taken: "
			     "length fifteen; listen item"});
}

static void
a_question_that_waits_can_be_answered_by_saying_its_call_again(void **state)
{
	SCENE("a question that waits can be answered by saying its call again",
	      {"hear ?chest thirteen/chest thirty + ?length fifteen/length fifty",
	       "store doubted; answer doubted; store doubted; answer doubted; say doubted: "
	       "thirteen or thirty?; listen question chest"},
	      {"hear length fifty",
	       "store taken opened +length fifty settles 2; answer taken; say taken: length fifty"},
	      {"hear first", "store taken +chest thirteen settles 1; answer taken; say taken: "
			     "chest thirteen; listen item"});
}

static void
any_other_call_is_taken_while_the_question_stands(void **state)
{
	SCENE("any other call is taken while the question stands",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear length twenty eight", "store taken opened +length twenty eight; answer taken; "
					   "say taken: length twenty eight"},
	      {"hear first", "store taken +chest thirteen settles 1; answer taken; say taken: "
			     "chest thirteen; listen item"});
}

static void
a_question_that_was_cut_short_is_asked_again_after_the_answer(void **state)
{
	SCENE("a question that was cut short is asked again after the answer",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"speech", "hush"},
	      {"hear length twenty eight",
	       "store taken opened +length twenty eight; answer taken; say taken: length twenty "
	       "eight; say doubted: thirteen or thirty?"},
	      {"spoken", ""}, {"speech", ""},
	      {"hear sleeve nine",
	       "store taken +sleeve nine; answer taken; say taken: sleeve nine"});
}

static void
a_question_that_noise_cut_short_is_asked_again_but_not_for_longer(void **state)
{
	SCENE("a question that noise cut short is asked again but not for longer",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"time 15000", ""}, {"speech", "hush"}, {"noise", "say doubted: thirteen or thirty?"},
	      {"time 6000", "say plain: kept for the desk: chest thirteen or thirty; listen item"});
}

static void
unanswered_it_is_kept_for_the_desk_and_said_to_be(void **state)
{
	SCENE("unanswered it is kept for the desk and said to be",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"time 19999", ""},
	      {"time 1", "say plain: kept for the desk: chest thirteen or thirty; listen item"},
	      {"hear first", "store refused; answer refused; say refused: nothing was asked"});
}

static void
an_answer_under_way_when_the_time_is_up_still_counts(void **state)
{
	SCENE("an answer under way when the time is up still counts",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"time 19000", ""}, {"speech", "hush"}, {"time 1500", ""},
	      {"hear first", "store taken opened +chest thirteen settles 1; answer taken; say "
			     "taken: chest thirteen; listen item"});
}

static void
noise_when_the_time_is_up_does_not_prolong_the_doubt(void **state)
{
	SCENE("noise when the time is up does not prolong the doubt",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"spoken", ""}, {"time 18000", ""}, {"speech", ""}, {"time 1500", ""},
	      {"noise", "say plain: kept for the desk: chest thirteen or thirty; listen item"});
}

static void
calls_that_pass_it_by_do_not_prolong_the_doubt(void **state)
{
	SCENE("calls that pass it by do not prolong the doubt",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"time 9000", ""}, {"speech", "hush"},
	      {"hear length twenty", "store taken opened +length twenty; answer taken; say taken: "
				     "length twenty; say doubted: thirteen or thirty?"},
	      {"time 8000", ""}, {"speech", "hush"},
	      {"hear sleeve nine",
	       "store taken +sleeve nine; answer taken; say taken: sleeve nine; say plain: kept "
	       "for the desk: chest thirteen or thirty; listen item"});
}

static void
asked_for_again_the_doubt_stands_as_long_again(void **state)
{
	SCENE("asked for again the doubt stands as long again",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"time 18000", ""},
	      {"double tap", "store taken; answer taken; say doubted: thirteen or thirty?"},
	      {"time 18000", ""},
	      {"tap", "store taken opened +chest thirteen settles 1; answer taken; say taken: "
		      "chest thirteen; listen item"});
}

static void
that_it_is_kept_for_the_desk_is_said_again_when_speech_cut_it_short(void **state)
{
	SCENE("that it is kept for the desk is said again when speech cut it short",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"time 20000", "say plain: kept for the desk: chest thirteen or thirty; listen item"},
	      {"speech", "hush"},
	      {"hear length twenty",
	       "store taken opened +length twenty; answer taken; say taken: length twenty; say "
	       "plain: kept for the desk: chest thirteen or thirty"},
	      {"spoken", ""}, {"speech", ""},
	      {"hear sleeve nine",
	       "store taken +sleeve nine; answer taken; say taken: sleeve nine"});
}

static void
the_next_question_follows_one_that_was_not_answered(void **state)
{
	SCENE("the next question follows one that was not answered",
	      {"hear ?chest thirteen/chest thirty + ?length fifteen",
	       "store doubted; answer doubted; store doubted; answer doubted; say doubted: "
	       "thirteen or thirty?; listen question chest"},
	      {"time 20000", "say plain: kept for the desk: chest thirteen or thirty; say doubted: "
			     "length fifteen?; listen question length"},
	      {"time 20000", "say plain: kept for the desk: length fifteen; listen item"});
}

static void
a_doubted_order_is_asked_about_and_done(void **state)
{
	SCENE("a doubted order is asked about and done",
	      {"hear chest twenty",
	       "store taken opened +chest twenty; answer taken; say taken: chest twenty"},
	      {"hear ?strike that/set aside", "store doubted; answer doubted; say doubted: strike "
					      "that or set aside?; listen question"},
	      {"hear first", "store taken -chest twenty settles 2; answer taken; say struck: "
			     "struck chest twenty; listen item"},
	      {"hear ?next", "store doubted; answer doubted; say doubted: next?; listen question"},
	      {"hear ?next", "store doubted settles 4; answer doubted; say doubted: next?"},
	      {"hear no",
	       "store taken settles 5; answer taken; say struck: dropped: next; listen item"});
}

static void
a_doubted_answer_is_no_answer(void **state)
{
	SCENE("a doubted answer is no answer",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"hear ?first", "store refused; answer refused; say refused: say that again; say "
			      "doubted: thirteen or thirty?"},
	      {"hear first", "store taken opened +chest thirteen settles 1; answer taken; say "
			     "taken: chest thirteen; listen item"});
}

static void
the_answer_that_could_not_be_written_leaves_the_question(void **state)
{
	SCENE("the answer that could not be written leaves the question",
	      {"hear ?chest thirteen/chest thirty", "store doubted; answer doubted; say doubted: "
						    "thirteen or thirty?; listen question chest"},
	      {"disk full", ""},
	      {"hear first", "store taken opened +chest thirteen settles 1; answer refused; say "
			     "trouble: chest thirteen not written: the disk is full"},
	      {"disk free", ""},
	      {"hear first", "store taken opened +chest thirteen settles 1; answer taken; say "
			     "taken: chest thirteen; listen item"});
}

static void
the_ninth_question_is_kept_for_the_desk_at_once(void **state)
{
	SCENE("the ninth question is kept for the desk at once",
	      {"hear ?chest thirteen + ?length thirteen + ?sleeve thirteen + ?waist thirteen",
	       "store doubted; answer doubted; store doubted; answer doubted; store doubted; "
	       "answer doubted; store doubted; answer doubted; say doubted: chest thirteen?; "
	       "listen question chest"},
	      {"hear ?inseam thirteen + ?maker marlock + ?route sale + ?kind shirt",
	       "store doubted; answer doubted; store doubted; answer doubted; store doubted; "
	       "answer doubted; store doubted; answer doubted; say doubted: chest thirteen?"},
	      {"hear ?flaw hole cuff",
	       "store doubted; answer doubted; say plain: kept for the desk: flaw hole cuff"});
}

static void
an_amount_that_can_be_two_is_asked(void **state)
{
	SCENE("an amount that can be two is asked",
	      {"hear price two forty", "store doubted; answer doubted; say doubted: two dollars "
				       "forty or two hundred forty dollars?; listen question"},
	      {"hear second",
	       "store taken opened +price two hundred forty dollars settles 1; answer taken; say "
	       "taken: price two hundred forty dollars; listen item"},
	      {"hear cost nine oh five",
	       "store taken +cost nine oh five; answer taken; say taken: cost nine oh five"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_doubt_is_stored_and_asked_and_first_writes_it),
		cmocka_unit_test(second_writes_the_runner_up),
		cmocka_unit_test(a_tap_is_first_while_a_question_stands),
		cmocka_unit_test(without_a_runner_up_yes_writes_it_and_there_is_no_second),
		cmocka_unit_test(no_and_strike_that_and_hold_drop_it),
		cmocka_unit_test(saying_the_call_again_answers_with_or_without_its_name),
		cmocka_unit_test(a_bare_value_tells_which_measure_was_meant),
		cmocka_unit_test(doubted_again_it_is_asked_again),
		cmocka_unit_test(questions_are_asked_one_at_a_time_in_order),
		cmocka_unit_test(a_question_that_waits_can_be_answered_by_saying_its_call_again),
		cmocka_unit_test(any_other_call_is_taken_while_the_question_stands),
		cmocka_unit_test(a_question_that_was_cut_short_is_asked_again_after_the_answer),
		cmocka_unit_test(a_question_that_noise_cut_short_is_asked_again_but_not_for_longer),
		cmocka_unit_test(unanswered_it_is_kept_for_the_desk_and_said_to_be),
		cmocka_unit_test(calls_that_pass_it_by_do_not_prolong_the_doubt),
		cmocka_unit_test(asked_for_again_the_doubt_stands_as_long_again),
		cmocka_unit_test(an_answer_under_way_when_the_time_is_up_still_counts),
		cmocka_unit_test(noise_when_the_time_is_up_does_not_prolong_the_doubt),
		cmocka_unit_test(
			that_it_is_kept_for_the_desk_is_said_again_when_speech_cut_it_short),
		cmocka_unit_test(the_next_question_follows_one_that_was_not_answered),
		cmocka_unit_test(a_doubted_order_is_asked_about_and_done),
		cmocka_unit_test(a_doubted_answer_is_no_answer),
		cmocka_unit_test(the_answer_that_could_not_be_written_leaves_the_question),
		cmocka_unit_test(the_ninth_question_is_kept_for_the_desk_at_once),
		cmocka_unit_test(an_amount_that_can_be_two_is_asked),
	};
	return cmocka_run_group_tests_name("question", tests, NULL, NULL);
}
