/* RFC 9110, section 14: its own examples, of a file of 10000 bytes, and what is none. */
#include "range.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static void
the_wanted_part_is_understood(void **state)
{
	static const struct {
		const char *header;
		enum range_wanted wanted;
		int64_t from, count;
	} cases[] = {
		{"bytes=0-499", RANGE_PART, 0, 500},
		{"bytes=500-999", RANGE_PART, 500, 500},
		{"bytes=-500", RANGE_PART, 9500, 500},
		{"bytes=9500-", RANGE_PART, 9500, 500},
		{"bytes=0-0", RANGE_PART, 0, 1},
		{"bytes=9999-9999", RANGE_PART, 9999, 1},
		{"bytes=0-", RANGE_PART, 0, 10000},
		{"Bytes=0-1", RANGE_PART, 0, 2},
		/* Ends past the end; more than there is of it. */
		{"bytes=9000-20000", RANGE_PART, 9000, 1000},
		{"bytes=-20000", RANGE_PART, 0, 10000},
		/* Nothing of the file lies there. */
		{"bytes=10000-", RANGE_NONE, 0, 10000},
		{"bytes=10000-10001", RANGE_NONE, 0, 10000},
		{"bytes=-0", RANGE_NONE, 0, 10000},
		/* Not understood, or several: the whole. */
		{NULL, RANGE_WHOLE, 0, 10000},
		{"", RANGE_WHOLE, 0, 10000},
		{"bytes=", RANGE_WHOLE, 0, 10000},
		{"bytes=-", RANGE_WHOLE, 0, 10000},
		{"bytes=5-4", RANGE_WHOLE, 0, 10000},
		{"bytes=0-0,-1", RANGE_WHOLE, 0, 10000},
		{"bytes=a-b", RANGE_WHOLE, 0, 10000},
		{"bytes=1 -2", RANGE_WHOLE, 0, 10000},
		{"bytes=--5", RANGE_WHOLE, 0, 10000},
		{"bytes=0x10-", RANGE_WHOLE, 0, 10000},
		{"bytes=99999999999999999999-", RANGE_WHOLE, 0, 10000},
		{"items=0-5", RANGE_WHOLE, 0, 10000},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		int64_t from, count;
		enum range_wanted wanted = range_read(cases[i].header, 10000, &from, &count);
		if (wanted != cases[i].wanted || from != cases[i].from || count != cases[i].count)
			fail_msg("%s: %d, %lld, %lld", cases[i].header, wanted, (long long)from,
				 (long long)count);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {cmocka_unit_test(the_wanted_part_is_understood)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
