#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "spell_figures.h"

#include <string.h>

static void
figures_are_said_as_they_would_be(void **state)
{
	static const struct {
		const char *text, *words;
	} cases[] = {
		{"", ""},
		{"Dark Blue", "dark blue"},
		{"60 % cotton, 40% linen", "sixty percent cotton forty percent linen"},
		{"100 % wool", "one hundred percent wool"},
		{"3-4", "three four"},
		{"32x30", "thirty two by thirty"},
		{"small hole, left cuff", "small hole left cuff"},
		{"stain 4 cm, front", "stain four centimetres front"},
		{"hole 1/2 in", "hole half inch"},
		{"hole 1 1/2 in, hem", "hole one and a half inches hem"},
		{"hole 21.50 cm", "hole twenty one point five zero centimetres"},
		{"4 in", "four inches"},
		{"4", "four"},
		{"4 inside", "four inside"},
		{"1/3 in", "1/3 in"}, /* no length: as it stands, and then no call either */
		{"in", "in"},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char words[256];
		assert_true(spell_figures(cases[i].text, words, sizeof words));
		assert_string_equal(words, cases[i].words);
	}
}

static void
what_does_not_fit_is_not_cut(void **state)
{
	char words[16], much[4096];
	assert_false(spell_figures("seventeen 17 seventeen", words, sizeof words));
	memset(much, 'a', sizeof much - 1);
	much[sizeof much - 1] = '\0';
	assert_false(spell_figures(much, words, sizeof words));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(figures_are_said_as_they_would_be),
		cmocka_unit_test(what_does_not_fit_is_not_cut),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
