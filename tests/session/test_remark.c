/* What is said besides, when something was written down. */
#include "scene.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void
a_flaw_that_spreads_brings_its_caution(void **state)
{
	SCENE("a flaw that spreads brings its caution",
	      {"hear flaw mould hem",
	       "store taken opened +flaw mould hem; answer taken; say taken: "
	       "flaw mould hem: isolate it"},
	      {"hear flaw hole", "store taken +flaw hole; answer taken; say taken: flaw hole"});
}

static void
a_cloth_that_does_not_add_up_is_written_and_told(void **state)
{
	SCENE("a cloth that does not add up is written and told",
	      {"hear cloth sixty percent cotton thirty percent linen",
	       "store taken opened +cloth sixty percent cotton thirty percent linen; answer taken; "
	       "say taken: cloth sixty percent cotton thirty percent linen, that is ninety "
	       "percent"});
}

static void
facts_of_several_names_replace_each_other_whole(void **state)
{
	SCENE("facts of several names replace each other whole",
	      {"hear care wash thirty dry flat",
	       "store taken opened +care wash thirty dry flat; answer taken; say taken: care wash "
	       "thirty dry flat"},
	      {"hear care dry flat",
	       "store taken -care wash thirty dry flat +care dry flat; answer "
	       "taken; say taken: care dry flat, was wash thirty dry flat"},
	      {"hear keep group children", "store taken +group children; answer taken; say taken: "
					   "group children from here on"});
}

static void
whether_mending_pays_is_said_once_both_are_known(void **state)
{
	struct session_setting setting = session_usual;
	setting.mending_hour_minor = 1200;
	static const struct row rows[] = {
		{"hear mending new zip thirty minutes materials twelve fifty",
		 "store taken opened +mending new zip thirty minutes materials twelve fifty; "
		 "answer taken; say taken: mending new zip thirty minutes materials twelve "
		 "fifty"},
		{"hear price twenty dollars",
		 "store taken +price twenty dollars; answer taken; say taken: price twenty "
		 "dollars, mended it leaves one dollar fifty"},
		{"hear price eighteen fifty",
		 "store taken -price twenty dollars +price eighteen fifty; answer taken; say "
		 "taken: price eighteen fifty, was twenty dollars, not worth mending, it leaves "
		 "nothing"},
		{"hear price ten dollars",
		 "store taken -price eighteen fifty +price ten dollars; answer taken; say "
		 "taken: price ten dollars, was eighteen fifty, not worth mending, it costs "
		 "eight dollars fifty more than it brings"},
		{NULL, NULL}};
	scene_run_with(&setting, 0, "whether mending pays is said once both are known", rows);
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_flaw_that_spreads_brings_its_caution),
		cmocka_unit_test(a_cloth_that_does_not_add_up_is_written_and_told),
		cmocka_unit_test(facts_of_several_names_replace_each_other_whole),
		cmocka_unit_test(whether_mending_pays_is_said_once_both_are_known),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
