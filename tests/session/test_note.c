/* Sound that is kept for the desk. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
a_note_is_stored_at_once_and_any_gesture_ends_it(void **state)
{
	SCENE("a note is stored at once and any gesture ends it",
	      {"hear kind scarf",
	       "store taken opened +kind scarf; answer taken; say taken: kind scarf"},
	      {"hear note",
	       "store taken +note; answer taken; note note of call 2; say taken: note"},
	      {"hear chest twenty one", ""}, {"hold", "listen item; store taken; answer taken"},
	      {"noted", "say taken: note kept for the desk"},
	      {"hold", "store taken -note; answer taken; say struck: struck note"});
}

static void
sixty_seconds_end_a_note_and_it_is_said(void **state)
{
	SCENE("sixty seconds end a note and it is said",
	      {"hear note",
	       "store taken opened +note; answer taken; note note of call 1; say taken: note"},
	      {"time 59999", ""}, {"time 1", "listen item"},
	      {"noted", "say taken: the time is up, note kept for the desk"});
}

static void
the_listener_may_end_it_first(void **state)
{
	SCENE("the listener may end it first",
	      {"hear maker other", "store taken opened +maker other; answer taken; note maker of "
				   "call 1; say taken: maker other"},
	      {"noted", "say taken: maker kept for the desk; listen item"},
	      {"hear flaw other cuff", "store taken +flaw other cuff; answer taken; note flaw of "
				       "call 2; say taken: flaw other cuff"},
	      {"noted", "say taken: flaw kept for the desk; listen item"});
}

static void
a_note_that_could_not_be_kept_is_said(void **state)
{
	SCENE("a note that could not be kept is said",
	      {"hear note",
	       "store taken opened +note; answer taken; note note of call 1; say taken: note"},
	      {"down", "hush"}, {"tap", "listen item; store taken; answer taken"},
	      {"noted badly", "say trouble: note not kept: the disk is full"});
}

static void
a_question_waits_for_the_end_of_the_note(void **state)
{
	SCENE("a question waits for the end of the note",
	      {"hear ?chest thirteen/chest thirty + note",
	       "store doubted; answer doubted; store taken opened +note; answer taken; note note "
	       "of call 2; say taken: note"},
	      {"tap", "listen item; store taken; answer taken"},
	      {"noted", "say taken: note kept for the desk; say doubted: thirteen or thirty?; "
			"listen question chest"});
}

static void
what_follows_note_in_one_breath_is_the_note(void **state)
{
	SCENE("what follows note in one breath is the note",
	      {"hear chest twenty one + note + length twenty eight",
	       "store taken opened +chest twenty one; answer taken; store taken +note; answer "
	       "taken; note note of call 2; say taken: chest twenty one, note"},
	      {"tap", "listen item; store taken; answer taken"},
	      {"noted", "say taken: note kept for the desk"},
	      {"hear read it all", "store taken; answer taken; say plain: an item without a "
				   "number, chest twenty one, note"});
}

static void
a_gesture_that_was_waiting_ends_the_note(void **state)
{
	SCENE("a gesture that was waiting ends the note", {"slow store", ""},
	      {"hear note", "store taken opened +note"}, {"tap", ""},
	      {"stored",
	       "answer taken; note note of call 1; say taken: note; listen item; store taken"},
	      {"stored", "answer taken"}, {"noted", "say taken: note kept for the desk"});
}

static void
no_sound_is_waited_for_when_the_session_ends(void **state)
{
	SCENE("no sound is waited for when the session ends", {"slow store", ""},
	      {"hear note", "store taken opened +note"}, {"stop", ""},
	      {"stored", "answer taken; say taken: note"}, {"spoken", "ended"});
}

static void
a_recorder_that_does_not_answer_has_not_kept_it(void **state)
{
	SCENE("a recorder that does not answer has not kept it",
	      {"hear note",
	       "store taken opened +note; answer taken; note note of call 1; say taken: note"},
	      {"tap", "listen item; store taken; answer taken"}, {"time 9999", ""},
	      {"time 1", "say trouble: note not kept: the recorder does not answer"});
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_note_is_stored_at_once_and_any_gesture_ends_it),
		cmocka_unit_test(sixty_seconds_end_a_note_and_it_is_said),
		cmocka_unit_test(the_listener_may_end_it_first),
		cmocka_unit_test(a_note_that_could_not_be_kept_is_said),
		cmocka_unit_test(a_question_waits_for_the_end_of_the_note),
		cmocka_unit_test(what_follows_note_in_one_breath_is_the_note),
		cmocka_unit_test(a_gesture_that_was_waiting_ends_the_note),
		cmocka_unit_test(no_sound_is_waited_for_when_the_session_ends),
		cmocka_unit_test(a_recorder_that_does_not_answer_has_not_kept_it),
	};
	return cmocka_run_group_tests_name("note", tests, NULL, NULL);
}
