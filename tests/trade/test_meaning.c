#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "lists.h"
#include "meaning.h"
#include "phrase.h"

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

/* A meaning as text: its calls as written, parted by semicolons, "no:" before a correction; "-"
 * when the words mean nothing. */
static void
mean(const char *text, char *said, size_t size)
{
	struct words words;
	struct meaning meaning;
	char written[512];

	if (!words_split(&words, text) || !meaning_read(lists, &inches, &words, &meaning)) {
		snprintf(said, size, "-");
		return;
	}
	said[0] = '\0';
	for (int i = 0; i < meaning.count; i++) {
		size_t length = strlen(said);
		phrase_written(&meaning.calls[i], written, sizeof written);
		snprintf(said + length, size - length, "%s%s%s", i > 0 ? "; " : "",
			 meaning.calls[i].correction ? "no: " : "", written);
	}
}

struct row {
	const char *words, *meaning;
};

static void
check(const struct row *rows, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		char said[2048];
		mean(rows[i].words, said, sizeof said);
		if (strcmp(said, rows[i].meaning) != 0)
			fail_msg("'%s' is '%s', should be '%s'", rows[i].words, said,
				 rows[i].meaning);
	}
}

#define CHECK(...)                                              \
	do {                                                    \
		static const struct row rows[] = {__VA_ARGS__}; \
		check(rows, sizeof rows / sizeof rows[0]);      \
	} while (0)

static void
kinds_and_measures(void **state)
{
	(void)state;
	CHECK({"kind shirt", "kind shirt"}, {"kind tee shirt", "kind t shirt"},
	      {"kind all in one", "kind all in one"}, {"kind other", "kind other"},
	      {"chest twenty one and a half", "chest 21 1/2 in"},
	      {"chest twenty one point five centimetres", "chest 21.5 cm"},
	      {"pit to pit twenty one", "chest 21 in"}, {"collar none", "collar none"},
	      {"leg opening seven and three quarters", "leg opening 7 3/4 in"},
	      {"twenty one", "21 in"}, {"none", "none"}, {"three quarters", "3/4 in"},
	      {"chest twenty one length twenty eight", "chest 21 in; length 28 in"},
	      {"kind skirt waist fourteen hip eighteen length twenty four",
	       "kind skirt; waist 14 in; hip 18 in; length 24 in"},
	      /* nonsense */
	      {"", "-"}, {"kind", "-"}, {"kind lamp", "-"}, {"chest", "-"}, {"chest chest", "-"},
	      {"twenty one chest", "-"}, {"chest twenty one lamp", "-"}, {"shirt", "-"},
	      {"chest twenty one and", "-"}, {"kind shirt blouse", "-"}, {"kind none", "-"});
}

static void
flaws_and_their_places(void **state)
{
	(void)state;
	CHECK({"flaw hole", "flaw: hole"}, {"flaw none", "flaw: none"},
	      {"flaw small hole left cuff", "flaw: small hole, left cuff"},
	      {"flaw large stain right front pocket", "flaw: large stain, right front pocket"},
	      {"flaw stain front", "flaw: stain, front"},
	      {"flaw stain left back", "flaw: stain, left back"},
	      {"flaw stain inside", "flaw: stain, inside"},
	      {"flaw stain inside collar stand", "flaw: stain, inside collar stand"},
	      {"flaw tear one and a half inches left sleeve", "flaw: tear 1 1/2 in, left sleeve"},
	      {"flaw tear half an inch", "flaw: tear 1/2 in"}, {"flaw smell", "flaw: odour"},
	      {"flaw broken zipper fly", "flaw: broken zip, fly"},
	      {"flaw other left cuff", "flaw: other, left cuff"}, {"flaw other", "flaw: other"},
	      {"flaw missing button front placket", "flaw: missing button, front placket"},
	      {"flaw hole left", "flaw: hole, left"},
	      /* nonsense */
	      {"flaw", "-"}, {"flaw small", "-"}, {"flaw cuff", "-"}, {"flaw hole cuff left", "-"},
	      {"flaw none left", "-"}, {"flaw hole left right cuff", "-"}, {"hole left cuff", "-"},
	      {"flaw hole small", "-"}, {"flaw hole front back", "-"});
}

