#include "bandwidth.h"
#include "sound_file.h"
#include "sound_source.h"

#include <stdlib.h>
#include <string.h>

struct file_source {
	struct sound_source source;
	int16_t *samples;
	int64_t count, at;
	struct bandwidth bandwidth;
};

static int
file_fd(struct sound_source *source)
{
	return -1;
}

static enum sound_news
file_next(struct sound_source *source, int16_t *samples, int64_t most, struct sound_piece *piece)
{
	struct file_source *file = (struct file_source *)source;
	int64_t left = file->count - file->at;
	if (left == 0)
		return SOUND_ENDED;
	piece->count = left < most ? left : most;
	memcpy(samples, file->samples + file->at, (size_t)piece->count * sizeof *samples);
	file->at += piece->count;
	bandwidth_add(&file->bandwidth, samples, piece->count);
	piece->narrow = bandwidth_narrow(&file->bandwidth);
	return SOUND_SOME;
}

static void
file_close(struct sound_source *source)
{
	struct file_source *file = (struct file_source *)source;
	free(file->samples);
	free(file);
}

static const struct sound_source_functions file_functions = {"file", file_fd, file_next,
							     file_close};

struct sound_source *
sound_source_file_open(const char *path, struct problem *problem)
{
	struct file_source *file = calloc(1, sizeof *file);
	if (file == NULL) {
		problem_say(problem, "%s cannot be read: out of memory", path);
		return NULL;
	}
	file->source.functions = &file_functions;
	bandwidth_init(&file->bandwidth);
	if (!sound_file_read(path, &file->samples, &file->count, problem)) {
		free(file);
		return NULL;
	}
	return &file->source;
}
