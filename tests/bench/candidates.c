/* candidates: what the search finds in recordings, and how good it is by either model. The scripts
 * that fit the weights of search and choosing read it.
 *
 * Usage: candidates FOLDER LANGUAGE_SHARE WORD_COST BEAM MARGIN [GRAMMAR] FILE...
 *
 * FOLDER holds grammars/ and audio/model; GRAMMAR (NAME.gram) stands in for the station's. Prints a
 * line for each file, and for each sentence found one of a tab, the network's and grammar's score,
 * the recogniser's, and the text. */
#include "hearing.h"
#include "sound_file.h"
#include "station.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char english[] = "/usr/share/pocketsphinx/model/en-us";

enum { PADDING = FRAME_SAMPLES * 25 };

/* A quarter of a second of low noise at both ends, a little of it inside. */
static int16_t *
padded(const int16_t *samples, int64_t count)
{
	uint32_t seed = 1;
	int16_t *all = malloc(sizeof *all * (size_t)(count + 2 * PADDING));
	for (int64_t i = 0; all != NULL && i < count + 2 * PADDING; i++) {
		int sum = 0;
		for (int k = 0; k < 4; k++) {
			seed = seed * 1664525 + 1013904223;
			sum += (int)(seed >> 28) - 7;
		}
		bool inside = i >= PADDING && i < PADDING + count;
		all[i] = (int16_t)(inside ? samples[i - PADDING] : sum);
	}
	return all;
}

static void
tell(struct hearing *hearing, const char *path)
{
	struct problem problem;
	int16_t *samples = NULL, *all = NULL;
	int64_t count = 0;
	int frames = 0;
	float *bands = NULL, *scores = NULL, *cepstra = NULL;
	struct found *found = calloc(1, sizeof *found);
	struct weighed weighed = {{0}};
	printf("%s\n", path);
	if (found == NULL || !sound_file_read(path, &samples, &count, &problem) ||
	    (all = padded(samples, count)) == NULL)
		goto finished;
	count += 2 * PADDING;
	bands = spectrum_log_bands(hearing->spectrum, all, count, &frames);
	cepstra = spectrum_cepstra(hearing->spectrum, all, count, &frames);
	if (bands == NULL || cepstra == NULL)
		goto finished;
	for (int k = 0; k < CEPSTRA; k++) {
		float sum = 0;
		for (int i = 0; i < frames; i++)
			sum += cepstra[i * CEPSTRA + k];
		for (int i = 0; i < frames; i++)
			cepstra[i * CEPSTRA + k] -= sum / (float)frames;
	}
	scores = network_scores(hearing->network, bands, frames);
	if (scores == NULL || !search_find(hearing->searches[0], scores, frames, found))
		goto finished;
	recogniser_weigh(hearing->recogniser, found, cepstra, frames, &weighed);
	for (int i = 0; i < found->count; i++)
		printf("\t%.2f\t%d\t%s\n", found->texts[i].score, weighed.scores[i],
		       found->texts[i].text);
finished:
	free(samples);
	free(all);
	free(bands);
	free(cepstra);
	free(scores);
	free(found);
}

int
main(int count, char **argument)
{
	struct problem problem = {""};
	struct hearing hearing;
	char grammars[1024], model[1024], own_model[1024], dictionary[1024];
	if (count < 7) {
		fprintf(stderr,
			"usage: candidates FOLDER SHARE COST BEAM MARGIN [GRAMMAR] FILE...\n");
		return 2;
	}
	snprintf(grammars, sizeof grammars, "%s/grammars", argument[1]);
	snprintf(own_model, sizeof own_model, "%s/audio/model", argument[1]);
	snprintf(model, sizeof model, "%s/en-us", english);
	snprintf(dictionary, sizeof dictionary, "%s/cmudict-en-us.dict", english);
	bool given = strstr(argument[6], ".gram") != NULL;
	struct search_weights weights = {(float)atof(argument[2]), (float)atof(argument[3]),
					 (float)atof(argument[4]), (float)atof(argument[4]) * 0.67f,
					 (float)atof(argument[5])};
	struct vocabulary *vocabulary = station_vocabulary(grammars, NULL, &problem);
	struct ears_setting setting = {.grammars = grammars,
				       .model = model,
				       .own_model = own_model,
				       .dictionary = dictionary,
				       .grammar = given ? argument[6] : NULL,
				       .vocabulary = vocabulary,
				       .meaning = {LENGTH_INCH, "USD"}};
	if (vocabulary == NULL || !hearing_init(&hearing, &setting, &problem)) {
		fprintf(stderr, "candidates: %s\n", problem.text);
		vocabulary_destroy(vocabulary);
		return 1;
	}
	search_destroy(hearing.searches[0]);
	hearing.searches[0] = search_create(hearing.grammars[0], hearing.sounding,
					    network_outputs(hearing.network), &weights);
	for (int i = given ? 7 : 6; hearing.searches[0] != NULL && i < count; i++)
		tell(&hearing, argument[i]);
	hearing_finish(&hearing);
	vocabulary_destroy(vocabulary);
	return 0;
}