static void
a_word_that_is_a_part_and_a_measure_is_what_uses_up_the_words(void **state)
{
	(void)state;
	CHECK({"flaw hole hem", "flaw: hole, hem"},
	      {"flaw hole hem thirty one", "flaw: hole; hem 31 in"},
	      {"flaw hole two hem thirty one", "flaw: hole 2 in; hem 31 in"},
	      {"flaw hole front hem thirty one", "flaw: hole, front; hem 31 in"},
	      {"flaw hole left sleeve twenty four", "flaw: hole, left; sleeve 24 in"},
	      {"flaw hole left front rise ten", "flaw: hole, left; front rise 10 in"},
	      {"flaw hole hem hem thirty one", "flaw: hole, hem; hem 31 in"},
	      {"flaw hole collar none", "flaw: hole; collar none"},
	      {"flaw cut leg opening seven", "flaw: cut; leg opening 7 in"},
	      {"strike flaw hem thirty one", "strike flaw; hem 31 in"});
}

static void
numbers_and_places(void **state)
{
	(void)state;
	CHECK({"item four eighty two", "item 482"}, {"bin four eight two", "bin 482"},
	      {"bin one thousand five", "bin 1005"}, {"bin the back room", "bin back room"},
	      {"item thirteen oh seven bin twenty seven fifteen", "item 1307; bin 2715"},
	      {"item", "-"}, {"bin back", "-"}, {"item other", "-"}, {"bin red", "-"});
}

static void
facts(void **state)
{
	(void)state;
	CHECK({"maker hallowick", "maker Hallowick"},
	      {"maker orlscombe and daughters", "maker Orlscombe and Daughters"},
	      {"maker orlscombe size ten", "maker Orlscombe and Daughters; size 10"},
	      {"maker other", "maker other"}, {"size extra large", "size extra large"},
	      {"size twelve", "size 12"}, {"size thirty two by thirty", "size 32x30"},
	      {"size one size", "size one size"}, {"size other", "size other"},
	      {"size one size extra large", "size 1; size extra large"},
	      {"size one size size one", "size one size; size 1"},
	      {"no size one size ten", "no: size 1; size 10"}, {"colour blue", "colour blue"},
	      {"colour gray", "colour grey"},
	      {"colour dark blue and white striped", "colour dark blue and white striped"},
	      {"colour red white and blue", "colour red white and blue"},
	      {"colour floral", "colour floral"}, {"colour other", "colour other"},
	      {"colour navy blue cost four", "colour navy; cost 4.00 USD"},
	      {"cloth sixty percent cotton thirty five percent polyester five percent elastane",
	       "cloth 60 % cotton, 35 % polyester, 5 % elastane"},
	      {"cloth a hundred percent wool", "cloth 100 % wool"},
	      {"cloth shell hundred percent wool lining sixty percent viscose forty percent silk",
	       "cloth shell 100 % wool, lining 60 % viscose, 40 % silk"},
	      {"pilling four", "pilling 4"}, {"pilling three to four", "pilling 3-4"},
	      {"pilling three four", "pilling 3-4"}, {"pilling three and a half", "pilling 3-4"},
	      {"colour change four to five", "colour change 4-5"},
	      {"weight four hundred twenty grams", "weight 420 g"},
	      {"weight one pound two ounces", "weight 510 g"}, {"cost four", "cost 4.00 USD"},
	      {"price eighteen fifty", "price 18.50 USD"},
	      {"parcel padded bag", "parcel padded bag"},
	      {"route return to owner", "route return to owner"}, {"note", "note"},
	      /* nonsense */
	      {"maker", "-"}, {"maker tidewrack", "-"}, {"size", "-"}, {"size blue", "-"},
	      {"colour", "-"}, {"colour dark", "-"}, {"colour and", "-"}, {"colour red and", "-"},
	      {"colour red and and blue", "-"}, {"colour striped red", "-"}, {"cloth cotton", "-"},
	      {"cloth sixty percent", "-"}, {"cloth zero percent wool", "-"},
	      {"cloth one hundred and five percent wool", "-"}, {"cloth lining", "-"},
	      {"pilling six", "-"}, {"pilling zero", "-"}, {"pilling four three", "-"},
	      {"pilling five to six", "-"}, {"pilling", "-"}, {"weight heavy", "-"}, {"price", "-"},
	      {"route shirt", "-"}, {"route sale sale", "-"});
}

