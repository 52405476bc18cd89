/* mean: what the measuring scripts want to know of the station, from the program's own code.
 *
 * Usage: mean GRAMMARS < TEXTS              what each line means: a JSON array of calls (empty:
 * none) mean GRAMMARS --standing < TEXTS   whether each is a sentence, and may be lengthened: "1 0"
 *        mean GRAMMARS --grammar            the grammar of an open item, as JSGF
 *        mean GRAMMARS --graph              the same as a word graph that PocketSphinx reads
 *        mean GRAMMARS --dictionary FILE    how its words are said; FILE is the large dictionary */
#include "automaton.h"
#include "call_json.h"
#include "file_text.h"
#include "jsgf.h"
#include "meaning.h"
#include "pronunciation.h"
#include "station.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct station {
	struct vocabulary *vocabulary;
	char *grammar;
	struct automaton *automaton;
};

static bool
station_open(struct station *station, const char *folder, struct problem *problem)
{
	station->vocabulary = station_vocabulary(folder, NULL, problem);
	if (station->vocabulary == NULL)
		return false;
	station->grammar = station_grammar(folder, station->vocabulary, STATION_ITEM, problem);
	if (station->grammar == NULL)
		return false;
	struct jsgf *jsgf = jsgf_parse("station.gram", station->grammar, problem);
	if (jsgf != NULL)
		station->automaton = automaton_compile(jsgf, 0, problem);
	jsgf_destroy(jsgf);
	return station->automaton != NULL;
}

static void
station_close(struct station *station)
{
	automaton_destroy(station->automaton);
	free(station->grammar);
	vocabulary_destroy(station->vocabulary);
}

static void
print_meaning(const struct station *station, const char *line)
{
	struct meaning_setting setting = {LENGTH_INCH, "USD"};
	struct words words;
	struct meaning meaning;
	json_t *list = json_array();
	if (words_split(&words, line) &&
	    meaning_read(station->vocabulary, &setting, &words, &meaning))
		for (int i = 0; i < meaning.count; i++)
			json_array_append_new(list, call_to_json(&meaning.calls[i]));
	json_dumpf(list, stdout, JSON_COMPACT | JSON_SORT_KEYS);
	putchar('\n');
	json_decref(list);
}

static void
print_standing(const struct station *station, const char *line)
{
	struct standing standing = automaton_standing(station->automaton, line);
	printf("%d %d\n", standing.complete, standing.lengthens);
}

static bool
print_each(const struct station *station, void (*print)(const struct station *, const char *))
{
	char line[WORDS_TEXT_MAX];
	while (fgets(line, sizeof line, stdin) != NULL) {
		line[strcspn(line, "\n")] = '\0';
		print(station, line);
	}
	return true;
}

static bool
print_graph(const struct automaton *automaton)
{
	const struct arc *arcs = automaton_arcs(automaton);
	int states = automaton_state_count(automaton);
	printf("FSG_BEGIN station\nNUM_STATES %d\nSTART_STATE 0\n", states);
	for (int state = 0; state < states; state++)
		if (automaton_final(automaton, state))
			printf("FINAL_STATE %d\n", state);
	for (int i = 0; i < automaton_arc_count(automaton); i++)
		printf("TRANSITION %d %d %.9g %s\n", arcs[i].from, arcs[i].to,
		       (double)arcs[i].weight,
		       arcs[i].word < 0 ? "" : automaton_word(automaton, arcs[i].word));
	printf("FSG_END\n");
	return true;
}

static bool
know_words(struct pronunciations *known, const char *folder, const char *large,
	   const char *const *words, int count, struct problem *problem)
{
	char path[4096];
	snprintf(path, sizeof path, "%s/trade.dict", folder);
	char *text = file_text(path, problem);
	bool done = text != NULL && pronunciations_read(known, path, text, NULL, problem) &&
		    pronunciations_look_up(known, large, words, count, problem);
	free(text);
	for (int i = 0; done && i < count; i++)
		done = pronunciations_has(known, words[i]) ||
		       pronunciations_work_out(known, words[i], problem);
	return done;
}

static bool
print_dictionary(const struct station *station, const char *folder, const char *large,
		 struct problem *problem)
{
	int count = automaton_word_count(station->automaton);
	const char **words = calloc((size_t)count + 1, sizeof *words);
	struct pronunciations *known = pronunciations_create();
	char *text = NULL;
	for (int i = 0; words != NULL && i < count; i++)
		words[i] = automaton_word(station->automaton, i);
	if (words != NULL && known != NULL &&
	    know_words(known, folder, large, words, count, problem))
		text = pronunciations_dictionary(known, words, count);
	if (text != NULL)
		printf("%s", text);
	pronunciations_destroy(known);
	free(words);
	free(text);
	return text != NULL;
}

static bool
answer(const struct station *station, int count, char **argument, struct problem *problem)
{
	const char *what = count > 2 ? argument[2] : "";
	if (count == 2)
		return print_each(station, print_meaning);
	if (strcmp(what, "--standing") == 0)
		return print_each(station, print_standing);
	if (strcmp(what, "--grammar") == 0)
		return printf("%s", station->grammar) >= 0;
	if (strcmp(what, "--graph") == 0)
		return print_graph(station->automaton);
	if (strcmp(what, "--dictionary") == 0 && count == 4)
		return print_dictionary(station, argument[1], argument[3], problem);
	return problem_say(problem, "what is \"%s\"? The usage stands at the top of mean.c", what);
}

int
main(int count, char **argument)
{
	struct problem problem = {"usage: mean GRAMMARS [--standing | --grammar | --graph]"};
	struct station station = {NULL, NULL, NULL};
	bool done = count >= 2 && station_open(&station, argument[1], &problem) &&
		    answer(&station, count, argument, &problem);
	if (!done)
		fprintf(stderr, "mean: %s\n", problem.text);
	station_close(&station);
	return done ? 0 : 1;
}
