/* meaning.c fed with chance: calls that must be understood, and words that must do no harm. */
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

static void
several_random_calls_in_one_breath_are_read_apart_again(void **state)
{
	uint32_t seed = 20251125;
	(void)state;
	for (int i = 0; i < 20000; i++) {
		struct call said[3];
		char text[WORDS_TEXT_MAX] = "";
		struct words words;
		struct meaning meaning;
		for (int j = 0; j < 3; j++) {
			char phrase[640];
			said[j] = random_call(lists, &seed);
			phrase_call(&said[j], PHRASE_FULL, phrase, sizeof phrase);
			words_append(text, sizeof text, phrase);
		}
		if (strlen(text) > 700 || !words_split(&words, text))
			continue; /* three long cloths are more than a breath */
		if (!meaning_read(lists, &inches, &words, &meaning) || meaning.count != 3)
			fail_msg("'%s'", text);
		for (int j = 0; j < 3; j++)
			if (!call_same(&meaning.calls[j], &said[j]))
				fail_msg("'%s', call %d", text, j);
	}
}

/* Words of every list and of every number, and those that open calls. */
static const char *
draw_word(uint32_t *seed, char *room, size_t size)
{
	static const char *const words[] = {
		"no",	 "no",	   "flaw",   "kind",   "bin",	  "item",   "left",    "front",
		"hem",	 "sleeve", "chest",  "none",   "other",	  "twenty", "one",     "and",
		"a",	 "half",   "point",  "oh",     "small",	  "hole",   "keep",    "nothing",
		"to",	 "strike", "that",   "inches", "hundred", "cloth",  "percent", "cotton",
		"size",	 "by",	   "colour", "change", "price",	  "next",   "help",    "open",
		"waist", "thirty", "maker",  "weight", "pound",	  "lamp",   "'",       "first",
	};
	if (draw(seed, 4) > 0)
		return words[draw(seed, sizeof words / sizeof words[0])];
	snprintf(room, size, "%s", draw_name(lists, (enum list)draw(seed, LIST_BIN), seed));
	return room;
}

/* What must hold of any meaning: the calls lie one after another to the last word, nothing between
 * them but what a "no" withdrew, and each means the same again when it is said. */
static void
check_meaning(const char *text, const struct words *words, const struct meaning *meaning)
{
	int end = 0;
	for (int i = 0; i < meaning->count; i++) {
		struct call call = meaning->calls[i];
		bool gap = call.first_word != end;
		if (call.word_count < 1 || call.first_word < end || (gap && !call.correction))
			fail_msg("'%s', call %d", text, i);
		end = call.first_word + call.word_count;

		char phrase[640];
		struct words again;
		struct meaning read;
		call.correction = false;
		call.has_second = false;
		memset(&call.money_second, 0, sizeof call.money_second);
		phrase_call(&call, PHRASE_FULL, phrase, sizeof phrase);
		assert_true(words_split(&again, phrase));
		if (!meaning_read(lists, &inches, &again, &read) || read.count != 1 ||
		    !call_same(&read.calls[0], &call))
			fail_msg("'%s', call %d is '%s'", text, i, phrase);
	}
	if (end != words->count)
		fail_msg("'%s': words are left over", text);
}

static void
word_salads_mean_nothing_or_use_up_all_their_words(void **state)
{
	uint32_t seed = 7;
	int meant = 0;
	(void)state;
	for (int i = 0; i < 100000; i++) {
		char text[WORDS_TEXT_MAX] = "", phrase[640];
		struct words words;
		struct meaning meaning;
		uint32_t pieces = 1 + draw(&seed, 6);
		for (uint32_t j = 0; j < pieces; j++) {
			/* half of it calls, so that there is something to be read wrongly */
			if (draw(&seed, 2) == 0) {
				struct call call = random_call(lists, &seed);
				phrase_call(&call, PHRASE_NAMED, phrase, sizeof phrase);
				words_append(text, sizeof text, phrase);
			} else {
				words_append(text, sizeof text,
					     draw_word(&seed, phrase, sizeof phrase));
			}
		}
		if (!words_split(&words, text))
			continue;
		if (meaning_read(lists, &inches, &words, &meaning)) {
			meant++;
			check_meaning(text, &words, &meaning);
		} else {
			assert_int_equal(meaning.count, 0);
		}
	}
	assert_true(meant > 1000);
}

static void
long_hesitations_are_read_in_no_time(void **state)
{
	static const char *const pieces[] = {"flaw hole left front hem no ", "chest one no ",
					     "flaw hole hem ", "flaw cut front rise one no "};
	(void)state;
	for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++) {
		char text[WORDS_TEXT_MAX] = "";
		struct words split;
		struct meaning meaning;
		for (int words = 0; words < 80; words += 6)
			strcat(text, pieces[i]);
		strcat(text, "lamp");
		assert_true(words_split(&split, text));
		assert_false(meaning_read(lists, &inches, &split, &meaning));
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(several_random_calls_in_one_breath_are_read_apart_again),
		cmocka_unit_test(word_salads_mean_nothing_or_use_up_all_their_words),
		cmocka_unit_test(long_hesitations_are_read_in_no_time),
	};
	return cmocka_run_group_tests(tests, read_lists, drop_lists);
}