static void
an_amount_that_may_be_two_has_a_second_reading(void **state)
{
	struct words words;
	struct meaning meaning;
	(void)state;
	assert_true(words_split(&words, "price two forty"));
	assert_true(meaning_read(lists, &inches, &words, &meaning));
	assert_int_equal(meaning.count, 1);
	assert_int_equal(meaning.calls[0].money.minor, 240);
	assert_true(meaning.calls[0].has_second);
	assert_int_equal(meaning.calls[0].money_second.minor, 24000);
	assert_true(words_split(&words, "price eighteen fifty"));
	assert_true(meaning_read(lists, &inches, &words, &meaning));
	assert_false(meaning.calls[0].has_second);
}

static void
the_setting_gives_the_unit_that_is_not_said(void **state)
{
	static const struct meaning_setting metric = {LENGTH_CENTIMETRE, "EUR"};
	struct words words;
	struct meaning meaning;
	(void)state;
	assert_true(words_split(&words, "chest fifty three length twenty eight inches cost four"));
	assert_true(meaning_read(lists, &metric, &words, &meaning));
	assert_int_equal(meaning.calls[0].length.unit, LENGTH_CENTIMETRE);
	assert_false(meaning.calls[0].unit_said);
	assert_int_equal(meaning.calls[1].length.unit, LENGTH_INCH);
	assert_true(meaning.calls[1].unit_said);
	assert_string_equal(meaning.calls[2].money.currency, "EUR");
}

static void
kept_facts(void **state)
{
	(void)state;
	CHECK({"keep bin four eighty two", "keep bin 482"},
	      {"keep maker hallowick", "keep maker Hallowick"}, {"keep nothing", "keep nothing"},
	      {"keep colour change four", "keep colour change 4"},
	      {"keep route sale chest twenty", "keep route sale; chest 20 in"}, {"keep", "-"},
	      {"keep chest twenty", "-"}, {"keep flaw hole", "-"}, {"keep item four", "-"},
	      {"keep maker other", "-"}, {"keep keep nothing", "-"}, {"keep next", "-"});
}

static void
names_that_are_spelled_out(void **state)
{
	(void)state;
	CHECK({"maker spell hotel alfa lima", "maker Hal"},
	      {"maker spell x ray juliett seven", "maker Xj7"},
	      {"maker spell alpha whisky juliet", "maker Awj"},
	      {"keep maker spell golf", "keep maker G"},
	      {"maker spell hotel alfa lima size ten", "maker Hal; size 10"},
	      {"maker marlock no spell hotel alfa", "no: maker Ha"},
	      /* nonsense */
	      {"maker spell", "-"}, {"maker hotel", "-"}, {"maker spell hat", "-"},
	      {"spell hotel", "-"}, {"maker spell hotel alfa hat", "-"});
}

static void
whom_it_is_for_and_childrens_sizes(void **state)
{
	(void)state;
	CHECK({"group children", "group children"}, {"group ladies", "group women"},
	      {"keep group kids", "keep group children"}, {"size six years", "size 6 years"},
	      {"size one year", "size 1 years"}, {"size six to seven years", "size 6 to 7 years"},
	      {"size twelve to eighteen months", "size 12 to 18 months"},
	      {"size one sixteen centimetres", "size 116 cm"},
	      {"size ninety two centimetres chest ten", "size 92 cm; chest 10 in"},
	      {"size six chest ten centimetres", "size 6; chest 10 cm"},
	      /* nonsense */
	      {"group", "-"}, {"group twelve", "-"}, {"size years", "-"},
	      {"size six to seven", "-"}, {"size six to years", "-"}, {"size medium years", "-"});
}

