/* What is odd about the fibres of a cloth. The rules: 15 U.S.C. 70b(b)(1), 16 CFR 303.16 and
 * 303.25. */
#include "dictation.h"

#include "cloth.h"

static struct vocabulary *vocabulary;
static struct record record;

static int
begin(void **state)
{
	vocabulary = lists_read();
	return vocabulary == NULL;
}

static int
end(void **state)
{
	vocabulary_destroy(vocabulary);
	return 0;
}

static void
sums_and_order_are_told(void **state)
{
	static const struct {
		const char *said, *odd;
	} rows[] = {
		{"cloth sixty cotton thirty five polyester five elastane", ""},
		{"cloth ninety six percent acetate four percent spandex", ""},
		{"cloth hundred percent wool", ""},
		{"cloth fifty cotton fifty linen", ""},
		{"cloth eighty wool twenty other fibres", ""},
		{"cloth forty wool sixty other fibres", ""},
		{"cloth shell hundred wool lining hundred acetate", ""},
		{"cloth thirty five polyester sixty cotton",
		 "that is ninety five percent, and a larger share stands after a smaller one"},
		{"cloth sixty cotton thirty five polyester", "that is ninety five percent"},
		{"cloth sixty cotton sixty polyester", "that is one hundred twenty percent"},
		{"cloth forty cotton sixty polyester", "a larger share stands after a smaller one"},
		{"cloth shell hundred wool lining ninety acetate", "lining is ninety percent"},
		{"cloth shell ninety wool lining ninety acetate",
		 "shell is ninety percent, lining is ninety percent"},
		{"cloth shell sixty wool forty silk lining hundred acetate", ""},
		{"cloth other", ""},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		char text[256] = "";
		dictate_item(&record, vocabulary, rows[i].said);
		const struct entry *cloth = record_slot(&record, CALL_CLOTH);
		bool odd = cloth_odd(&cloth->said, text, sizeof text);
		assert_string_equal(text, rows[i].odd);
		assert_int_equal(odd, rows[i].odd[0] != '\0');
	}
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {cmocka_unit_test(sums_and_order_are_told)};
	return cmocka_run_group_tests(tests, begin, end);
}
