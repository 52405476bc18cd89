/* lapel words: the grammars' words looked over, and what may be said on paper. */
#include "file_text.h"
#include "folders.h"
#include "furnish.h"
#include "jsgf.h"
#include "options.h"
#include "pronunciation.h"
#include "settings.h"
#include "sketch.h"
#include "station.h"
#include "words_card.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
	"lapel words: what may be said\n\n"
	"Usage: lapel words check [--grammar FILE.gram] [--words FILE.dict]\n"
	"       lapel words card [--to FILE.pdf]\n"
	"       lapel words sheet --to FILE.pdf\n\n"
	"check looks every word of the grammars and lists up, and prints how it takes those to be\n"
	"said that are in no dictionary; 1 if one cannot be pronounced. card is a page to pin up: "
	"all\n"
	"calls and lists; without a file, as text. sheet shows where each measure is taken.\n\n"
	"  --to FILE.pdf      where the page goes\n"
	"  --grammar FILE     check: a JSGF file in place of the station's grammar\n"
	"  --words FILE       check: a dictionary of yours, in the model's phones\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n";

struct options {
	const char *to, *grammar, *words, *settings;
};

struct wording {
	struct folders folders;
	struct settings settings;
	struct vocabulary *vocabulary;
};

enum { PLACES_MAX = STATION_PLACES };

static bool
read_dictionary(struct pronunciations *known, const char *file, char *text, struct problem *problem)
{
	bool read = text != NULL && pronunciations_read(known, file, text, NULL, problem);
	free(text);
	return read;
}

/* Prints how the word is said if that was worked out; false when it cannot be said. */
static bool
check_word(struct pronunciations *known, const char *word)
{
	struct problem problem = {""};
	if (pronunciations_has(known, word))
		return true;
	if (!pronunciations_work_out(known, word, &problem)) {
		fprintf(stderr, "lapel: %s\n", problem.text);
		return false;
	}
	printf("%-20s %s\n", word, pronunciations_of(known, word, 0));
	return true;
}

static bool
check_words(const struct wording *wording, const struct options *options, const struct jsgf *jsgf,
	    struct pronunciations *known, int *bad, struct problem *problem)
{
	int count = jsgf_word_count(jsgf);
	const char **words = calloc((size_t)count + 1, sizeof *words);
	if (words == NULL)
		return problem_say(problem, "there is not enough memory");
	for (int i = 0; i < count; i++)
		words[i] = jsgf_word(jsgf, i);
	bool done =
		(options->words == NULL ||
		 read_dictionary(known, options->words, file_text(options->words, problem),
				 problem)) &&
		read_dictionary(known, "trade.dict",
				file_text_in(wording->folders.grammars, "trade.dict", problem),
				problem) &&
		pronunciations_look_up(known, wording->folders.dictionary, words, count, problem);
	for (int i = 0; done && i < count; i++)
		*bad += !check_word(known, words[i]);
	free(words);
	return done;
}

/* The grammar of one place of the conversation, or the user's own. */
static struct jsgf *
read_grammar(const struct wording *wording, const struct options *options, int place,
	     struct problem *problem)
{
	const char *file = options->grammar != NULL ? options->grammar : "station.gram";
	char *text = options->grammar != NULL
			     ? file_text(file, problem)
			     : station_grammar(wording->folders.grammars, wording->vocabulary,
					       (enum station_place)place, problem);
	struct jsgf *jsgf = text != NULL ? jsgf_parse(file, text, problem) : NULL;
	free(text);
	return jsgf;
}

static bool
check(const struct wording *wording, const struct options *options, struct problem *problem)
{
	struct pronunciations *known = pronunciations_create();
	int bad = 0, places = options->grammar != NULL ? 1 : PLACES_MAX;
	bool done = known != NULL || problem_say(problem, "there is not enough memory");
	for (int place = 0; done && place < places; place++) {
		struct jsgf *jsgf = read_grammar(wording, options, place, problem);
		done = jsgf != NULL && check_words(wording, options, jsgf, known, &bad, problem);
		jsgf_destroy(jsgf);
	}
	pronunciations_destroy(known);
	if (done && bad > 0)
		return problem_say(
			problem,
			"%d %s cannot be pronounced: take %s off the lists, or write how "
			"%s said into trade.dict",
			bad, bad == 1 ? "word" : "words", bad == 1 ? "it" : "them",
			bad == 1 ? "it is" : "they are");
	return done;
}

static bool
sheet(const struct wording *wording, const struct options *options, struct problem *problem)
{
	char *text = file_text_in(wording->folders.grammars, "sketches.txt", problem);
	struct sketch_book *book =
		text != NULL ? sketch_book_read("sketches.txt", text, problem) : NULL;
	free(text);
	bool done =
		book != NULL && sketch_sheet_file(book, wording->vocabulary, options->to, problem);
	sketch_book_destroy(book);
	return done;
}

static bool
card(const struct wording *wording, const struct options *options, struct problem *problem)
{
	if (options->to != NULL)
		return words_card(wording->vocabulary, options->to, problem);
	words_card_print(wording->vocabulary, stdout);
	return true;
}

static const struct {
	const char *name;
	bool (*act)(const struct wording *wording, const struct options *options,
		    struct problem *problem);
	bool to_file; /* can only be that */
} acts[] = {{"check", check, false}, {"card", card, false}, {"sheet", sheet, true}};

enum { ACTS = sizeof acts / sizeof *acts };

static int
act_on(int which, const struct options *options)
{
	struct problem problem = {""};
	struct wording *wording = calloc(1, sizeof *wording);
	bool done = wording != NULL &&
		    settings_read(&wording->settings, options->settings, &problem) &&
		    folders_find(&wording->folders, &problem);
	if (done) {
		wording->vocabulary =
			furnish_vocabulary(&wording->folders, &wording->settings, &problem);
		done = wording->vocabulary != NULL && acts[which].act(wording, options, &problem);
	}
	if (wording != NULL)
		vocabulary_destroy(wording->vocabulary);
	free(wording);
	return done ? DONE : command_failed(&problem);
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const struct option_row rows[] = {{"to", &options.to, NULL},
					  {"grammar", &options.grammar, NULL},
					  {"words", &options.words, NULL},
					  {"settings", &options.settings, NULL}};
	int rest, status, which = 0;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count - 1)
		return command_wrong_use(command, "one of check, card and sheet is wanted");
	while (which < ACTS && strcmp(argument[rest], acts[which].name) != 0)
		which++;
	if (which == ACTS)
		return command_wrong_use(command, "\"%s\" is none of check, card and sheet",
					 argument[rest]);
	if (acts[which].to_file && options.to == NULL)
		return command_wrong_use(command, "--to FILE.pdf is missing");
	return act_on(which, &options);
}

const struct command command_words = {"words", "check the words; print what may be said", help,
				      run};