static void
care_labels_and_mending(void **state)
{
	(void)state;
	CHECK({"care wash thirty", "care wash thirty"},
	      {"care wash thirty very mild do not bleach dry flat",
	       "care wash thirty very mild, do not bleach, dry flat"},
	      {"care do not tumble dry iron low next", "care do not tumble dry, iron low; next"},
	      {"keep care dry clean", "keep care dry clean"},
	      {"mending new zip thirty minutes", "mending new zip 30 minutes"},
	      {"mending new zip thirty minutes fix hem ten minutes materials four fifty",
	       "mending new zip 30 minutes, fix hem 10 minutes, materials 4.50 USD"},
	      {"mending sew button", "mending sew button"},
	      {"mending sew button one minute", "mending sew button 1 minute"},
	      {"mending darn hole a hundred and twenty minutes", "mending darn hole 120 minutes"},
	      {"mending fix hem hem ten", "mending fix hem; hem 10 in"},
	      {"route mending mending new zip", "route mending; mending new zip"},
	      {"mending other", "mending other"},
	      {"mending new zip no fix hem", "no: mending fix hem"},
	      /* nonsense */
	      {"care", "-"}, {"care wash", "-"}, {"care thirty", "-"},
	      {"care wash thirty five", "-"}, {"mending", "-"}, {"mending thirty minutes", "-"},
	      {"mending new zip thirty", "-"}, {"mending new zip zero minutes", "-"},
	      {"mending materials four", "-"}, {"keep mending new zip", "-"});
}

static void
measures_and_flaws_of_a_side_or_of_a_sets_piece(void **state)
{
	(void)state;
	CHECK({"kind set part jacket chest twenty", "kind set; part jacket; chest 20 in"},
	      {"jacket chest twenty one", "jacket chest 21 in"},
	      {"jumper chest twenty one", "sweater chest 21 in"},
	      {"trousers leg opening seven", "trousers leg opening 7 in"},
	      {"left sleeve twenty four", "left sleeve 24 in"},
	      {"jacket left sleeve twenty four", "jacket left sleeve 24 in"},
	      {"strike jacket chest", "strike jacket chest"},
	      {"strike left sleeve", "strike left sleeve"},
	      {"kind jacket chest twenty", "kind jacket; chest 20 in"},
	      {"flaw hole left trousers knee", "flaw: hole, left trousers knee"},
	      {"flaw stain inside jacket collar", "flaw: stain, inside jacket collar"},
	      {"flaw stain jacket", "flaw: stain, jacket"},
	      {"flaw stain jacket chest twenty", "flaw: stain; jacket chest 20 in"},
	      {"flaw stain set aside", "flaw: stain; set aside"},
	      {"flaw snag times four left sleeve", "flaw: snag times 4, left sleeve"},
	      {"flaw small moth hole times twelve", "flaw: small moth hole times 12"},
	      {"flaw hole times two no times three", "no: flaw: hole times 3"},
	      /* nonsense */
	      {"part", "-"}, {"part set", "part set"}, {"part chest", "-"},
	      {"set chest twenty", "-"}, {"set left sleeve twenty", "-"}, {"jacket twenty", "-"},
	      {"left twenty", "-"}, {"left left sleeve twenty", "-"}, {"flaw hole times", "-"},
	      {"flaw hole times one", "-"}, {"flaw times two hole", "-"});
}

