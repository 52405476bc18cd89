/* The user's table of postage. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "lists.h"
#include "postage.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static struct vocabulary *vocabulary;
static struct problem problem;

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

static bool
read(struct postage *postage, const char *currency, const char *text)
{
	problem.text[0] = '\0';
	return postage_read(postage, vocabulary, currency, "postage.txt", text, &problem);
}

static void
postage_goes_by_the_table(void **state)
{
	static const char *const BANDS = "to 250 g | 3.20\nto 1 kg | 4.10\n";
	static const char *const BANDS_ABOVE = "to 250 g | 3.20\nto 1 kg | 4.10\nabove | 6.95\n"
					       "parcel large box | 1.50\n";
	static const char *const FIXED = "fixed | 4.50\nparcel large box | 1.50 # the deep one\n";
	static const char *const OUNCES = "to 8 oz | 3.20\nto 1 lb | 4.10\n";
	static const struct {
		const char *text;
		int32_t grams;
		const char *parcel;
		enum postage_due due;
		const char *amount;
	} ROWS[] = {
		{"", 300, NULL, POSTAGE_COST_ADDS, "0.00"},
		{"at cost", 300, "", POSTAGE_COST_ADDS, "0.00"},
		{"at cost\nparcel large box | 1.50", 0, "large box", POSTAGE_COST_ADDS, "1.50"},
		{"parcel large box | 1.5", 0, "large box", POSTAGE_COST_ADDS, "1.50"},
		{FIXED, 0, NULL, POSTAGE_DUE, "4.50"},
		{FIXED, 9999, "large box", POSTAGE_DUE, "6.00"},
		{FIXED, 300, "small box", POSTAGE_DUE, "4.50"},
		{BANDS, 1, NULL, POSTAGE_DUE, "3.20"},
		{BANDS, 250, NULL, POSTAGE_DUE, "3.20"},
		{BANDS, 251, NULL, POSTAGE_DUE, "4.10"},
		{BANDS, 1000, NULL, POSTAGE_DUE, "4.10"},
		{BANDS, 1001, NULL, POSTAGE_TOO_HEAVY, "0.00"},
		{BANDS, 0, NULL, POSTAGE_NO_WEIGHT, "0.00"},
		{BANDS_ABOVE, 1001, NULL, POSTAGE_DUE, "6.95"},
		{BANDS_ABOVE, INT32_MAX, "large box", POSTAGE_DUE, "8.45"},
		/* 1 lb = 453.59237 g exactly (international pound, 1959): 8 oz is 226.796 */
		{OUNCES, 227, NULL, POSTAGE_DUE, "3.20"},
		{OUNCES, 228, NULL, POSTAGE_DUE, "4.10"},
		{OUNCES, 454, NULL, POSTAGE_DUE, "4.10"},
		{OUNCES, 455, NULL, POSTAGE_TOO_HEAVY, "0.00"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct postage postage;
		struct money due;
		char amount[32];
		if (!read(&postage, "USD", ROWS[i].text))
			fail_msg("row %zu: %s", i, problem.text);
		enum postage_due how = postage_for(&postage, ROWS[i].grams, ROWS[i].parcel, &due);
		money_format(due, amount, sizeof amount);
		if (how != ROWS[i].due || strcmp(amount, ROWS[i].amount) != 0)
			fail_msg("row %zu: %d %s", i, (int)how, amount);
	}
}

static void
amounts_are_in_the_currency_of_the_settings(void **state)
{
	struct postage postage;
	struct money due;
	assert_true(read(&postage, "JPY", "fixed | 450"));
	assert_int_equal(postage_for(&postage, 0, NULL, &due), POSTAGE_DUE);
	assert_int_equal(due.minor, 450);
	assert_string_equal(due.currency, "JPY");
	assert_true(read(&postage, "KWD", "fixed | 1.250"));
	assert_int_equal(postage.fixed_minor, 1250);
	assert_false(read(&postage, "JPY", "fixed | 4.50"));
	assert_string_equal(problem.text, "postage.txt, line 1: \"4.50\" is no amount in JPY");
	assert_false(read(&postage, "XXX", "at cost"));
	assert_string_equal(problem.text, "\"XXX\" is no currency of ISO 4217");
}

