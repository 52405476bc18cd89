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

enum { LAYERS_MAX = 8, OFFSETS_MAX = 8, PHONES_MAX = 256, HEADER_MAX = 8192, WIDTH_MAX = 2048 };

struct phone {
	char name[16];
	int first, parts;
};

struct layer {
	int in, out;
	int offset_count, offsets[OFFSETS_MAX]; /* frames below that it sees, even and symmetric */
	bool last;				/* no rectifier, and nothing after it */
	bool adds;				/* to what is below */
	float *weights;				/* a row an output: frame by frame */
	float *bias, *scale, *shift;
};

struct network {
	int reach; /* frames to either side that all layers together see */
	int layer_count;
	struct layer layers[LAYERS_MAX];
	int phone_count;
	struct phone phones[PHONES_MAX];
	float mean[BANDS], deviation[BANDS];
	float *prior;
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
	network->layers[network->layer_count - 1].out = outputs;
	return outputs > 0;
}

static bool
read_layer(struct network *network, const char *text)
{
	char kind[8];
	int used = 0;
	if (network->layer_count == LAYERS_MAX - 1)
		return false;
	struct layer *layer = &network->layers[network->layer_count];
	if (sscanf(text, "%d %7s%n", &layer->out, kind, &used) != 2 || layer->out < 1 ||
	    layer->out > WIDTH_MAX)
		return false;
	layer->in = network->layer_count == 0 ? BANDS : layer[-1].out;
	layer->adds = strcmp(kind, "adds") == 0;
	text += used;
	while (sscanf(text, "%d%n", &layer->offsets[layer->offset_count], &used) == 1) {
		text += used;
		if (++layer->offset_count == OFFSETS_MAX)
			return false;
	}
	if (layer->offset_count == 0 || (layer->adds && layer->in != layer->out))
		return false;
	network->reach += layer->offsets[layer->offset_count - 1];
	network->layer_count++;
	return layer->offsets[0] == -layer->offsets[layer->offset_count - 1] &&
	       network->reach >= 0 && network->reach < 100;
}

static bool
read_header(struct network *network, FILE *file)
{
	char line[HEADER_MAX], *phones = NULL;
	int bands = 0;
	bool good =
		fgets(line, sizeof line, file) != NULL && strcmp(line, "lapel network 2\n") == 0;
	while (good && fgets(line, sizeof line, file) != NULL && strcmp(line, "end\n") != 0) {
		line[strcspn(line, "\n")] = '\0';
		if (strncmp(line, "bands ", 6) == 0)
			bands = atoi(line + 6);
		else if (strncmp(line, "phones ", 7) == 0 && phones == NULL)
			phones = strdup(line + 7);
		else if (strncmp(line, "layer ", 6) == 0)
			good = read_layer(network, line + 6);
	}
	good = good && strcmp(line, "end\n") == 0 && bands == BANDS && network->layer_count > 0 &&
	       phones != NULL;
	if (good) {
		/* The last layer has an output for each part of each phone. */
		struct layer *last = &network->layers[network->layer_count++];
		*last = (struct layer){.in = last[-1].out, .offset_count = 1, .last = true};
		good = read_phones(network, phones);
	}
	free(phones);
	return good;
}

static float *
read_floats(FILE *file, int count)
{
	float *values = malloc(sizeof *values * (size_t)count);
	if (values != NULL && fread(values, sizeof *values, (size_t)count, file) != (size_t)count) {
		free(values);
		return NULL;
	}
	return values;
}

static bool
read_values(struct network *network, FILE *file)
{
	if (fread(network->mean, sizeof(float), BANDS, file) != BANDS ||
	    fread(network->deviation, sizeof(float), BANDS, file) != BANDS)
		return false;
	network->prior = read_floats(file, network_outputs(network));
	for (int i = 0; i < network->layer_count; i++) {
		struct layer *layer = &network->layers[i];
		layer->weights = read_floats(file, layer->in * layer->offset_count * layer->out);
		layer->bias = read_floats(file, layer->out);
		if (layer->weights == NULL || layer->bias == NULL)
			return false;
		if (layer->last)
			continue;
		layer->scale = read_floats(file, layer->out);
		layer->shift = read_floats(file, layer->out);
		if (layer->scale == NULL || layer->shift == NULL)
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
		free(network->layers[i].weights);
		free(network->layers[i].bias);
		free(network->layers[i].scale);
		free(network->layers[i].shift);
	}
	free(network->prior);
	free(network);
}

