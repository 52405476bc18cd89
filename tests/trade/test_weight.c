#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "weight.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

struct row {
	const char *text;
	int used;
	int32_t grams;
};

static void
check(const struct row *rows, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct words words;
		int32_t grams = -1;
		assert_true(words_split(&words, rows[i].text));
		int used = weight_read(&words, 0, &grams);
		if (used != rows[i].used || grams != (used > 0 ? rows[i].grams : -1))
			fail_msg("\"%s\": used %d, grams %d", rows[i].text, used, grams);
	}
}

static void
grams_reach_9999(void **state)
{
	static const struct row ROWS[] = {
		{"four hundred twenty grams", 4, 420},
		{"four hundred and twenty grams", 5, 420},
		{"three eighty grams", 3, 380},
		{"three eight oh grams", 4, 380},
		{"twelve fifty grams", 3, 1250},
		{"one gram", 2, 1},
		{"four hundred", 2, 400},
		{"four hundred and", 2, 400},
		{"nine thousand nine hundred ninety nine grams", 7, 9999},
		{"zero grams", 2, 0},
		{"ten thousand grams", 0, 0},
		{"one two three four five grams", 0, 0},
		{"oh five grams", 0, 0},
		{"four hundred oh five grams", 0, 0},
		{"grams", 0, 0},
		{"half", 0, 0},
		{"a gram", 0, 0},
		{"", 0, 0},
	};
	check(ROWS, COUNT(ROWS));
}

/* 1 lb = 453.59237 g exactly and 16 oz to the pound (international pound, 1959; from memory). */
static void
pounds_and_ounces_become_whole_grams(void **state)
{
	static const struct row ROWS[] = {
		{"one pound", 2, 454},		  /* 453.59237 */
		{"two pounds", 2, 907},		  /* 907.18474 */
		{"eight ounces", 2, 227},	  /* 226.796185 */
		{"one ounce", 2, 28},		  /* 28.349523125 */
		{"one pound two ounces", 4, 510}, /* 510.29141625 */
		{"one pound and two ounces", 5, 510},
		{"one pound fifteen ounces", 4, 879}, /* 878.835216875 */
		{"twenty two pounds", 3, 9979},	      /* 9979.03214 */
		{"one pound and", 2, 454},
		{"one pound and a half", 2, 454},
		{"three hundred fifty ounces", 4, 9922}, /* 9922.33309375 */
		{"one pound two", 0, 0},
		{"one pound sixteen ounces", 0, 0},
		{"twenty two pounds one ounce", 0, 0}, /* past 9999 g */
		{"one eighty pounds", 0, 0},
		{"pounds", 0, 0},
		{"two grams pounds", 2, 2},
	};
	check(ROWS, COUNT(ROWS));
}

static void
what_is_said_is_read_back(void **state)
{
	char text[96];
	for (int32_t weight = 0; weight <= 9999; weight++) {
		struct words words;
		int32_t grams = -1;
		weight_say(weight, text, sizeof text);
		assert_true(words_split(&words, text));
		assert_int_equal(weight_read(&words, 0, &grams), words.count);
		assert_int_equal(grams, weight);
	}
	weight_say(420, text, sizeof text);
	assert_string_equal(text, "four hundred twenty grams");
	weight_say(1, text, sizeof text);
	assert_string_equal(text, "one gram");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(grams_reach_9999),
		cmocka_unit_test(pounds_and_ounces_become_whole_grams),
		cmocka_unit_test(what_is_said_is_read_back),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