static void
what_is_wrong_is_said_with_its_line(void **state)
{
	static const struct {
		const char *text, *says;
	} ROWS[] = {
		{"free", "line 1: \"free\" has to be: at cost, fixed, to WEIGHT, above, or parcel "
			 "NAME"},
		{"\n| 3.20", "line 2: \"\" has to be: at cost, fixed"},
		{"fixed", "line 1: \"fixed\" wants an amount after a |"},
		{"fixed |", "line 1: \"\" is no amount in USD"},
		{"fixed | -1", "line 1: \"-1\" is no amount in USD"},
		{"fixed | four", "line 1: \"four\" is no amount in USD"},
		{"fixed | 4.505", "line 1: \"4.505\" is no amount in USD"},
		{"fixed | 4.50 | 5", "line 1: \"fixed\" wants an amount after a |"},
		{"fixed | 4.50\nfixed | 4.50",
		 "line 2: \"fixed\" does not go with the lines before"},
		{"fixed | 4.50\nat cost", "line 2: \"at cost\" does not go with the lines before"},
		{"at cost\nto 1 kg | 3", "line 2: \"to 1 kg\" does not go with the lines before"},
		{"to 1 kg | 3\nfixed | 4", "line 2: \"fixed\" does not go with the lines before"},
		{"at cost | 3", "line 1: \"at cost\" has no amount"},
		{"to | 3", "line 1: \"to\" has to be"},
		{"to g | 3", "line 1: \"to g\" wants a whole weight"},
		{"to 0 g | 3", "line 1: \"to 0 g\" wants a whole weight"},
		{"to 250 | 3", "line 1: \"to 250\" wants a whole weight"},
		{"to 2.5 kg | 3", "line 1: \"to 2.5 kg\" wants a whole weight"},
		{"to -5 g | 3", "line 1: \"to -5 g\" wants a whole weight"},
		{"to 250 st | 3", "line 1: \"to 250 st\" wants a whole weight"},
		{"to 99999999999999999999 g | 3", "line 1: \"to 99999999999999999999 g\" wants"},
		{"to 1 kg | 3\nto 1000 g | 4", "line 2: \"to 1000 g\" has to be heavier than"},
		{"to 1 kg | 3\nto 250 g | 4", "line 2: \"to 250 g\" has to be heavier than"},
		{"above | 3", "line 1: \"above\" comes after the bands"},
		{"to 1 kg | 3\nabove | 4\nabove | 5", "line 3: \"above\" has to be heavier than"},
		{"to 1 kg | 3\nabove | 4\nto 2 kg | 5", "line 3: \"to 2 kg\" has to be heavier"},
		{"parcel trunk | 3", "line 1: there is no parcel \"trunk\" in the list of parcels"},
		{"parcel large box", "line 1: \"parcel large box\" wants an amount after a |"},
		{"parcel large box | 3\nparcel large box | 3",
		 "line 2: the parcel \"large box\" is given twice"},
		{"1|2|3|4|5|6|7|8|9", "line 1: more than 8 columns parted by |"},
	};
	for (size_t i = 0; i < COUNT(ROWS); i++) {
		struct postage postage;
		char says[256];
		assert_false(read(&postage, "USD", ROWS[i].text));
		snprintf(says, sizeof says, "postage.txt, %s", ROWS[i].says);
		if (strncmp(problem.text, says, strlen(says)) != 0)
			fail_msg("row %zu says: %s", i, problem.text);
	}
}

static void
the_shipped_table_is_at_cost_in_any_currency(void **state)
{
	static const char *const CURRENCIES[] = {"USD", "JPY", "KWD"};
	char *text = lists_text("postage.txt");
	assert_non_null(text);
	for (size_t i = 0; i < COUNT(CURRENCIES); i++) {
		struct postage postage;
		struct money due;
		if (!read(&postage, CURRENCIES[i], text))
			fail_msg("%s", problem.text);
		assert_int_equal(postage_for(&postage, 300, "large box", &due), POSTAGE_COST_ADDS);
		assert_int_equal(due.minor, 0);
	}
	free(text);
}

static void
there_is_room_for_so_many_bands(void **state)
{
	struct postage postage;
	char text[4096];
	size_t used = 0;
	for (int i = 1; i <= POSTAGE_BANDS_MAX; i++)
		used += (size_t)snprintf(text + used, sizeof text - used, "to %d g | %d\n", i, i);
	assert_true(read(&postage, "USD", text));
	snprintf(text + used, sizeof text - used, "above | 99\n");
	assert_false(read(&postage, "USD", text));
	assert_string_equal(problem.text, "postage.txt, line 33: more than 32 bands");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(postage_goes_by_the_table),
		cmocka_unit_test(amounts_are_in_the_currency_of_the_settings),
		cmocka_unit_test(what_is_wrong_is_said_with_its_line),
		cmocka_unit_test(the_shipped_table_is_at_cost_in_any_currency),
		cmocka_unit_test(there_is_room_for_so_many_bands),
	};
	return cmocka_run_group_tests(tests, begin, end);
}
