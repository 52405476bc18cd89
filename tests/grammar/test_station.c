#include "station_fixture.h"

#include "file_text.h"
#include "pronunciation.h"

#include <string.h>
#include <unistd.h>

enum { TEXT_MAX = 2000, WALKS = 3000 };

/* A small generator of the linear congruential kind, so that a failure comes again
 * (constants: Knuth, MMIX; from memory). */
static double
chance(uint64_t *seed)
{
	*seed = *seed * 6364136223846793005u + 1442695040888963407u;
	return (double)(*seed >> 11) / 9007199254740992.0;
}

/* One of the arcs that leave a state: each as likely as its weight, or as any other; with `ends`,
 * the one to the end if there is one. */
static const struct arc *
choose(const struct automaton *automaton, int state, bool by_weight, bool ends, uint64_t *seed)
{
	const struct arc *arcs = automaton_arcs(automaton), *taken = NULL;
	int count = automaton_arc_count(automaton), first = 0;
	double sum = 0, so_far = 0;

	while (first < count && arcs[first].from != state)
		first++;
	for (int i = first; i < count && arcs[i].from == state; i++) {
		sum += by_weight ? arcs[i].weight : 1;
		if (ends && arcs[i].word < 0 && automaton_final(automaton, arcs[i].to))
			return &arcs[i];
	}
	double point = sum * chance(seed);
	for (int i = first; i < count && arcs[i].from == state; i++) {
		so_far += by_weight ? arcs[i].weight : 1;
		taken = &arcs[i];
		if (so_far > point)
			break;
	}
	assert_non_null(taken);
	return taken;
}

/* Says something that the grammar allows. It comes to an end as soon as it can after so many words
 * as there may be calls in an utterance. */
static void
walk(const struct automaton *automaton, bool by_weight, uint64_t *seed, char text[TEXT_MAX])
{
	int state = 0, words = 0;
	size_t length = 0;

	text[0] = '\0';
	while (!automaton_final(automaton, state)) {
		const struct arc *arc =
			choose(automaton, state, by_weight, words >= MEANING_CALLS_MAX, seed);
		state = arc->to;
		if (arc->word < 0)
			continue;
		words++;
		length += (size_t)snprintf(text + length, TEXT_MAX - length, "%s%s",
					   length > 0 ? " " : "",
					   automaton_word(automaton, arc->word));
		assert_true(length < TEXT_MAX);
	}
}

/* The grammar has the money words of several countries, and a station has one currency: a sentence
 * has to make sense in one of them, unless it has words of two. */
static bool
understood_in_some_currency(const struct station *station, const char *text,
			    struct meaning *meaning)
{
	static const struct {
		const char *currency, *word;
	} rows[] = {{"USD", "dollar"}, {"USD", "cents"}, {"EUR", "euro"},
		    {"GBP", "pound"},  {"GBP", "pence"}, {"JPY", "yen"}};
	bool mixed = false;
	const char *first = NULL;

	for (size_t i = 0; i < COUNT(rows); i++) {
		if (understood(station, text, rows[i].currency, meaning))
			return true;
		if (strstr(text, rows[i].word) == NULL)
			continue;
		mixed = mixed || (first != NULL && strcmp(first, rows[i].currency) != 0);
		first = rows[i].currency;
	}
	return mixed;
}

static void
all_that_can_be_said_is_understood(void **state)
{
	const struct station *station = *state;
	int lost = 0;

	for (int place = 0; place < STATION_PLACES; place++) {
		uint64_t seed = 20261125u + (uint64_t)place;
		int said = 0, calls = 0, most = 0;
		for (int i = 0; i < WALKS; i++) {
			char text[TEXT_MAX];
			struct meaning meaning = {.count = 0};
			walk(station->places[place], i % 2 == 0, &seed, text);
			assert_true(automaton_standing(station->places[place], text).complete);
			if (!understood_in_some_currency(station, text, &meaning))
				print_error("%s: \"%s\" is not understood (%d)\n",
					    place_names[place], text, ++lost);
			said++;
			calls += meaning.count;
			most = meaning.count > most ? meaning.count : most;
		}
		print_message("%s: %d sentences, %d calls, at most %d in one\n", place_names[place],
			      said, calls, most);
		assert_true(said > WALKS * 9 / 10);
	}
	assert_int_equal(lost, 0);
}

