#include "network.h"

#include "spectrum.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* How much of the priors is taken off: all of it overrates the rare phones. Fitted by
 * tests/bench/model/rescoring.py. */
#define PRIOR_SHARE 0.6f

enum { LAYERS_MAX = 5, PHONES_MAX = 256, HEADER_MAX = 8192, SIZE_MAX_OF_LAYER = 4096 };

struct phone {
	char name[16];
	int first, parts;
};

struct network {
	int context;
	int layer_count; /* of weights: one less than sizes */
	int sizes[LAYERS_MAX];
	int phone_count;
	struct phone phones[PHONES_MAX];
	float mean[CEPSTRA], deviation[CEPSTRA];
	float *prior;
	float *weights[LAYERS_MAX]; /* a row an output */
	float *offsets[LAYERS_MAX];
};

static bool
read_phones(struct network *network, char *list)
{
	char *rest = NULL;
	int outputs = 0;
	for (char *word = strtok_r(list, " ", &rest); word != NULL;
	     word = strtok_r(NULL, " ", &rest)) {
		char *colon = strchr(word, ':');
		if (colon == NULL || network->phone_count == PHONES_MAX ||
		    colon - word >= (int)sizeof network->phones[0].name)
			return false;
		struct phone *phone = &network->phones[network->phone_count++];
		memcpy(phone->name, word, (size_t)(colon - word));
		phone->first = outputs;
		phone->parts = atoi(colon + 1);
		if (phone->parts < 1 || phone->parts > 8)
			return false;
		outputs += phone->parts;
	}
	return outputs == network_outputs(network);
}

static bool
read_header(struct network *network, FILE *file)
{
	char line[HEADER_MAX], *phones = NULL;
	int cepstra = 0, count = 0;
	bool good =
		fgets(line, sizeof line, file) != NULL && strcmp(line, "lapel network 1\n") == 0;
	while (good && fgets(line, sizeof line, file) != NULL && strcmp(line, "end\n") != 0) {
		line[strcspn(line, "\n")] = '\0';
		if (strncmp(line, "context ", 8) == 0)
			network->context = atoi(line + 8);
		else if (strncmp(line, "cepstra ", 8) == 0)
			cepstra = atoi(line + 8);
		else if (strncmp(line, "phones ", 7) == 0 && phones == NULL)
			phones = strdup(line + 7);
		else if (strncmp(line, "layers ", 7) == 0)
			for (char *at = line + 7, *end; count < LAYERS_MAX; at = end) {
				network->sizes[count] = (int)strtol(at, &end, 10);
				if (end == at)
					break;
				good = good && network->sizes[count] > 0 &&
				       network->sizes[count++] <= SIZE_MAX_OF_LAYER;
			}
	}
	network->layer_count = count - 1;
	good = good && strcmp(line, "end\n") == 0 && cepstra == CEPSTRA && count >= 2 &&
	       network->context >= 0 && network->sizes[0] == CEPSTRA * (2 * network->context + 1) &&
	       phones != NULL && read_phones(network, phones);
	free(phones);
	return good;
}

static float *
read_floats(FILE *file, size_t count)
{
	float *values = malloc(sizeof *values * count);
	if (values != NULL && fread(values, sizeof *values, count, file) != count) {
		free(values);
		return NULL;
	}
	return values;
}

static bool
read_values(struct network *network, FILE *file)
{
	if (fread(network->mean, sizeof(float), CEPSTRA, file) != CEPSTRA ||
	    fread(network->deviation, sizeof(float), CEPSTRA, file) != CEPSTRA)
		return false;
	network->prior = read_floats(file, (size_t)network_outputs(network));
	for (int i = 0; i < network->layer_count; i++) {
		size_t in = (size_t)network->sizes[i], out = (size_t)network->sizes[i + 1];
		network->weights[i] = read_floats(file, in * out);
		network->offsets[i] = read_floats(file, out);
		if (network->weights[i] == NULL || network->offsets[i] == NULL)
			return false;
	}
	return network->prior != NULL && fgetc(file) == EOF;
}

struct network *
network_read(const char *path, struct problem *problem)
{
	struct network *network = calloc(1, sizeof *network);
	FILE *file = fopen(path, "rb");
	bool good = network != NULL && file != NULL && read_header(network, file) &&
		    read_values(network, file);
	if (file == NULL)
		problem_say(problem, "%s cannot be opened: %s", path, strerror(errno));
	else if (!good)
		problem_say(problem, "%s is no network of lapel's, or cut off: install lapel again",
			    path);
	if (file != NULL)
		fclose(file);
	if (!good) {
		network_destroy(network);
		return NULL;
	}
	return network;
}

