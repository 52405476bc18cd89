#include "hearing.h"

#include "file_text.h"
#include "pronunciation.h"
#include "station.h"

#include <sphinxbase/err.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The phones of the model. */
static const char phones[] =
	"AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY "
	"P R S SH T TH UH UW V W Y Z ZH";

static const struct {
	enum station_place place;
} places[EARS_PLACES] = {
	[EARS_ITEM] = {STATION_ITEM},
	[EARS_ASKED] = {STATION_ASKED},
	[EARS_QUESTION] = {STATION_QUESTION},
	[EARS_PAUSED] = {STATION_PAUSED},
};

static struct automaton *
compile(const char *file, const char *text, struct problem *problem)
{
	struct jsgf *jsgf = jsgf_parse(file, text, problem);
	struct automaton *automaton = NULL;
	if (jsgf != NULL)
		automaton = automaton_compile(jsgf, 0, problem);
	jsgf_destroy(jsgf);
	return automaton;
}

static bool
compile_grammars(struct hearing *hearing, struct problem *problem)
{
	const struct ears_setting *setting = &hearing->setting;
	if (hearing->own_grammar) {
		char *text = file_text(setting->grammar, problem);
		if (text != NULL)
			hearing->grammars[0] = compile(setting->grammar, text, problem);
		free(text);
		return hearing->grammars[0] != NULL;
	}
	for (int i = 0; i < EARS_PLACES; i++) {
		char *text = station_grammar(setting->grammars, setting->vocabulary,
					     places[i].place, problem);
		if (text != NULL)
			hearing->grammars[i] = compile("station.gram", text, problem);
		free(text);
		if (hearing->grammars[i] == NULL)
			return false;
	}
	return true;
}

static bool
read_dictionary(struct pronunciations *known, const char *folder, const char *name,
		const char *allowed, struct problem *problem)
{
	char path[4096];
	snprintf(path, sizeof path, "%s%s%s", folder, *folder != '\0' ? "/" : "", name);
	char *text = file_text(path, problem);
	bool done = text != NULL && pronunciations_read(known, path, text, allowed, problem);
	free(text);
	return done;
}

/* Every word once, over all grammars. */
static int
collect_words(const struct hearing *hearing, const char **words, int most)
{
	int count = 0;
	for (int g = 0; g < EARS_PLACES; g++) {
		const struct automaton *grammar = hearing->grammars[g];
		for (int i = 0; grammar != NULL && i < automaton_word_count(grammar); i++) {
			const char *word = automaton_word(grammar, i);
			bool known = false;
			for (int k = 0; k < count && !known; k++)
				known = strcmp(words[k], word) == 0;
			if (!known && count < most)
				words[count++] = word;
		}
	}
	return count;
}

/* How all words sound, as a dictionary that the caller frees: by the caller's own, ours, the large
 * one, or worked out. */
static char *
dictionary_of(const struct hearing *hearing, const char *const *words, int count,
	      struct problem *problem)
{
	const struct ears_setting *setting = &hearing->setting;
	struct pronunciations *known = pronunciations_create();
	char *dictionary = NULL;
	bool done = known != NULL &&
		    (setting->words == NULL ||
		     read_dictionary(known, "", setting->words, phones, problem)) &&
		    read_dictionary(known, setting->grammars, "trade.dict", phones, problem) &&
		    pronunciations_look_up(known, setting->dictionary, words, count, problem);
	for (int i = 0; done && i < count; i++)
		done = pronunciations_has(known, words[i]) ||
		       pronunciations_work_out(known, words[i], problem);
	if (done)
		dictionary = pronunciations_dictionary(known, words, count);
	pronunciations_destroy(known);
	return dictionary;
}

/* How they sound in the network's phones: the number words have phones of their own. */
static struct sounding *
sound_words(const struct hearing *hearing, const char *const *words, int count,
	    const char *dictionary, struct problem *problem)
{
	struct sounding *sounding = NULL;
	struct pronunciations *known = pronunciations_create();
	if (known != NULL &&
	    read_dictionary(known, hearing->setting.own_model, "numbers.dict", NULL, problem) &&
	    pronunciations_read(known, "dictionary", dictionary, phones, problem))
		sounding = sounding_create(hearing->network, known, words, count);
	pronunciations_destroy(known);
	return sounding;
}

