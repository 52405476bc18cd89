/* The readers of spoken numbers against the English spell-out rules of CLDR, as ICU carries them
 * (https://unicode-org.github.io/icu/userguide/format_parse/numbers/rbnf; rules in CLDR's
 * common/rbnf/en.xml). ICU only generates here: as a parser it takes "twenty one" for 2001. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <unicode/ucurr.h>
#include <unicode/uenum.h>
#include <unicode/unum.h>
#include <unicode/ustring.h>

#include "label.h"
#include "length.h"
#include "money.h"
#include "number.h"
#include "weight.h"

#define COUNT(table) (sizeof(table) / sizeof((table)[0]))

static const char CARDINAL[] = "%spellout-cardinal";
static const char CARDINAL_WITH_AND[] = "%spellout-cardinal-verbose";
static const char YEAR[] = "%spellout-numbering-year";

static UNumberFormat *
rules_open(const char *name)
{
	UErrorCode error = U_ZERO_ERROR;
	UChar wide[64];
	UNumberFormat *rules = unum_open(UNUM_SPELLOUT, NULL, 0, "en", NULL, &error);
	u_uastrcpy(wide, name);
	unum_setTextAttribute(rules, UNUM_DEFAULT_RULESET, wide, -1, &error);
	assert_true(U_SUCCESS(error));
	return rules;
}

/* `figures` in words, as ICU has it. */
static void
icu_words(UNumberFormat *rules, const char *figures, struct words *words)
{
	UErrorCode error = U_ZERO_ERROR;
	UChar wide[256];
	char text[256];
	unum_formatDecimal(rules, figures, -1, wide, COUNT(wide), NULL, &error);
	assert_true(U_SUCCESS(error));
	u_austrcpy(text, wide);
	assert_true(words_split(words, text));
}

static void
labels_agree(const char *rule_set)
{
	UNumberFormat *rules = rules_open(rule_set);
	for (int number = 0; number <= 9999; number++) {
		struct words words;
		char figures[8], label[LABEL_MAX] = "";
		snprintf(figures, sizeof figures, "%d", number);
		icu_words(rules, figures, &words);
		assert_int_equal(label_read(&words, 0, true, label), words.count);
		assert_string_equal(label, figures);
	}
	unum_close(rules);
}

static void
labels_from_0_to_9999_agree(void **state)
{
	labels_agree(CARDINAL);
	labels_agree(CARDINAL_WITH_AND);
	labels_agree(YEAR); /* "nineteen oh-five", "nineteen hundred", "twenty ten" */
}

static void
numbers_agree(const char *rule_set)
{
	UNumberFormat *rules = rules_open(rule_set);
	for (int number = 0; number <= 999999999; number += number < 9999 ? 1 : 99991) {
		struct words words;
		char figures[16];
		int value = -1;
		int32_t grams = -1;
		snprintf(figures, sizeof figures, "%d", number);
		icu_words(rules, figures, &words);
		assert_int_equal(number_amount(&words, 0, &value), words.count);
		assert_int_equal(value, number);
		if (number > 9999)
			continue;
		assert_int_equal(number_cardinal(&words, 0, &value), words.count);
		assert_int_equal(value, number);
		assert_int_equal(weight_read(&words, 0, &grams), words.count);
		assert_int_equal(grams, number);
	}
	unum_close(rules);
}

static void
cardinals_agree(void **state)
{
	numbers_agree(CARDINAL);
	numbers_agree(CARDINAL_WITH_AND);
}

static void
ours_are_said_as_theirs(void **state)
{
	UNumberFormat *rules = rules_open(CARDINAL);
	for (int number = 0; number <= 999999999; number += number < 9999 ? 1 : 99991) {
		struct words theirs, ours;
		char figures[16], text[128];
		snprintf(figures, sizeof figures, "%d", number);
		icu_words(rules, figures, &theirs);
		number_say(number, text, sizeof text);
		assert_true(words_split(&ours, text));
		assert_int_equal(ours.count, theirs.count);
		assert_int_equal(words_match(&theirs, 0, text), theirs.count);
	}
	unum_close(rules);
}