int
network_outputs(const struct network *network)
{
	return network->layers[network->layer_count - 1].out;
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

/* The bands as the network met them when it learned: the utterance's mean off, scaled, and the
 * edges repeated for as long as the network reaches. */
static float *
prepare(const struct network *network, const float *bands, int frames)
{
	int padded = frames + 2 * network->reach;
	float *input = malloc(sizeof *input * BANDS * (size_t)padded);
	if (input == NULL)
		return NULL;
	for (int k = 0; k < BANDS; k++) {
		double sum = 0;
		for (int i = 0; i < frames; i++)
			sum += bands[i * BANDS + k];
		float mean = (float)(sum / frames) + network->mean[k];
		for (int i = 0; i < padded; i++) {
			int at = i - network->reach;
			at = at < 0 ? 0 : at >= frames ? frames - 1 : at;
			input[i * BANDS + k] =
				(bands[at * BANDS + k] - mean) / network->deviation[k];
		}
	}
	return input;
}

enum { TOGETHER = 8 }; /* frames whose sums run side by side, so that a weight is fetched once */

/* Nearly all of the time goes by here, so it is compiled for several processors. */
#if defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
__attribute__((target_clones("avx512f", "avx2", "default")))
#endif
static void
products(const float *restrict row, const float *restrict seen, int width, float *restrict sums)
{
	enum { SIDE = 16 };
	float side[TOGETHER][SIDE] = {0};
	int i = 0;
	for (; i + SIDE <= width; i += SIDE)
		for (int f = 0; f < TOGETHER; f++)
			for (int k = 0; k < SIDE; k++)
				side[f][k] += row[i + k] * seen[f * width + i + k];
	for (int f = 0; f < TOGETHER; f++) {
		float sum = 0;
		for (int k = 0; k < SIDE; k++)
			sum += side[f][k];
		for (int k = i; k < width; k++)
			sum += row[k] * seen[f * width + k];
		sums[f] = sum;
	}
}

/* One layer over `frames` frames; `below` has as many more at either end as the layer reaches. */
static bool
apply(const struct layer *layer, const float *below, int frames, float *above)
{
	int width = layer->in * layer->offset_count;
	int reach = layer->offsets[layer->offset_count - 1];
	float *seen = calloc((size_t)(TOGETHER * width), sizeof *seen);
	if (seen == NULL)
		return false;
	for (int first = 0; first < frames; first += TOGETHER) {
		int count = frames - first < TOGETHER ? frames - first : TOGETHER;
		for (int f = 0; f < count; f++)
			for (int k = 0; k < layer->offset_count; k++)
				memcpy(seen + f * width + k * layer->in,
				       below + (size_t)(first + f + reach + layer->offsets[k]) *
						       (size_t)layer->in,
				       sizeof *seen * (size_t)layer->in);
		for (int o = 0; o < layer->out; o++) {
			float sums[TOGETHER];
			products(layer->weights + (size_t)o * (size_t)width, seen, width, sums);
			for (int f = 0; f < count; f++) {
				float value = sums[f] + layer->bias[o];
				if (!layer->last)
					value = fmaxf(value, 0) * layer->scale[o] + layer->shift[o];
				if (layer->adds)
					value += below[(size_t)(first + f + reach) *
							       (size_t)layer->in +
						       (size_t)o];
				above[(size_t)(first + f) * (size_t)layer->out + (size_t)o] = value;
			}
		}
	}
	free(seen);
	return true;
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
network_scores(const struct network *network, const float *bands, int frames)
{
	int left = frames + 2 * network->reach;
	float *below = prepare(network, bands, frames);
	for (int i = 0; below != NULL && i < network->layer_count; i++) {
		const struct layer *layer = &network->layers[i];
		left -= 2 * layer->offsets[layer->offset_count - 1];
		float *above = malloc(sizeof *above * (size_t)left * (size_t)layer->out);
		if (above != NULL && !apply(layer, below, left, above)) {
			free(above);
			above = NULL;
		}
		free(below);
		below = above;
	}
	for (int frame = 0; below != NULL && frame < frames; frame++)
		to_scores(network, below + (size_t)frame * (size_t)network_outputs(network));
	return below;
}
