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