static void
the_automata_stay_small(void **state)
{
	const struct station *station = *state;

	for (int place = 0; place < STATION_PLACES; place++) {
		const struct automaton *automaton = station->places[place];
		print_message("%s: %d states, %d arcs, %d words\n", place_names[place],
			      automaton_state_count(automaton), automaton_arc_count(automaton),
			      automaton_word_count(automaton));
		assert_true(automaton_state_count(automaton) < 2500);
		assert_true(automaton_arc_count(automaton) < 15000);
	}
}

static void
every_word_can_be_pronounced(void **state)
{
	static const char dictionary[] = "/usr/share/pocketsphinx/model/en-us/cmudict-en-us.dict";
	static const char phones[] =
		"AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T "
		"TH UH UW V W Y Z ZH";
	const struct station *station = *state;
	const struct automaton *automaton = station->places[STATION_QUESTION];
	struct problem problem = {""};
	const char *words[2000];
	int count = automaton_word_count(automaton), unknown = 0;

	assert_in_range(count, 1, 2000);
	for (int i = 0; i < count; i++)
		words[i] = automaton_word(automaton, i);
	struct pronunciations *pronunciations = pronunciations_create();
	char *text = file_text_in(station->grammars, "trade.dict", &problem);
	if (text == NULL ||
	    !pronunciations_read(pronunciations, "trade.dict", text, phones, &problem))
		fail_msg("%s", problem.text);
	free(text);
	if (access(dictionary, R_OK) != 0) {
		pronunciations_destroy(pronunciations);
		print_message("the large dictionary is not installed: %s\n", dictionary);
		skip();
	}
	assert_true(pronunciations_look_up(pronunciations, dictionary, words, count, &problem));
	for (int i = 0; i < count; i++) {
		if (pronunciations_has(pronunciations, words[i]))
			continue;
		print_error("neither trade.dict nor the large dictionary has \"%s\"\n", words[i]);
		unknown++;
	}
	pronunciations_destroy(pronunciations);
	assert_int_equal(unknown, 0);
}

static void
a_users_bins_can_be_said(void **state)
{
	static const char bins[] = "482\n1307 | back rail\nlong rail\nb12 | low shelf\n";
	static const char *const SAID[] = {"bin four eighty two", "bin thirteen oh seven",
					   "bin back rail", "bin long rail", "bin low shelf"};
	const struct station *station = *state;
	struct problem problem = {""};
	char path[] = "bins-XXXXXX";
	int fd = mkstemp(path);

	assert_true(fd >= 0);
	assert_int_equal(write(fd, bins, strlen(bins)), strlen(bins));
	close(fd);
	struct vocabulary *vocabulary = station_vocabulary(station->grammars, path, &problem);
	unlink(path);
	if (vocabulary == NULL)
		fail_msg("%s", problem.text);
	struct automaton *automaton = compile(vocabulary, station->grammars, STATION_ITEM);
	for (size_t i = 0; i < COUNT(SAID); i++)
		if (!automaton_standing(automaton, SAID[i]).complete)
			fail_msg("\"%s\" cannot be said", SAID[i]);
	assert_true(automaton_standing(automaton, "bin five hundred").complete);
	assert_false(automaton_standing(automaton, "bin high shelf").complete);
	automaton_destroy(automaton);
	vocabulary_destroy(vocabulary);
}

static void
a_bin_that_cannot_be_said_is_refused(void **state)
{
	const struct station *station = *state;
	struct problem problem = {""};
	char path[] = "bins-XXXXXX";
	int fd = mkstemp(path);

	assert_true(fd >= 0);
	assert_int_equal(write(fd, "482\nb12\n", 8), 8);
	close(fd);
	assert_null(station_vocabulary(station->grammars, path, &problem));
	unlink(path);
	assert_non_null(strstr(problem.text, "b12"));
	assert_null(station_vocabulary(station->grammars, path, &problem));
	assert_non_null(strstr(problem.text, path));
	assert_null(station_vocabulary("/nowhere", NULL, &problem));
	assert_non_null(strstr(problem.text, "measures.txt"));
	assert_null(station_grammar("/nowhere", station->vocabulary, STATION_ITEM, &problem));
	assert_non_null(strstr(problem.text, "station.gram"));
}

int
main(void)
{
	static const struct CMUnitTest tests[] = {
		cmocka_unit_test(all_that_can_be_said_is_understood),
		cmocka_unit_test(the_automata_stay_small),
		cmocka_unit_test(every_word_can_be_pronounced),
		cmocka_unit_test(a_users_bins_can_be_said),
		cmocka_unit_test(a_bin_that_cannot_be_said_is_refused),
	};
	return cmocka_run_group_tests(tests, open_station, close_station);
}
