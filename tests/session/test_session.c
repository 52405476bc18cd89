/* The conversation's frame: stored before answered, one at a time, silence when spoken to. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

static void
taken_is_said_only_after_the_store_has_said_stored(void **state)
{
	SCENE("taken is said only after the store has said stored", {"slow store", ""},
	      {"hear chest twenty one and a half",
	       "store taken opened +chest twenty one and a half"},
	      {"time 100", ""}, {"stored", "answer taken; say taken: chest twenty one and a half"});
}

static void
what_could_not_be_written_is_said_and_undone(void **state)
{
	SCENE("what could not be written is said and undone",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"disk full", ""},
	      {"hear chest twenty two",
	       "store taken -chest twenty one +chest twenty two; answer refused; say trouble: "
	       "chest twenty two not written: the disk is full"},
	      {"hear flaw hole cuff + length twenty eight",
	       "store taken +flaw hole cuff; answer refused; store taken +length twenty eight; "
	       "answer refused; say trouble: flaw hole cuff not written: the disk is full, length "
	       "twenty eight not written: the disk is full"},
	      {"hold", "store taken -chest twenty one; answer refused; say trouble: strike that "
		       "not written: the disk is full"},
	      {"disk free", ""},
	      {"hear chest twenty three",
	       "store taken -chest twenty one +chest twenty three; answer taken; say taken: chest "
	       "twenty three, was twenty one"});
}

static void
an_item_that_could_not_be_written_is_not_in_hand(void **state)
{
	SCENE("an item that could not be written is not in hand", {"disk full", ""},
	      {"hear kind shirt", "store taken opened +kind shirt; answer refused; say trouble: "
				  "kind shirt not written: the disk is full"},
	      {"hear next",
	       "store taken; answer refused; say trouble: not written: the disk is full"},
	      {"disk free", ""},
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"});
}

static void
calls_wait_their_turn_while_the_store_is_at_work(void **state)
{
	SCENE("calls wait their turn while the store is at work", {"slow store", ""},
	      {"hear chest twenty one", "store taken opened +chest twenty one"},
	      {"hear length twenty eight + sleeve nine", ""}, {"tap", ""},
	      {"stored",
	       "answer taken; say taken: chest twenty one; store taken +length twenty eight"},
	      {"stored", "answer taken; store taken +sleeve nine"},
	      {"stored",
	       "answer taken; say taken: length twenty eight, sleeve nine; store taken closed"},
	      {"stored", "answer taken; say taken: an item without a number, done"});
}

static void
the_calls_of_an_utterance_are_answered_one_by_one_and_said_together(void **state)
{
	SCENE("the calls of an utterance are answered one by one and said together",
	      {"hear chest twenty one + length twenty eight",
	       "store taken opened +chest twenty one; answer taken; store taken +length twenty "
	       "eight; answer taken; say taken: chest twenty one, length twenty eight"},
	      {"hear chest twenty two + ?length thirteen/length thirty + !sleeve nine",
	       "store taken -chest twenty one +chest twenty two; answer taken; store doubted; "
	       "answer doubted; store refused; answer refused; say taken: chest twenty two, was "
	       "twenty one; say refused: ; say doubted: thirteen or thirty?; listen question "
	       "length"});
}

static void
a_call_that_was_not_for_us_leaves_no_sound_and_no_trace(void **state)
{
	SCENE("a call that was not for us leaves no sound and no trace",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"noise", ""});
}

static void
a_near_call_gets_the_low_cue(void **state)
{
	SCENE("a near call gets the low cue",
	      {"near chest uh twenty", "store refused; answer refused; say refused: "});
}

static void
speech_and_the_pedal_silence_what_is_being_said(void **state)
{
	SCENE("speech and the pedal silence what is being said", {"speech", ""},
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"speech", "hush"}, {"speech", ""},
	      {"hear length twenty eight",
	       "store taken +length twenty eight; answer taken; say taken: length twenty eight"},
	      {"down", "hush"}, {"spoken", ""}, {"down", ""});
}

static void
what_went_wrong_is_said_again_when_speech_cut_it_short(void **state)
{
	SCENE("what went wrong is said again when speech cut it short", {"disk full", ""},
	      {"hear chest twenty one", "store taken opened +chest twenty one; answer refused; say "
					"trouble: chest twenty one not written: the disk is full"},
	      {"speech", "hush"}, {"disk free", ""},
	      {"hear length twenty eight",
	       "store taken opened +length twenty eight; answer taken; say taken: length twenty "
	       "eight; say trouble: chest twenty one not written: the disk is full"},
	      {"spoken", ""}, {"speech", ""},
	      {"hear sleeve nine",
	       "store taken +sleeve nine; answer taken; say taken: sleeve nine"});
}

static void
a_trouble_that_noise_cut_short_is_not_said_for_ever(void **state)
{
	SCENE("a trouble that noise cut short is not said for ever", {"disk full", ""},
	      {"hear chest twenty one", "store taken opened +chest twenty one; answer refused; say "
					"trouble: chest twenty one not written: the disk is full"},
	      {"speech", "hush"},
	      {"noise", "say trouble: chest twenty one not written: the disk is full"},
	      {"speech", "hush"},
	      {"noise", "say trouble: chest twenty one not written: the disk is full"},
	      {"speech", "hush"},
	      {"noise", "say trouble: chest twenty one not written: the disk is full"},
	      {"speech", "hush"}, {"noise", ""});
}

static void
an_utterance_with_a_hole_is_asked_again_not_guessed(void **state)
{
	SCENE("an utterance with a hole is asked again not guessed", {"lost", ""},
	      {"hear chest twenty one", "store refused; answer refused; say trouble: a piece of "
					"that was lost, say it again"},
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"});
}

static void
the_number_given_last_is_known_from_sessions_before(void **state)
{
	SCENE("the number given last is known from sessions before",
	      {"start after 99", "listen item"},
	      {"hear where am i", "store taken; answer taken; say plain: nothing is in hand, the "
				  "next number is one hundred"},
	      {"hear item ninety nine",
	       "find label 99; find label 100; store doubted; answer doubted; say doubted: ninety "
	       "nine is out of turn, next is one hundred: is that right?; listen question"},
	      {"hear yes", "find label 99; store taken opened +item ninety nine settles 2; answer "
			   "taken; say taken: item ninety nine; listen item"});
}

static void
an_open_item_is_gone_on_with(void **state)
{
	SCENE("an open item is gone on with",
	      {"hear kind shirt + item four eighty one",
	       "store taken opened +kind shirt; answer taken; find label 481; store taken +item "
	       "four eighty one; answer taken; say taken: kind shirt, item four eighty one"},
	      {"start again", "say plain: going on with item four eighty one, shirt; listen item"},
	      {"hear chest twenty one",
	       "store taken +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear next", "store taken; answer taken; say plain: missing length"},
	      {"hear next", "store taken put aside; answer taken; say taken: item four eighty one, "
			    "shirt, set aside, missing length"},
	      {"start again", "listen item"});
}

static void
the_pedal_is_marked_when_it_is_held(void **state)
{
	SCENE("the pedal is marked when it is held", {"down", ""}, {"held", "say held: "});
}

static void
the_session_ends_when_all_is_stored_and_said(void **state)
{
	SCENE("the session ends when all is stored and said", {"slow store", ""},
	      {"hear chest twenty one", "store taken opened +chest twenty one"}, {"stop", ""},
	      {"stored", "answer taken; say taken: chest twenty one"}, {"spoken", "ended"});
}

static void
the_session_ends_without_the_last_words_when_they_do_not_come(void **state)
{
	SCENE("the session ends without the last words when they do not come",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"stop", ""}, {"time 9000", ""}, {"time 2000", "ended"});
}

static void
a_correction_replaces_the_last_measure(void **state)
{
	SCENE("a correction replaces the last measure",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear flaw hole cuff",
	       "store taken +flaw hole cuff; answer taken; say taken: flaw hole cuff"},
	      {"hear no twenty two", "store taken -chest twenty one +chest twenty two; answer "
				     "taken; say taken: chest twenty two, was twenty one"},
	      {"hear no waist twenty two",
	       "store taken -chest twenty two +chest twenty one +waist twenty two; answer taken; "
	       "say taken: waist twenty two, was chest twenty two"},
	      {"hear waist twenty two", "store taken -waist twenty two +waist twenty two; answer "
					"taken; say taken: waist twenty two, was twenty two"},
	      {"hear no sleeve twenty two",
	       "store taken -waist twenty two +waist twenty two +sleeve twenty two; answer taken; "
	       "say taken: sleeve twenty two, was waist twenty two"});
}

static void
a_correction_after_a_strike_is_of_what_was_struck(void **state)
{
	SCENE("a correction after a strike is of what was struck",
	      {"hear length twenty eight + chest thirty one",
	       "store taken opened +length twenty eight; answer taken; store taken +chest thirty "
	       "one; answer taken; say taken: length twenty eight, chest thirty one"},
	      {"hold",
	       "store taken -chest thirty one; answer taken; say struck: struck chest thirty one"},
	      {"hear no twenty one",
	       "store taken +chest twenty one; answer taken; say taken: chest twenty one"});
}

static void
a_correction_inside_the_utterance_withdraws_nothing_else(void **state)
{
	SCENE("a correction inside the utterance withdraws nothing else",
	      {"hear chest twenty one",
	       "store taken opened +chest twenty one; answer taken; say taken: chest twenty one"},
	      {"hear waist twenty no sleeve twenty",
	       "store taken +sleeve twenty; answer taken; say taken: sleeve twenty"},
	      {"hear chest twenty two no",
	       "store taken; answer taken; say plain: nothing was written"},
	      {"hear no", "store refused; answer refused; say refused: nothing was asked"});
}

static void
a_bare_value_needs_something_that_it_can_be_of(void **state)
{
	SCENE("a bare value needs something that it can be of",
	      {"hear twenty one",
	       "store refused; answer refused; say refused: twenty one of what?"},
	      {"hear ?twenty one/thirty one",
	       "store refused; answer refused; say refused: twenty one of what?"},
	      {"hear no twenty one",
	       "store refused; answer refused; say refused: twenty one of what?"});
}

static void
flaw_none_is_not_written_beside_a_flaw(void **state)
{
	SCENE("flaw none is not written beside a flaw",
	      {"hear flaw none",
	       "store taken opened +flaw none; answer taken; say taken: flaw none"},
	      {"hear flaw hole cuff", "store taken -flaw none +flaw hole cuff; answer taken; say "
				      "taken: flaw hole cuff, was flaw none"},
	      {"hear flaw none",
	       "store refused; answer refused; say refused: there are flaws, strike them first"},
	      {"hear no flaw hole collar",
	       "store taken +flaw hole collar; answer taken; say taken: flaw hole collar"});
}

static void
the_read_back_is_as_long_as_wanted(void **state)
{
	static const struct {
		enum read_back read_back;
		const char *measure, *again, *none, *flaw;
	} cases[] = {
		{READ_BACK_TERSE, "twenty one", "twenty two, was twenty one", "waist none",
		 "hole cuff"},
		{READ_BACK_NORMAL, "chest twenty one", "chest twenty two, was twenty one",
		 "waist none", "flaw hole cuff"},
		{READ_BACK_FULL, "chest twenty one inches",
		 "chest twenty two inches, was twenty one", "waist none", "flaw hole cuff"},
	};
	for (size_t i = 0; i < sizeof(cases) / sizeof(cases[0]); i++) {
		struct session_setting setting = session_usual;
		char said[4][256];
		const char *texts[] = {cases[i].measure, cases[i].again, cases[i].none,
				       cases[i].flaw};
		const char *deeds[] = {" opened +chest twenty one",
				       " -chest twenty one +chest twenty two", " +waist none",
				       " +flaw hole cuff"};
		for (int n = 0; n < 4; n++)
			snprintf(said[n], sizeof(said[n]),
				 "store taken%s; answer taken; say taken: %s", deeds[n], texts[n]);
		setting.read_back = cases[i].read_back;
		scene_run_with(&setting, 0, "read-back",
			       (const struct row[]){{"hear chest twenty one", said[0]},
						    {"hear chest twenty two", said[1]},
						    {"hear waist none", said[2]},
						    {"hear flaw hole cuff", said[3]},
						    {NULL, NULL}});
	}
}

static void
what_does_not_fit_in_the_line_is_refused_aloud_and_not_stored(void **state)
{
	static struct scene scene;
	scene_begin(&scene, &session_usual, 0);
	scene_play(&scene, "slow store");
	scene_play(&scene, "hear chest twenty one");
	for (int i = 0; i < 31; i++)
		assert_string_equal(scene_play(&scene, "hear length twenty eight"), "");
	assert_string_equal(scene_play(&scene, "hear chest twenty + length thirty"),
			    "say trouble: say that again");
	assert_string_equal(scene_play(&scene, "tap"), "");
	assert_string_equal(scene_play(&scene, "tap"), "say trouble: say that again");
	for (int i = 0; i < 33; i++)
		scene_play(&scene, "stored");
	assert_int_equal(scene.store.call_count, 33);
	scene_end(&scene);
}

static void
an_item_that_is_full_says_so_and_keeps_what_it_has(void **state)
{
	static struct scene scene;
	scene_begin(&scene, &session_usual, 0);
	scene_play(&scene, "hear item seven");
	for (int i = 1; i < RECORD_ENTRIES_MAX; i++)
		scene_play(&scene, i % 2 ? "hear chest twenty one" : "hear chest twenty two");
	assert_string_equal(scene_play(&scene, "hear length twenty eight"),
			    "store refused; answer refused; "
			    "say refused: this item is full, nothing more fits");
	scene_check(
		&scene, "what does not fit is not moved",
		(const struct row[]){{"hear next", "store taken closed; answer taken; "
						   "say taken: item seven, done"},
				     {"hear length twenty eight",
				      "store taken opened +length twenty eight; answer taken; "
				      "say taken: length twenty eight"},
				     {"hear these belong to item seven",
				      "find label 7; store refused; answer refused; "
				      "say refused: it does not fit there, nothing was moved"},
				     {"hear read it all",
				      "store taken; answer taken; "
				      "say plain: an item without a number, length twenty eight"},
				     {NULL, NULL}});
	scene_end(&scene);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(taken_is_said_only_after_the_store_has_said_stored),
		cmocka_unit_test(what_could_not_be_written_is_said_and_undone),
		cmocka_unit_test(an_item_that_could_not_be_written_is_not_in_hand),
		cmocka_unit_test(calls_wait_their_turn_while_the_store_is_at_work),
		cmocka_unit_test(
			the_calls_of_an_utterance_are_answered_one_by_one_and_said_together),
		cmocka_unit_test(a_call_that_was_not_for_us_leaves_no_sound_and_no_trace),
		cmocka_unit_test(a_near_call_gets_the_low_cue),
		cmocka_unit_test(speech_and_the_pedal_silence_what_is_being_said),
		cmocka_unit_test(what_went_wrong_is_said_again_when_speech_cut_it_short),
		cmocka_unit_test(a_trouble_that_noise_cut_short_is_not_said_for_ever),
		cmocka_unit_test(an_utterance_with_a_hole_is_asked_again_not_guessed),
		cmocka_unit_test(the_number_given_last_is_known_from_sessions_before),
		cmocka_unit_test(an_open_item_is_gone_on_with),
		cmocka_unit_test(the_pedal_is_marked_when_it_is_held),
		cmocka_unit_test(the_session_ends_when_all_is_stored_and_said),
		cmocka_unit_test(the_session_ends_without_the_last_words_when_they_do_not_come),
		cmocka_unit_test(a_correction_replaces_the_last_measure),
		cmocka_unit_test(a_correction_after_a_strike_is_of_what_was_struck),
		cmocka_unit_test(a_correction_inside_the_utterance_withdraws_nothing_else),
		cmocka_unit_test(a_bare_value_needs_something_that_it_can_be_of),
		cmocka_unit_test(flaw_none_is_not_written_beside_a_flaw),
		cmocka_unit_test(the_read_back_is_as_long_as_wanted),
		cmocka_unit_test(what_does_not_fit_in_the_line_is_refused_aloud_and_not_stored),
		cmocka_unit_test(an_item_that_is_full_says_so_and_keeps_what_it_has),
	};
	return cmocka_run_group_tests_name("session", tests, NULL, NULL);
}
