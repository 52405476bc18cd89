#include "spectrum.h"

#include <math.h>
#include <sphinxbase/cmd_ln.h>
#include <sphinxbase/fe.h>
#include <stdlib.h>
#include <string.h>

struct spectrum {
	fe_t *cepstra;
	fe_t *bands;	   /* of the stream */
	fe_t *whole_bands; /* of whole pieces */
};

/* Only what the front end knows is taken from the model's list of parameters: its other parameters
 * are the recogniser's. */
static const char *const front_end_parameters[] = {"-lowerf", "-upperf", "-nfilt", "-transform",
						   "-lifter", "-alpha",	 "-ncep",  "-nfft"};

static bool
is_front_end_parameter(const char *name)
{
	size_t count = sizeof front_end_parameters / sizeof *front_end_parameters;
	for (size_t i = 0; i < count; i++)
		if (strcmp(name, front_end_parameters[i]) == 0)
			return true;
	return false;
}

static fe_t *
front_end_open(const char *parameters, bool log_spectrum)
{
	enum { ARGUMENTS_MAX = 48 };
	/* Even when it removes no silence the front end holds frames back until it has so many of
	 * speech, ten unless told; and while it gives them out, one at a time, it takes in no
	 * sound: a tenth of a second of the stream would be lost. */
	char *argument[ARGUMENTS_MAX] = {"lapel",
					 "-remove_noise",
					 "no",
					 "-remove_silence",
					 "no",
					 "-vad_startspeech",
					 "1",
					 "-samprate",
					 "16000",
					 "-logspec",
					 log_spectrum ? "yes" : "no"};
	int count = 11;
	fe_t *front_end = NULL;
	char *text = strdup(parameters), *rest = NULL;
	if (text == NULL)
		return NULL;
	for (char *name = strtok_r(text, " \t\r\n", &rest);
	     name != NULL && count < ARGUMENTS_MAX - 2; name = strtok_r(NULL, " \t\r\n", &rest)) {
		char *value = strtok_r(NULL, " \t\r\n", &rest);
		if (value == NULL)
			break;
		/* The front end would lift a log spectrum too, as if it were cepstra. */
		if (!is_front_end_parameter(name) || (log_spectrum && strcmp(name, "-lifter") == 0))
			continue;
		argument[count++] = name;
		argument[count++] = value;
	}
	cmd_ln_t *config = cmd_ln_parse_r(NULL, fe_get_args(), count, argument, TRUE);
	if (config != NULL) {
		front_end = fe_init_auto_r(config);
		cmd_ln_free_r(config);
	}
	free(text);
	return front_end;
}

struct spectrum *
spectrum_open(const char *parameters, struct problem *problem)
{
	struct spectrum *spectrum = calloc(1, sizeof *spectrum);
	if (spectrum != NULL) {
		spectrum->cepstra = front_end_open(parameters, false);
		spectrum->bands = front_end_open(parameters, true);
	}
	if (spectrum != NULL)
		spectrum->whole_bands = front_end_open(parameters, true);
	if (spectrum == NULL || spectrum->cepstra == NULL || spectrum->bands == NULL ||
	    spectrum->whole_bands == NULL || fe_get_output_size(spectrum->cepstra) != CEPSTRA ||
	    fe_get_output_size(spectrum->bands) != BANDS) {
		problem_say(problem,
			    "the model's feat.params does not describe %d bands and %d "
			    "cepstra: install the model again",
			    BANDS, CEPSTRA);
		spectrum_close(spectrum);
		return NULL;
	}
	spectrum_restart(spectrum);
	return spectrum;
}

void
spectrum_close(struct spectrum *spectrum)
{
	if (spectrum == NULL)
		return;
	fe_free(spectrum->cepstra);
	fe_free(spectrum->bands);
	fe_free(spectrum->whole_bands);
	free(spectrum);
}

static float *
whole(fe_t *front_end, int size, const int16_t *samples, int64_t count, int *frames)
{
	if (count < WINDOW_SAMPLES)
		return NULL;
	int most = (int)(count / FRAME_SAMPLES) + 2;
	float *block = calloc((size_t)(most * size), sizeof *block);
	float **row = calloc((size_t)most, sizeof *row);
	if (block == NULL || row == NULL) {
		free(block);
		free(row);
		return NULL;
	}
	for (int i = 0; i < most; i++)
		row[i] = block + (size_t)(i * size);
	const int16 *next = samples;
	size_t left = (size_t)count;
	int32 got = most - 1, last = 0;
	fe_start_utt(front_end);
	fe_process_frames(front_end, &next, &left, row, &got, NULL);
	fe_end_utt(front_end, row[got], &last);
	*frames = got;
	free(row);
	return block;
}

float *
spectrum_cepstra(struct spectrum *spectrum, const int16_t *samples, int64_t count, int *frames)
{
	return whole(spectrum->cepstra, CEPSTRA, samples, count, frames);
}

float *
spectrum_log_bands(struct spectrum *spectrum, const int16_t *samples, int64_t count, int *frames)
{
	return whole(spectrum->whole_bands, BANDS, samples, count, frames);
}

void
spectrum_restart(struct spectrum *spectrum)
{
	fe_start_utt(spectrum->bands);
}

bool
spectrum_bands(struct spectrum *spectrum, const int16_t samples[FRAME_SAMPLES], float bands[BANDS])
{
	/* Natural logarithms of power, in the front end's output, to decibels. */
	const float decibels = 10.0f / 2.302585093f;
	const int16 *next = samples;
	size_t left = FRAME_SAMPLES;
	float *row[1] = {bands};
	int32 got = 1;
	fe_process_frames(spectrum->bands, &next, &left, row, &got, NULL);
	if (got < 1)
		return false;
	for (int i = 0; i < BANDS; i++)
		bands[i] *= decibels;
	return true;
}
