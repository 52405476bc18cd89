#include "presence.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* All of this is as in tests/bench/model/presence.py: change both. */
#define FLOOR_AT_FIRST_DB 38.0f
#define FLOOR_FALL 0.1f
#define FLOOR_RISE 0.002f
#define ABOVE_MAX_DB 35.0f
#define UNIT_DB 10.0f

static const char first_line[] = "lapel presence 1\n";

/* How wide each layer is, how many frames of the one below it sees, and how far those lie apart. */
enum { LAYERS = 4, WIDTH_MAX = 64, REACH_MAX = 24 };

static const struct shape {
	int in, out, seen, step;
} shapes[LAYERS] = {{BANDS, 64, 5, 1}, {64, 64, 5, 3}, {64, 48, 5, 6}, {48, 1, 1, 1}};

/* The sums of all outputs run side by side, over WIDTH_MAX of them whatever their number: so the
 * compiler knows how many. */
struct layer {
	float (*weights)[WIDTH_MAX]; /* a row a value seen, frame by frame from the oldest */
	float bias[WIDTH_MAX];
	float past[REACH_MAX + 1][WIDTH_MAX]; /* of what it sees, a ring */
};

struct presence {
	struct layer layers[LAYERS];
	float floor_db[BANDS];
	int64_t frame;
};

static bool
read_layer(struct layer *layer, const struct shape *shape, FILE *file)
{
	size_t rows = (size_t)(shape->in * shape->seen);
	layer->weights = calloc(rows, sizeof *layer->weights);
	for (int o = 0; layer->weights != NULL && o < shape->out; o++)
		for (size_t row = 0; row < rows; row++)
			if (fread(&layer->weights[row][o], sizeof(float), 1, file) != 1)
				return false;
	return layer->weights != NULL && fread(layer->bias, sizeof *layer->bias, (size_t)shape->out,
					       file) == (size_t)shape->out;
}

struct presence *
presence_read(const char *path, struct problem *problem)
{
	char line[sizeof first_line];
	struct presence *presence = calloc(1, sizeof *presence);
	FILE *file = fopen(path, "rb");
	bool good = presence != NULL && file != NULL && fgets(line, sizeof line, file) != NULL &&
		    strcmp(line, first_line) == 0;
	for (int i = 0; good && i < LAYERS; i++)
		good = read_layer(&presence->layers[i], &shapes[i], file);
	if (file == NULL)
		problem_say(problem, "%s cannot be opened: %s", path, strerror(errno));
	else if (!good || fgetc(file) != EOF)
		good = problem_say(problem, "%s is not lapel's, or cut off: install lapel again",
				   path);
	if (file != NULL)
		fclose(file);
	if (!good) {
		presence_destroy(presence);
		return NULL;
	}
	presence_restart(presence);
	return presence;
}

void
presence_destroy(struct presence *presence)
{
	if (presence == NULL)
		return;
	for (int i = 0; i < LAYERS; i++)
		free(presence->layers[i].weights);
	free(presence);
}

void
presence_restart(struct presence *presence)
{
	presence->frame = 0;
	for (int band = 0; band < BANDS; band++)
		presence->floor_db[band] = FLOOR_AT_FIRST_DB;
	for (int i = 0; i < LAYERS; i++)
		memset(presence->layers[i].past, 0, sizeof presence->layers[i].past);
}

static void
apply(struct layer *layer, const struct shape *shape, int64_t frame, const float *now, float *above)
{
	int ring = (shape->seen - 1) * shape->step + 1;
	float(*weight)[WIDTH_MAX] = layer->weights;
	memcpy(layer->past[frame % ring], now, sizeof *now * (size_t)shape->in);
	memcpy(above, layer->bias, sizeof layer->bias);
	for (int k = 0; k < shape->seen; k++) {
		/* Counted on by a whole ring, since what was before the first is none. */
		int64_t at = frame + ring - (shape->seen - 1 - k) * shape->step;
		const float *seen = layer->past[at % ring];
		for (int i = 0; i < shape->in; i++, weight++)
			for (int o = 0; o < WIDTH_MAX; o++)
				above[o] += (*weight)[o] * seen[i];
	}
}

float
presence_frame(struct presence *presence, const float bands[BANDS])
{
	float now[WIDTH_MAX] = {0}, above[WIDTH_MAX] = {0};
	for (int band = 0; band < BANDS; band++) {
		float *floor = &presence->floor_db[band];
		*floor += (bands[band] < *floor ? FLOOR_FALL : FLOOR_RISE) * (bands[band] - *floor);
		now[band] = fminf(fmaxf(bands[band] - *floor, 0), ABOVE_MAX_DB) / UNIT_DB;
	}
	for (int i = 0; i < LAYERS; i++) {
		apply(&presence->layers[i], &shapes[i], presence->frame, now, above);
		for (int k = 0; k < shapes[i].out; k++)
			now[k] = i < LAYERS - 1 ? fmaxf(above[k], 0) : above[k];
	}
	presence->frame++;
	return 1 / (1 + expf(-now[0]));
}