static void
orders_and_answers(void **state)
{
	(void)state;
	CHECK({"next", "next"}, {"previous", "previous"}, {"repeat", "repeat"},
	      {"strike that", "strike that"}, {"strike chest", "strike chest"},
	      {"strike leg opening", "strike leg opening"}, {"strike flaw", "strike flaw"},
	      {"strike flaw left cuff", "strike flaw left cuff"},
	      {"strike flaw hole", "strike flaw hole"},
	      {"strike flaw stain front", "strike flaw stain front"}, {"restore", "restore"},
	      {"read it all", "read it all"}, {"what is missing", "what is missing"},
	      {"where am I", "where am i"}, {"open item four eighty two", "open item 482"},
	      {"set aside", "set aside"}, {"these belong to item nine", "these belong to item 9"},
	      {"hand over to ada", "hand over to ada"}, {"ask me", "ask me"},
	      {"stop asking", "stop asking"}, {"pause", "pause"}, {"resume", "resume"},
	      {"help", "help"}, {"help flaws", "help flaws"}, {"help next", "help; next"},
	      {"first", "first"}, {"second", "second"}, {"yes", "first"}, {"no", "no"},
	      {"strike that chest twenty", "strike that; chest 20 in"},
	      /* nonsense */
	      {"strike", "-"}, {"strike shirt", "-"}, {"read it", "-"}, {"open item", "-"},
	      {"open item chest", "-"}, {"these belong to item", "-"}, {"help me", "-"},
	      {"that", "-"}, {"third", "-"}, {"hand over to", "-"}, {"hand over to chest", "-"},
	      {"hand over", "-"});
}

static void
corrections_withdraw_what_was_said_before(void **state)
{
	(void)state;
	CHECK({"chest twenty one no twenty two", "no: chest 22 in"},
	      {"twenty one no twenty two", "no: 22 in"}, {"no twenty two", "no: 22 in"},
	      {"no no twenty two", "no: 22 in"},
	      {"chest twenty one no waist twenty two", "no: waist 22 in"},
	      {"chest twenty one no chest twenty two", "no: chest 22 in"},
	      {"no chest twenty two", "no: chest 22 in"},
	      {"chest twenty one no twenty two no twenty three", "no: chest 23 in"},
	      {"waist fifteen chest twenty one no twenty two length thirty",
	       "waist 15 in; no: chest 22 in; length 30 in"},
	      {"chest twenty one no none", "no: chest none"},
	      {"chest twenty centimetres no twenty two", "no: chest 22 cm"},
	      {"chest twenty centimetres no twenty two inches", "no: chest 22 in"},
	      {"bin four eighty two no four ninety two", "no: bin 492"},
	      {"keep bin four eighty two no four ninety two", "no: keep bin 492"},
	      {"maker marlock no hallowick", "no: maker Hallowick"},
	      {"colour red no dark blue", "no: colour dark blue"},
	      {"price eighteen fifty no nineteen fifty", "no: price 19.50 USD"},
	      {"pilling three no four", "no: pilling 4"},
	      {"flaw small stain left cuff no right cuff", "no: flaw: small stain, right cuff"},
	      {"flaw stain left cuff no hole", "no: flaw: hole"},
	      {"flaw tear two inches hem no three", "no: flaw: tear 3 in, hem"},
	      {"flaw stain left cuff no flaw hole", "no: flaw: hole"},
	      {"flaw hole cuff no hem thirty one", "no: hem 31 in"}, {"next no", "no: no"},
	      {"chest twenty one no", "no: no"}, {"next no previous", "no: previous"},
	      {"kind shirt chest twenty one no", "kind shirt; no: no"}, {"yes no", "no: no"},
	      /* nonsense */
	      {"chest no twenty two", "-"}, {"chest twenty one no lamp", "-"}, {"no lamp", "-"},
	      {"flaw none no left", "-"}, {"next no twenty", "no: 20 in"},
	      {"kind shirt no twenty", "-"}, {"keep maker marlock no other", "-"});
}

