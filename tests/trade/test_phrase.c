#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "lists.h"
#include "meaning.h"
#include "phrase.h"
#include "random_call.h"

#include <string.h>

static const struct meaning_setting inches = {LENGTH_INCH, "USD"};
static struct vocabulary *lists;

static int
read_lists(void **state)
{
	(void)state;
	lists = lists_read();
	return lists == NULL;
}

static int
drop_lists(void **state)
{
	(void)state;
	vocabulary_destroy(lists);
	return 0;
}

/* The one call that these words are. */
static struct call
call_of(const char *text)
{
	struct words words;
	struct meaning meaning;
	if (!words_split(&words, text) || !meaning_read(lists, &inches, &words, &meaning) ||
	    meaning.count != 1)
		fail_msg("'%s' is not one call", text);
	return meaning.calls[0];
}

static void
a_call_is_said_by_value_by_name_and_in_full(void **state)
{
	static const struct {
		const char *heard, *value, *named, *full;
	} rows[] = {
		{"chest twenty one and a half", "twenty one and a half",
		 "chest twenty one and a half", "chest twenty one and a half inches"},
		{"chest twenty one point five centimeters", "twenty one point five",
		 "chest twenty one point five centimetres",
		 "chest twenty one point five centimetres"},
		{"twenty one", "twenty one", "twenty one", "twenty one inches"},
		{"sleeve none", "none", "sleeve none", "sleeve none"},
		{"flaw small hole left cuff", "small hole left cuff", "flaw small hole left cuff",
		 "flaw small hole left cuff"},
		{"flaw tear one hem", "tear one hem", "flaw tear one hem",
		 "flaw tear one inch hem"},
		{"flaw none", "none", "flaw none", "flaw none"},
		{"flaw other seat", "other seat", "flaw other seat", "flaw other seat"},
		{"kind tee shirt", "t shirt", "kind t shirt", "kind t shirt"},
		{"bin four eight two", "four eighty two", "bin four eighty two",
		 "bin four eighty two"},
		{"item one three oh seven", "thirteen oh seven", "item thirteen oh seven",
		 "item thirteen oh seven"},
		{"size thirty two by thirty", "thirty two by thirty", "size thirty two by thirty",
		 "size thirty two by thirty"},
		{"size extra large", "extra large", "size extra large", "size extra large"},
		{"maker other", "other", "maker other", "maker other"},
		{"colour dark grey", "dark grey", "colour dark grey", "colour dark grey"},
		{"cloth shell hundred percent wool lining sixty percent silk forty percent linen",
		 "shell one hundred percent wool lining sixty percent silk forty percent linen",
		 "cloth shell one hundred percent wool lining sixty percent silk forty percent "
		 "linen",
		 "cloth shell one hundred percent wool lining sixty percent silk forty percent "
		 "linen"},
		{"pilling three four", "three to four", "pilling three to four",
		 "pilling three to four"},
		{"colour change five", "five", "colour change five", "colour change five"},
		{"price eighteen fifty", "eighteen fifty", "price eighteen fifty",
		 "price eighteen fifty"},
		{"price two forty", "two dollars forty", "price two dollars forty",
		 "price two dollars forty"},
		{"weight four twenty", "four hundred twenty grams",
		 "weight four hundred twenty grams", "weight four hundred twenty grams"},
		{"keep bin nine", "nine", "keep bin nine", "keep bin nine"},
		{"keep nothing", "nothing", "keep nothing", "keep nothing"},
		{"open item nine", "open item nine", "open item nine", "open item nine"},
		{"strike flaw left cuff", "strike flaw left cuff", "strike flaw left cuff",
		 "strike flaw left cuff"},
		{"yes", "first", "first", "first"},
		{"note", "note", "note", "note"},
		{"no", "no", "no", "no"},
	};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct call call = call_of(rows[i].heard);
		char text[640];
		phrase_call(&call, PHRASE_VALUE, text, sizeof text);
		assert_string_equal(text, rows[i].value);
		phrase_call(&call, PHRASE_NAMED, text, sizeof text);
		assert_string_equal(text, rows[i].named);
		phrase_call(&call, PHRASE_FULL, text, sizeof text);
		assert_string_equal(text, rows[i].full);
	}
}

static void
what_is_said_of_any_call_means_that_call(void **state)
{
	uint32_t seed = 1959;
	int of_type[CALL_TYPES] = {0};
	(void)state;
	for (int i = 0; i < 40000; i++) {
		struct call call = random_call(lists, &seed);
		/* without its unit only a length in the setting's unit is the same again */
		bool any_unit =
			!call.has_length || call.unit_said || call.length.unit == LENGTH_INCH;
		enum phrase_detail detail =
			any_unit && draw(&seed, 2) == 0 ? PHRASE_NAMED : PHRASE_FULL;
		char text[640];
		phrase_call(&call, detail, text, sizeof text);
		struct call read = call_of(text);
		if (!call_same(&read, &call))
			fail_msg("'%s'", text);
		of_type[call.type]++;
	}
	for (int type = 0; type < CALL_TYPES; type++)
		assert_true(of_type[type] > 500);
}