void
network_destroy(struct network *network)
{
	if (network == NULL)
		return;
	for (int i = 0; i < LAYERS_MAX; i++) {
		free(network->weights[i]);
		free(network->offsets[i]);
	}
	free(network->prior);
	free(network);
}

int
network_outputs(const struct network *network)
{
	return network->layer_count >= 0 ? network->sizes[network->layer_count] : 0;
}

int
network_phone(const struct network *network, const char *name, int *parts)
{
	for (int i = 0; i < network->phone_count; i++)
		if (strcmp(network->phones[i].name, name) == 0)
			return network_phone_at(network, i, parts);
	return -1;
}

int
network_phone_count(const struct network *network)
{
	return network->phone_count;
}

int
network_phone_at(const struct network *network, int index, int *parts)
{
	*parts = network->phones[index].parts;
	return network->phones[index].first;
}

/* The cepstra as the network met them when it learned: the utterance's mean off, scaled, and the
 * edges repeated for as long as the context reaches. */
static float *
prepare(const struct network *network, const float *cepstra, int frames)
{
	int padded = frames + 2 * network->context;
	float *input = malloc(sizeof *input * CEPSTRA * (size_t)padded);
	if (input == NULL)
		return NULL;
	for (int k = 0; k < CEPSTRA; k++) {
		double sum = 0;
		for (int i = 0; i < frames; i++)
			sum += cepstra[i * CEPSTRA + k];
		float mean = (float)(sum / frames) + network->mean[k];
		for (int i = 0; i < padded; i++) {
			int at = i - network->context;
			at = at < 0 ? 0 : at >= frames ? frames - 1 : at;
			input[i * CEPSTRA + k] =
				(cepstra[at * CEPSTRA + k] - mean) / network->deviation[k];
		}
	}
	return input;
}

/* Sixteen sums side by side, so that the compiler can do them at once. */
static float
product(const float *restrict a, const float *restrict b, int count)
{
	enum { SIDE = 16 };
	float sums[SIDE] = {0}, sum = 0;
	int i = 0;
	for (; i + SIDE <= count; i += SIDE)
		for (int k = 0; k < SIDE; k++)
			sums[k] += a[i + k] * b[i + k];
	for (; i < count; i++)
		sum += a[i] * b[i];
	for (int k = 0; k < SIDE; k++)
		sum += sums[k];
	return sum;
}

static void
layer(const struct network *network, int index, const float *from, float *to)
{
	int in = network->sizes[index], out = network->sizes[index + 1];
	bool last = index == network->layer_count - 1;
	for (int i = 0; i < out; i++) {
		float sum = network->offsets[index][i] +
			    product(network->weights[index] + (size_t)i * (size_t)in, from, in);
		to[i] = last || sum > 0 ? sum : 0;
	}
}

static void
to_scores(const struct network *network, float *values)
{
	int outputs = network_outputs(network);
	float most = values[0];
	double sum = 0;
	for (int i = 1; i < outputs; i++)
		most = fmaxf(most, values[i]);
	for (int i = 0; i < outputs; i++)
		sum += expf(values[i] - most);
	float all = most + (float)log(sum);
	for (int i = 0; i < outputs; i++)
		values[i] -= all + PRIOR_SHARE * network->prior[i];
}

float *
network_scores(const struct network *network, const float *cepstra, int frames)
{
	int outputs = network_outputs(network);
	float *input = prepare(network, cepstra, frames);
	float *scores = malloc(sizeof *scores * (size_t)outputs * (size_t)frames);
	float *hidden = malloc(sizeof *hidden * 2 * SIZE_MAX_OF_LAYER);
	for (int frame = 0; input != NULL && scores != NULL && hidden != NULL && frame < frames;
	     frame++) {
		const float *from = input + (size_t)frame * CEPSTRA;
		for (int i = 0; i < network->layer_count; i++) {
			float *to = i == network->layer_count - 1
					    ? scores + (size_t)frame * (size_t)outputs
					    : hidden + (i % 2) * SIZE_MAX_OF_LAYER;
			layer(network, i, from, to);
			from = to;
		}
		to_scores(network, scores + (size_t)frame * (size_t)outputs);
	}
	if (input == NULL || hidden == NULL) {
		free(scores);
		scores = NULL;
	}
	free(input);
	free(hidden);
	return scores;
}