static void
lengths_agree(const char *rule_set)
{
	UNumberFormat *rules = rules_open(rule_set);
	for (int hundredths = 0; hundredths <= 99999; hundredths++) {
		struct words words;
		struct length length;
		char figures[16];
		bool said = true;
		snprintf(figures, sizeof figures, "%d.%02d", hundredths / 100, hundredths % 100);
		icu_words(rules, figures, &words); /* which drops zeros at the end */
		assert_int_equal(length_read(&words, 0, LENGTH_CENTIMETRE, &length, &said),
				 words.count);
		assert_false(said);
		assert_int_equal(length.numerator * 100, hundredths * length.denominator);
		assert_int_equal(length_um(length), 100 * hundredths);
		assert_int_equal(length.denominator, hundredths % 100 == 0  ? 1
						     : hundredths % 10 == 0 ? 10
									    : 100);
	}
	unum_close(rules);
}

/* The whole numbers 0 to 999 are among them. */
static void
lengths_in_hundredths_agree(void **state)
{
	lengths_agree(CARDINAL);
	lengths_agree(CARDINAL_WITH_AND);
}

static void
money_in_cents_agrees(void **state)
{
	UNumberFormat *rules = rules_open(CARDINAL_WITH_AND);
	for (int cents = 0; cents <= 99999; cents++) {
		struct words words;
		struct money readings[2];
		char figures[16];
		int count = 0;
		snprintf(figures, sizeof figures, "%d.%02d", cents / 100, cents % 100);
		icu_words(rules, figures, &words);
		assert_int_equal(money_read(&words, 0, "USD", readings, &count), words.count);
		assert_int_equal(count, 1);
		assert_int_equal(readings[0].minor, cents);
	}
	unum_close(rules);
}

/* CLDR drops the decimals of currencies whose small coin is no longer in use; ISO 4217 keeps them,
 * and so do we. Those, and what was withdrawn from ISO's list since (or, for SLL, replaced), are
 * all that may differ. */
static void
currencies_agree_but_where_cldr_drops_small_coin(void **state)
{
	static const char FEWER_IN_CLDR[] = "AFN ALL IQD IRR KPW LAK LBP MGA MMK RSD SOS SYP YER";
	static const char WITHDRAWN[] = "ANG BGN CUC HRK SLL VEF";
	UErrorCode error = U_ZERO_ERROR;
	UEnumeration *codes = ucurr_openISOCurrencies(UCURR_COMMON | UCURR_NON_DEPRECATED, &error);
	const char *code;
	int agreed = 0, fewer = 0, withdrawn = 0;
	while ((code = uenum_next(codes, NULL, &error)) != NULL) {
		UChar wide[4];
		u_uastrcpy(wide, code);
		int theirs = ucurr_getDefaultFractionDigits(wide, &error);
		assert_true(U_SUCCESS(error));
		int ours = money_decimals(code);
		if (strstr(WITHDRAWN, code) != NULL) {
			assert_int_equal(ours, -1);
			withdrawn++;
		} else if (strstr(FEWER_IN_CLDR, code) != NULL) {
			assert_true(ours > theirs && theirs == 0);
			fewer++;
		} else {
			if (ours != theirs)
				fail_msg("%s: ours %d, CLDR's %d", code, ours, theirs);
			agreed++;
		}
	}
	uenum_close(codes);
	assert_int_equal(fewer, sizeof FEWER_IN_CLDR / 4);
	assert_int_equal(withdrawn, sizeof WITHDRAWN / 4);
	assert_true(agreed > 130);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(labels_from_0_to_9999_agree),
		cmocka_unit_test(cardinals_agree),
		cmocka_unit_test(ours_are_said_as_theirs),
		cmocka_unit_test(lengths_in_hundredths_agree),
		cmocka_unit_test(money_in_cents_agrees),
		cmocka_unit_test(currencies_agree_but_where_cldr_drops_small_coin),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
