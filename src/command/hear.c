/* lapel hear: recordings through the ears of the station. */
#include "folders.h"
#include "furnish.h"
#include "heard_json.h"
#include "options.h"
#include "settings.h"
#include "sound_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
	"lapel hear: decode recordings through the same ears as the live station\n\n"
	"Usage: lapel hear [OPTION...] FILE...\n\n"
	"Prints one JSON object a line for each stretch of speech. Each file (WAV, FLAC; 16 kHz\n"
	"mono, others are converted) is a fresh start.\n\n"
	"  --in PLACE         item (an item is open, free order; the default), asked:MEASURE (the\n"
	"                     station has just asked for it), question, or paused (only resume is\n"
	"                     waited for)\n"
	"  --whole            each file is one utterance, never split\n"
	"  --grammar FILE     a JSGF file in place of the station's grammar (its public rule)\n"
	"  --words FILE       pronunciations in the model's phones: WORD PHONE PHONE ...; words\n"
	"                     that have none anywhere are worked out\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n";

struct options {
	const char *grammar, *words, *settings;
	bool whole;
	enum ears_place place;
	char measure[CALL_NAME_MAX];
};

static bool
read_place(const char *text, struct options *options)
{
	static const struct {
		const char *name;
		enum ears_place place;
	} places[] = {{"item", EARS_ITEM}, {"question", EARS_QUESTION}, {"paused", EARS_PAUSED}};
	for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
		if (strcmp(text, places[i].name) == 0) {
			options->place = places[i].place;
			return true;
		}
	}
	if (strncmp(text, "asked:", 6) != 0 || text[6] == '\0')
		return false;
	options->place = EARS_ASKED;
	snprintf(options->measure, sizeof options->measure, "%s", text + 6);
	return true;
}

static void
print_event(const char *file, const struct ears_event *event, bool own_grammar)
{
	if (!event->decided)
		return;
	json_t *object = heard_json(file, event->utterance, own_grammar);
	json_dumpf(object, stdout, JSON_COMPACT | JSON_REAL_PRECISION(6));
	putchar('\n');
	fflush(stdout);
	json_decref(object);
}

static bool
hear_file(struct ears *ears, const char *file, bool own_grammar, struct problem *problem)
{
	int16_t *samples = NULL;
	int64_t count = 0;
	struct ears_event event;
	if (!sound_file_read(file, &samples, &count, problem))
		return false;
	ears_restart(ears);
	for (int64_t at = 0; at < count;) {
		at += ears_feed(ears, samples + at, count - at, &event);
		print_event(file, &event, own_grammar);
	}
	ears_end(ears, &event);
	print_event(file, &event, own_grammar);
	free(samples);
	return true;
}

static int
hear_files(struct options *options, int count, char **files)
{
	struct problem problem = {""};
	struct folders folders;
	struct settings settings;
	struct vocabulary *vocabulary = NULL;
	struct ears *ears = NULL;
	int status = DONE;
	if (!settings_read(&settings, options->settings, &problem) ||
	    !folders_find(&folders, &problem))
		return command_failed(&problem);
	vocabulary = furnish_vocabulary(&folders, &settings, &problem);
	if (vocabulary == NULL)
		return command_failed(&problem);
	if (options->place == EARS_ASKED &&
	    vocabulary_find(vocabulary, LIST_MEASURE, options->measure) < 0) {
		status = command_wrong_use(&command_hear, "--in asked:%s: there is no such measure",
					   options->measure);
		goto finished;
	}
	struct ears_setting setting = furnish_ears(&folders, &settings, vocabulary);
	setting.grammar = options->grammar;
	setting.words = options->words;
	setting.whole = options->whole;
	ears = ears_open(&setting, &problem);
	if (ears == NULL) {
		status = command_failed(&problem);
		goto finished;
	}
	ears_expect(ears, options->place, options->measure);
	for (int i = 0; i < count; i++)
		if (!hear_file(ears, files[i], options->grammar != NULL, &problem))
			status = command_failed(&problem);
finished:
	ears_close(ears);
	vocabulary_destroy(vocabulary);
	return status;
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {.place = EARS_ITEM};
	const char *place = NULL;
	const struct option_row rows[] = {{"in", &place, NULL},
					  {"whole", NULL, &options.whole},
					  {"grammar", &options.grammar, NULL},
					  {"words", &options.words, NULL},
					  {"settings", &options.settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (place != NULL && !read_place(place, &options))
		return command_wrong_use(command, "--in does not know \"%s\"", place);
	if (rest == count)
		return command_wrong_use(command, "no file was named");
	return hear_files(&options, count - rest, argument + rest);
}

const struct command command_hear = {"hear", "decode recordings, as JSON Lines", help, run};
