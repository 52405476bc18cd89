/* Whether mending pays. No source: common practice. */
#include "dictation.h"

#include "mending.h"

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
what_is_left_is_the_price_less_materials_and_time(void **state)
{
	static const struct {
		const char *said;
		int64_t hour_minor;
		bool known;
		int64_t left_minor;
	} rows[] = {
		{"price twenty. mending new zip thirty minutes materials four fifty", 1200, true,
		 950},
		{"price twenty. mending new zip thirty minutes fix hem ten minutes", 1200, true,
		 1200},
		{"price twenty. mending new zip thirty minutes", 0, true, 2000},
		/* 7 minutes at 10.00 are 1.1667, and 3 are 0.50: half-up */
		{"price twenty. mending sew button seven minutes", 1000, true, 1883},
		{"price twenty. mending sew button three minutes", 1010, true, 1949},
		{"price four. mending new zip thirty minutes materials four fifty", 1200, true,
		 -650},
		{"price twenty. mending sew button", 1200, true, 2000},
		/* not known */
		{"price twenty", 1200, false, 0},
		{"mending new zip thirty minutes", 1200, false, 0},
		{"price twenty. mending other", 1200, false, 0},
		{"kind shirt", 1200, false, 0},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct money left = {0, ""};
		dictate_item(&record, vocabulary, rows[i].said);
		bool known = mending_left(&record, rows[i].hour_minor, &left);
		if (known != rows[i].known || left.minor != rows[i].left_minor)
			fail_msg("%s: %lld", rows[i].said, (long long)left.minor);
	}
}

static void
two_currencies_are_not_reckoned_together(void **state)
{
	struct call price = {.type = CALL_PRICE, .money = {2000, "EUR"}};
	struct money left;
	struct deed deed;
	dictate_item(&record, vocabulary, "mending new zip materials four dollars");
	assert_true(record_write(&record, &price, false, &deed));
	assert_false(mending_left(&record, 1200, &left));
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_left_is_the_price_less_materials_and_time),
		cmocka_unit_test(two_currencies_are_not_reckoned_together),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
