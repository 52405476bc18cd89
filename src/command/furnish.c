#include "furnish.h"

#include "file_text.h"
#include "learnt.h"
#include "station.h"

#include <stdlib.h>
#include <string.h>

struct vocabulary *
furnish_vocabulary(const struct folders *folders, const struct settings *settings,
		   struct problem *problem)
{
	const char *bins = settings->bins[0] != '\0' ? settings->bins : NULL;
	struct vocabulary *vocabulary = station_vocabulary(folders->grammars, bins, problem);
	if (vocabulary == NULL || settings->learnt[0] == '\0' ||
	    learnt_read(vocabulary, settings->learnt, problem))
		return vocabulary;
	vocabulary_destroy(vocabulary);
	return NULL;
}

static const char *
how_taken(const void *sketches, const char *measure, const char *kind)
{
	return sketch_how(sketches, measure, kind);
}

bool
furnish_writeups(const struct folders *folders, const struct vocabulary *vocabulary,
		 struct writeup_form **form, struct sketch_book **sketches, struct problem *problem)
{
	char *words = file_text_in(folders->grammars, "writeup.txt", problem);
	char *lines =
		words == NULL ? NULL : file_text_in(folders->grammars, "sketches.txt", problem);
	if (lines != NULL)
		*form = writeup_form_read(vocabulary, "writeup.txt", words, problem);
	if (lines != NULL && *form != NULL)
		*sketches = sketch_book_read("sketches.txt", lines, problem);
	free(words);
	free(lines);
	if (*sketches == NULL)
		return false;
	writeup_form_tell_how(*form, how_taken, *sketches);
	return true;
}

struct ears_setting
furnish_ears(const struct folders *folders, const struct settings *settings,
	     const struct vocabulary *vocabulary)
{
	struct ears_setting setting = {.grammars = folders->grammars,
				       .model = folders->model,
				       .own_model = folders->own_model,
				       .dictionary = folders->dictionary,
				       .vocabulary = vocabulary};
	setting.meaning.unit = settings->unit;
	memcpy(setting.meaning.currency, settings->currency, sizeof setting.meaning.currency);
	return setting;
}

struct cues *
furnish_cues(const struct folders *folders, struct problem *problem)
{
	char *text = file_text_in(folders->audio, "cues.txt", problem);
	struct cues *cues = text != NULL ? cues_parse("cues.txt", text, problem) : NULL;
	free(text);
	return cues;
}
