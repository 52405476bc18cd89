/* Sets: one number, several pieces. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
what_is_said_of_a_piece_is_written_under_its_name(void **state)
{
	SCENE("what is said of a piece is written under its name",
	      {"hear kind set", "store taken opened +kind set; answer taken; say taken: kind set"},
	      {"hear chest twenty one",
	       "store refused; answer refused; say refused: of which part? "
	       "say part, and its kind"},
	      {"hear part shirt + chest twenty one",
	       "store taken +part shirt; answer taken; store taken +shirt chest twenty one; answer "
	       "taken; say taken: part shirt, shirt chest twenty one"},
	      {"hear part trousers", "store taken -part shirt +part trousers; answer taken; say "
				     "taken: part trousers, was "
				     "shirt"},
	      {"hear waist sixteen",
	       "store taken +trousers waist sixteen; answer taken; say taken: "
	       "trousers waist sixteen"},
	      {"hear flaw hole left hem", "store taken +flaw hole left trousers hem; answer taken; "
					  "say taken: flaw hole left trousers hem"},
	      {"hear flaw stain", "store taken +flaw stain trousers; answer taken; say taken: flaw "
				  "stain trousers"},
	      {"hear strike waist",
	       "store taken -trousers waist sixteen; answer taken; say struck: "
	       "struck trousers waist sixteen"},
	      {"hear no seventeen", "store taken +trousers waist seventeen; answer taken; say "
				    "taken: trousers waist seventeen"},
	      {"hear what is missing",
	       "store taken; answer taken; say plain: missing shirt length, "
	       "trousers inseam"});
}

static void
next_asks_for_the_parts_and_for_what_each_lacks(void **state)
{
	SCENE("next asks for the parts and for what each lacks",
	      {"hear kind set", "store taken opened +kind set; answer taken; say taken: kind set"},
	      {"hear next", "store taken; answer taken; say plain: missing its parts"},
	      {"hear part shirt", "store taken +part shirt; answer taken; say taken: part shirt"},
	      {"hear next",
	       "store taken; answer taken; say plain: missing shirt chest, shirt length"});
}

static void
only_a_set_has_parts(void **state)
{
	SCENE("only a set has parts",
	      {"hear kind shirt",
	       "store taken opened +kind shirt; answer taken; say taken: kind shirt"},
	      {"hear part trousers", "store refused; answer refused; say refused: only a set has "
				     "parts: say kind set first"},
	      {"hear chest twenty",
	       "store taken +chest twenty; answer taken; say taken: chest twenty"});
}

static void
the_station_asks_for_the_measures_of_the_piece(void **state)
{
	SCENE("the station asks for the measures of the piece",
	      {"hear kind set + part shirt",
	       "store taken opened +kind set; answer taken; store taken +part shirt; answer taken; "
	       "say taken: kind set, part shirt"},
	      {"hear ask me", "store taken; answer taken; say plain: chest?; listen asked chest"},
	      {"hear twenty", "store taken +shirt chest twenty; answer taken; say taken: "
			      "twenty; say plain: length?; listen asked length"},
	      {"hear part trousers", "store taken -part shirt +part trousers; answer taken; say "
				     "taken: part trousers, was "
				     "shirt; say plain: waist?; listen asked waist"});
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_said_of_a_piece_is_written_under_its_name),
		cmocka_unit_test(next_asks_for_the_parts_and_for_what_each_lacks),
		cmocka_unit_test(only_a_set_has_parts),
		cmocka_unit_test(the_station_asks_for_the_measures_of_the_piece),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