static bool
open_network(struct hearing *hearing, const char *const *words, int count, const char *dictionary,
	     struct problem *problem)
{
	char path[4096];
	snprintf(path, sizeof path, "%s/numbers.net", hearing->setting.own_model);
	hearing->network = network_read(path, problem);
	if (hearing->network == NULL)
		return false;
	problem_say(problem, "there is not enough memory");
	hearing->sounding = sound_words(hearing, words, count, dictionary, problem);
	if (hearing->sounding != NULL)
		hearing->laying = laying_create(hearing->network, hearing->sounding);
	bool done = hearing->laying != NULL;
	for (int i = 0; done && i < EARS_PLACES; i++) {
		if (hearing->grammars[i] == NULL)
			continue;
		hearing->searches[i] =
			search_create(hearing->grammars[i], hearing->sounding,
				      network_outputs(hearing->network), &search_usual);
		done = hearing->searches[i] != NULL;
	}
	return done;
}

static bool
open_recogniser(struct hearing *hearing, const char *dictionary, struct problem *problem)
{
	const char *model = hearing->setting.model;
	char *parameters = file_text_in(model, "feat.params", problem);
	if (parameters != NULL)
		hearing->spectrum = spectrum_open(parameters, problem);
	if (hearing->spectrum != NULL)
		hearing->recogniser = recogniser_open(model, parameters, dictionary, problem);
	free(parameters);
	return hearing->recogniser != NULL;
}

static bool
open_presence(struct hearing *hearing, struct problem *problem)
{
	char path[4096];
	snprintf(path, sizeof path, "%s/presence.net", hearing->setting.own_model);
	hearing->presence = presence_read(path, problem);
	return hearing->presence != NULL;
}

static bool
read_judge(struct hearing *hearing, struct problem *problem)
{
	char *weights = file_text_in(hearing->setting.own_model, "judge.txt", problem);
	bool done = weights != NULL && judge_read(&hearing->judge, "judge.txt", weights, problem);
	free(weights);
	return done;
}

bool
hearing_init(struct hearing *hearing, const struct ears_setting *setting, struct problem *problem)
{
	enum { WORDS_IN_ALL_MAX = 20000 };
	memset(hearing, 0, sizeof *hearing);
	err_set_logfp(getenv("LAPEL_RECOGNISER_LOG") != NULL ? stderr : NULL);
	hearing->setting = *setting;
	hearing->own_grammar = setting->grammar != NULL;
	const char **words = calloc(WORDS_IN_ALL_MAX, sizeof *words);
	char *dictionary = NULL;
	bool done = words != NULL && compile_grammars(hearing, problem);
	if (done) {
		int count = collect_words(hearing, words, WORDS_IN_ALL_MAX);
		dictionary = dictionary_of(hearing, words, count, problem);
		done = dictionary != NULL &&
		       open_network(hearing, words, count, dictionary, problem) &&
		       open_recogniser(hearing, dictionary, problem) &&
		       open_presence(hearing, problem) && read_judge(hearing, problem);
	}
	free(dictionary);
	free(words);
	if (!done)
		hearing_finish(hearing);
	return done;
}

void
hearing_finish(struct hearing *hearing)
{
	for (int i = 0; i < EARS_PLACES; i++)
		search_destroy(hearing->searches[i]);
	laying_destroy(hearing->laying);
	sounding_destroy(hearing->sounding);
	network_destroy(hearing->network);
	presence_destroy(hearing->presence);
	recogniser_close(hearing->recogniser);
	spectrum_close(hearing->spectrum);
	for (int i = 0; i < EARS_PLACES; i++)
		automaton_destroy(hearing->grammars[i]);
	memset(hearing, 0, sizeof *hearing);
}