static void
calls_say_where_their_words_are(void **state)
{
	struct words words;
	struct meaning meaning;
	(void)state;
	assert_true(words_split(
		&words, "kind shirt chest twenty one no twenty two hip ten no waist nineteen"));
	assert_true(meaning_read(lists, &inches, &words, &meaning));
	assert_int_equal(meaning.count, 3);
	assert_int_equal(meaning.calls[0].first_word, 0);
	assert_int_equal(meaning.calls[0].word_count, 2);
	assert_int_equal(meaning.calls[1].first_word, 2);
	assert_int_equal(meaning.calls[1].word_count, 6);
	assert_int_equal(meaning.calls[2].first_word, 10);
	assert_int_equal(meaning.calls[2].word_count, 3);
}

static void
a_bare_value_opens_an_utterance_or_follows_an_order(void **state)
{
	(void)state;
	CHECK({"strike that twenty two", "strike that; 22 in"}, {"yes none", "first; none"},
	      {"chest twenty one none", "-"}, {"pilling four three", "-"},
	      {"twenty one kind shirt twenty two", "-"}, {"kind shirt twenty one", "-"});
}

static void
eight_calls_fit_and_nine_do_not(void **state)
{
	(void)state;
	CHECK({"next next next next next next next next",
	       "next; next; next; next; next; next; next; next"},
	      {"next next next next next next next next next", "-"},
	      {"next next next next next next next next no previous",
	       "next; next; next; next; next; next; next; no: previous"});
}

static void
meanings_are_the_same_however_said(void **state)
{
	static const struct {
		const char *one, *other;
		bool same;
	} rows[] = {
		{"chest twenty one and a half", "chest twenty one point five", true},
		{"chest twenty one", "chest twenty one inches", true},
		{"kind t shirt", "kind tee shirt", true},
		{"flaw smell left cuff", "flaw odour left cuff", true},
		{"bin four eighty two", "bin four eight two", true},
		{"yes", "first", true},
		{"chest thirteen", "chest thirty", false},
		{"chest thirteen", "waist thirteen", false},
		{"chest thirteen", "chest thirteen centimetres", false},
		{"chest thirteen", "chest none", false},
		{"chest thirteen", "no chest thirteen", false},
		{"flaw hole", "flaw hole left", false},
		{"chest thirteen next", "chest thirteen", false},
		{"keep bin four", "bin four", false},
		{"cost four", "price four", false},
		{"cloth sixty percent wool forty percent silk",
		 "cloth sixteen percent wool forty percent silk", false},
	};
	(void)state;
	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct words one_words, other_words;
		struct meaning one, other;
		assert_true(words_split(&one_words, rows[i].one));
		assert_true(words_split(&other_words, rows[i].other));
		assert_true(meaning_read(lists, &inches, &one_words, &one));
		assert_true(meaning_read(lists, &inches, &other_words, &other));
		if (meaning_same(&one, &other) != rows[i].same)
			fail_msg("'%s' and '%s'", rows[i].one, rows[i].other);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(kinds_and_measures),
		cmocka_unit_test(flaws_and_their_places),
		cmocka_unit_test(a_word_that_is_a_part_and_a_measure_is_what_uses_up_the_words),
		cmocka_unit_test(numbers_and_places),
		cmocka_unit_test(facts),
		cmocka_unit_test(an_amount_that_may_be_two_has_a_second_reading),
		cmocka_unit_test(the_setting_gives_the_unit_that_is_not_said),
		cmocka_unit_test(kept_facts),
		cmocka_unit_test(names_that_are_spelled_out),
		cmocka_unit_test(whom_it_is_for_and_childrens_sizes),
		cmocka_unit_test(care_labels_and_mending),
		cmocka_unit_test(measures_and_flaws_of_a_side_or_of_a_sets_piece),
		cmocka_unit_test(orders_and_answers),
		cmocka_unit_test(corrections_withdraw_what_was_said_before),
		cmocka_unit_test(calls_say_where_their_words_are),
		cmocka_unit_test(a_bare_value_opens_an_utterance_or_follows_an_order),
		cmocka_unit_test(eight_calls_fit_and_nine_do_not),
		cmocka_unit_test(meanings_are_the_same_however_said),
	};
	return cmocka_run_group_tests(tests, read_lists, drop_lists);
}
