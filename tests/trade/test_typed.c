/* What is typed at a desk, as calls, and back. */
#include "typed.h"

#include "lists.h"
#include "phrase.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static struct typed_setting setting = {.unit = LENGTH_INCH, .currency = "USD"};

static int
set_up(void **state)
{
	setting.vocabulary = lists_read();
	return setting.vocabulary == NULL;
}

static int
tear_down(void **state)
{
	vocabulary_destroy((struct vocabulary *)(uintptr_t)setting.vocabulary);
	return 0;
}

static void
what_is_typed_is_read_and_shown_again(void **state)
{
	static const struct {
		enum call_type type;
		const char *measure, *typed;
		const char *written; /* in a transcript; NULL: it is refused */
		const char *again, *shown;
	} cases[] = {
		{CALL_MEASURE, "chest", "21 1/2", "chest 21 1/2 in", "21 1/2",
		 "21 1/2 in (54.6 cm)"},
		{CALL_MEASURE, "chest", "  54.6 cm\t", "chest 54.6 cm", "54.6 cm", NULL},
		{CALL_MEASURE, "chest", "none", "chest none", "none", "none"},
		{CALL_ITEM, "", "0482", "item 0482", "0482", "0482"},
		{CALL_BIN, "", "12", "bin 12", "12", "12"},
		{CALL_KIND, "", "Jumper", "kind sweater", "sweater", "sweater"},
		{CALL_MAKER, "", "orlscombe", "maker Orlscombe and Daughters",
		 "orlscombe and daughters", "orlscombe and daughters"},
		{CALL_MAKER, "", "Gull & Sons", "maker Gull & Sons", "Gull & Sons", "Gull & Sons"},
		{CALL_CLOTH, "", "60 % wool, 40 % silk", "cloth 60 % wool, 40 % silk",
		 "60 % wool, 40 % silk", "60 % wool, 40 % silk"},
		{CALL_PILLING, "", "3-4", "pilling 3-4", "3-4", "3-4"},
		{CALL_WEIGHT, "", "320", "weight 320 g", "320 g", "320 g"},
		{CALL_PRICE, "", "18.5", "price 18.50 USD", "18.50", "18.50 USD"},
		{CALL_COST, "", "4 EUR", "cost 4.00 EUR", "4.00 EUR", "4.00 EUR"},
		{CALL_FLAW, "", "small hole, left cuff", "flaw: small hole, left cuff",
		 "small hole, left cuff", "small hole, left cuff"},
		{CALL_FLAW, "", "none", "flaw: none", "none", "none"},
		{CALL_ROUTE, "", "repair", "route mending", "mending", "mending"},
		{CALL_GROUP, "", "Women", "group women", "women", "women"},
		{CALL_CARE, "", "wash thirty, do not bleach", "care wash thirty, do not bleach",
		 "wash thirty, do not bleach", "wash thirty, do not bleach"},
		{CALL_MENDING, "", "new zip 30 minutes, fix hem, materials 4.5",
		 "mending new zip 30 minutes, fix hem, materials 4.50 USD",
		 "new zip 30 minutes, fix hem, materials 4.50 USD",
		 "new zip 30 minutes, fix hem, materials 4.50 USD"},
		{CALL_PART, "", "jacket, trousers", "part trousers", "jacket, trousers",
		 "jacket, trousers"},
		{CALL_MEASURE, "left sleeve", "24", "left sleeve 24 in", "24", NULL},
		{CALL_MEASURE, "jacket chest", "21 1/2", "jacket chest 21 1/2 in", "21 1/2",
		 "21 1/2 in (54.6 cm)"},
		{CALL_SIZE, "", "6-7 years", "size 6-7 years", "6-7 years", "6-7 years"},
		/* And what is none. */
		{CALL_MEASURE, "chest", "", NULL, NULL, NULL},
		{CALL_MEASURE, "chest", "   ", NULL, NULL, NULL},
		{CALL_MEASURE, "chest", "wide", NULL, NULL, NULL},
		{CALL_MEASURE, "chest", "21 22", NULL, NULL, NULL},
		{CALL_MEASURE, "tail", "21", NULL, NULL, NULL},
		{CALL_MEASURE, "", "21", NULL, NULL, NULL},
		{CALL_MEASURE, "chest twenty one", "2", NULL, NULL, NULL},
		{CALL_ITEM, "", "48b", NULL, NULL, NULL},
		{CALL_KIND, "", "spaceship", NULL, NULL, NULL},
		{CALL_CLOTH, "", "wool", NULL, NULL, NULL},
		{CALL_PILLING, "", "0", NULL, NULL, NULL},
		{CALL_WEIGHT, "", "99999", NULL, NULL, NULL},
		{CALL_PRICE, "", "18.505", NULL, NULL, NULL},
		{CALL_FLAW, "", "small thing", NULL, NULL, NULL},
		{CALL_GROUP, "", "dogs", NULL, NULL, NULL},
		{CALL_CARE, "", "boil for an hour", NULL, NULL, NULL},
		{CALL_MENDING, "", "wish", NULL, NULL, NULL},
		{CALL_MENDING, "", "new zip, materials other", NULL, NULL, NULL},
		{CALL_PART, "", "jacket, wing", NULL, NULL, NULL},
		{CALL_MEASURE, "jacket tail", "21", NULL, NULL, NULL},
		{CALL_MEASURE, "spaceship chest", "21", NULL, NULL, NULL},
		{CALL_NOTE, "", "anything", NULL, NULL, NULL},
		{CALL_ORDER, "", "next", NULL, NULL, NULL},
	};
	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct problem problem = {""};
		struct call call;
		char text[600];
		bool read = typed_read(&setting, cases[i].type, cases[i].measure, cases[i].typed,
				       &call, &problem);
		if (read != (cases[i].written != NULL))
			fail_msg("\"%s\": %s", cases[i].typed, problem.text);
		assert_int_equal(problem.text[0] != '\0', !read);
		if (!read)
			continue;
		phrase_written(&call, text, sizeof text);
		assert_string_equal(text, cases[i].written);
		typed_write(&setting, &call, text, sizeof text);
		assert_string_equal(text, cases[i].again);
		if (cases[i].shown == NULL)
			continue;
		struct text shown = {.chars = NULL};
		typed_show(&call, &shown);
		assert_string_equal(text_chars(&shown), cases[i].shown);
		text_finish(&shown);
	}
}

static void
what_is_too_long_is_refused(void **state)
{
	char much[10001];
	struct problem problem = {""};
	struct call call;
	memset(much, '7', 10000);
	much[10000] = '\0';
	for (enum call_type type = 0; type < CALL_TYPES; type++)
		assert_false(typed_read(&setting, type, "chest", much, &call, &problem));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_typed_is_read_and_shown_again),
		cmocka_unit_test(what_is_too_long_is_refused),
	};
	return cmocka_run_group_tests(tests, set_up, tear_down);
}