static void
a_question_asks_what_differs(void **state)
{
	static const struct {
		const char *first, *second, *question;
	} rows[] = {
		{"chest thirteen", "chest thirty", "thirteen or thirty?"},
		{"thirteen", "thirty", "thirteen or thirty?"},
		{"bin four eighty two", "bin four ninety two",
		 "four eighty two or four ninety two?"},
		{"item fifteen", "item fifty", "fifteen or fifty?"},
		{"open item fifteen", "open item fifty", "fifteen or fifty?"},
		{"keep bin fifteen", "keep bin fifty", "fifteen or fifty?"},
		{"chest thirteen", "chest none", "thirteen or none?"},
		{"chest thirteen inches", "chest thirteen centimetres", "inches or centimetres?"},
		{"kind shirt", "kind skirt", "shirt or skirt?"},
		{"kind shirt", "kind other", "shirt or other?"},
		{"maker marlock", "maker hallowick", "marlock or hallowick?"},
		{"size ten", "size two", "ten or two?"},
		{"flaw small hole left cuff", "flaw large hole left cuff", "small or large?"},
		{"flaw hole left cuff", "flaw hole right cuff", "left or right?"},
		{"flaw hole left cuff", "flaw hole left collar", "cuff or collar?"},
		{"flaw hole left cuff", "flaw stain left cuff", "hole or stain?"},
		{"flaw tear two hem", "flaw tear three hem", "two or three?"},
		{"price eighteen fifty", "price eighteen fifteen",
		 "eighteen fifty or eighteen fifteen?"},
		{"pilling three", "pilling three four", "three or three to four?"},
		{"weight four twenty", "weight four thirty",
		 "four hundred twenty grams or four hundred thirty grams?"},
		{"cloth sixty percent wool forty percent silk",
		 "cloth sixteen percent wool forty percent silk",
		 "sixty percent or sixteen percent?"},
		{"cloth sixty percent wool", "cloth sixty percent silk", "wool or silk?"},
		{"next", "previous", "next or previous?"},
		{"first", "second", "first or second?"},
		{"colour red", "colour dark red", "red or dark red?"},
		/* the whole, where less would not tell */
		{"chest thirteen", "waist thirteen", "chest thirteen, or waist thirteen?"},
		{"chest thirteen", "waist thirty", "chest thirteen, or waist thirty?"},
		{"chest thirteen", "chest thirty centimetres",
		 "chest thirteen inches, or chest thirty centimetres?"},
		{"flaw hole", "flaw hole left cuff", "flaw hole, or flaw hole left cuff?"},
		{"flaw hole", "flaw none", "flaw hole, or flaw none?"},
		{"strike chest", "strike waist", "strike chest, or strike waist?"},
		{"strike that", "strike chest", "strike that, or strike chest?"},
		{"cost nine", "price nine", "cost nine dollars, or price nine dollars?"},
		{"bin nine", "keep bin nine", "bin nine, or keep bin nine?"},
		{"cloth sixty percent wool", "cloth sixty percent wool forty percent silk",
		 "cloth sixty percent wool, or cloth sixty percent wool forty percent silk?"},
		{"chest thirteen", "chest thirteen", "chest thirteen?"},
	};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct call first = call_of(rows[i].first), second = call_of(rows[i].second);
		char text[1400];
		phrase_question(&first, &second, text, sizeof text);
		assert_string_equal(text, rows[i].question);
	}
}

static void
the_two_amounts_of_a_price_are_asked_apart(void **state)
{
	struct call first = call_of("price two forty"), second = first;
	char text[256];
	(void)state;
	second.money = first.money_second;
	phrase_question(&first, &second, text, sizeof text);
	assert_string_equal(text, "two dollars forty or two hundred forty dollars?");
}

static void
a_call_is_written_for_a_transcript(void **state)
{
	static const struct {
		const char *heard, *written;
	} rows[] = {
		{"chest twenty one and a half", "chest 21 1/2 in"},
		{"twenty one point five centimetres", "21.5 cm"},
		{"hem none", "hem none"},
		{"flaw small hole left cuff", "flaw: small hole, left cuff"},
		{"flaw tear one and a half inches", "flaw: tear 1 1/2 in"},
		{"flaw none", "flaw: none"},
		{"flaw other seat", "flaw: other, seat"},
		{"bin four eighty two", "bin 482"},
		{"size thirty two by thirty", "size 32x30"},
		{"maker orlscombe", "maker Orlscombe and Daughters"},
		{"keep maker quernby mill", "keep maker Quernby Mill"},
		{"cloth sixty percent cotton forty percent linen", "cloth 60 % cotton, 40 % linen"},
		{"price eighteen fifty", "price 18.50 USD"},
		{"weight four twenty", "weight 420 g"},
		{"pilling three four", "pilling 3-4"},
		{"route sale", "route sale"},
		{"keep nothing", "keep nothing"},
		{"open item nine", "open item 9"},
		{"strike flaw hole left cuff", "strike flaw hole left cuff"},
		{"help flaws", "help flaws"},
		{"second", "second"},
		{"note", "note"},
	};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct call call = call_of(rows[i].heard);
		char text[640];
		phrase_written(&call, text, sizeof text);
		assert_string_equal(text, rows[i].written);
	}
}

static void
what_does_not_fit_is_cut(void **state)
{
	uint32_t seed = 3;
	(void)state;
	for (int i = 0; i < 2000; i++) {
		struct call call = random_call(lists, &seed), other = random_call(lists, &seed);
		size_t size = 1 + draw(&seed, 40);
		char *text = malloc(size);
		assert_non_null(text);
		phrase_call(&call, PHRASE_FULL, text, size);
		assert_true(strlen(text) < size);
		phrase_written(&call, text, size);
		assert_true(strlen(text) < size);
		phrase_question(&call, &other, text, size);
		assert_true(strlen(text) < size);
		free(text);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_call_is_said_by_value_by_name_and_in_full),
		cmocka_unit_test(what_is_said_of_any_call_means_that_call),
		cmocka_unit_test(a_question_asks_what_differs),
		cmocka_unit_test(the_two_amounts_of_a_price_are_asked_apart),
		cmocka_unit_test(a_call_is_written_for_a_transcript),
		cmocka_unit_test(what_does_not_fit_is_cut),
	};
	return cmocka_run_group_tests(tests, read_lists, drop_lists);
}
