/* Finding the sentences of a grammar in what the network hears. */
#include "search.h"

#include "small_network.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

/* Searches `frames` frames, heard as said, for what a rule can say; the words are "ah", "aha"
 * (twice as long) and "mute", which has no sound. */
static void
find(struct network *network, const char *rule, const int *said, int frames, struct found *found)
{
	static const char *const words[] = {"ah", "aha", "mute"};
	char text[256];
	struct problem problem = {""};
	snprintf(text, sizeof text, "#JSGF V1.0;\ngrammar g;\npublic <g> = %s;\n", rule);
	struct jsgf *jsgf = jsgf_parse("g", text, &problem);
	struct automaton *automaton = automaton_compile(jsgf, 0, &problem);
	jsgf_destroy(jsgf);
	assert_non_null(automaton);
	struct pronunciations *known = pronunciations_create();
	assert_true(
		pronunciations_read(known, "words", "ah AA\naha AA AA\nmute ZH\n", NULL, &problem));
	struct sounding *sounding = sounding_create(network, known, words, 3);
	pronunciations_destroy(known);
	struct search *search =
		search_create(automaton, sounding, network_outputs(network), &search_usual);
	assert_non_null(search);
	float *bands = malloc(sizeof *bands * BANDS * (size_t)frames);
	assert_non_null(bands);
	small_network_frames(said, frames, bands);
	float *scores = network_scores(network, bands, frames);
	assert_non_null(scores);
	/* a search can be used again */
	assert_true(search_find(search, scores, frames, found));
	assert_true(search_find(search, scores, frames, found));
	free(scores);
	free(bands);
	search_destroy(search);
	sounding_destroy(sounding);
	automaton_destroy(automaton);
}

static const int ah_ah[] = {0, 0, 1, 1, 2, 2, 0, 1, 2, 2, 0, 0};
enum { AH_AH = sizeof ah_ah / sizeof *ah_ah };

static void
what_was_said_is_found_first(void **state)
{
	struct found found;
	find(*state, "ah | ah ah | ah ah ah", ah_ah, AH_AH, &found);
	assert_string_equal(found.texts[0].text, "ah ah");
	find(*state, "( ah )+", ah_ah, AH_AH, &found);
	assert_string_equal(found.texts[0].text, "ah ah");
}

static void
the_grammar_decides_what_may_be_found(void **state)
{
	struct found found;
	find(*state, "ah | aha", ah_ah, AH_AH, &found);
	for (int i = 0; i < found.count; i++)
		assert_true(strcmp(found.texts[i].text, "ah") == 0 ||
			    strcmp(found.texts[i].text, "aha") == 0);
	assert_int_equal(found.count, 2);
}

static void
all_is_told_once_and_best_first(void **state)
{
	struct found found;
	find(*state, "( ah | aha )+", ah_ah, AH_AH, &found);
	assert_true(found.count > 2);
	for (int i = 1; i < found.count; i++) {
		assert_true(found.texts[i].score <= found.texts[i - 1].score + 1e-6);
		for (int k = 0; k < i; k++)
			assert_string_not_equal(found.texts[i].text, found.texts[k].text);
	}
}

static void
what_the_grammar_weighs_more_wins_a_tie(void **state)
{
	static const int said[] = {0, 1, 1, 2, 2, 0};
	struct found found;
	find(*state, "/9/ ah | /1/ aha", said, 6, &found);
	assert_string_equal(found.texts[0].text, "ah");
}

static void
nothing_is_found_in_too_few_frames_or_without_a_sound(void **state)
{
	static const int said[] = {1, 2, 0};
	struct found found;
	find(*state, "aha aha", said, 3, &found);
	assert_int_equal(found.count, 0);
	find(*state, "mute", said, 3, &found);
	assert_int_equal(found.count, 0);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_was_said_is_found_first),
		cmocka_unit_test(the_grammar_decides_what_may_be_found),
		cmocka_unit_test(all_is_told_once_and_best_first),
		cmocka_unit_test(what_the_grammar_weighs_more_wins_a_tie),
		cmocka_unit_test(nothing_is_found_in_too_few_frames_or_without_a_sound),
	};
	return cmocka_run_group_tests(tests, small_network_set_up, small_network_tear_down);
}
