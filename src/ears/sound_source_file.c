#include "bandwidth.h"
#include "sound_file.h"
#include "sound_source.h"

#include <stdlib.h>

struct file_source {
	struct sound_source source;
	struct sound_file *file;
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
	piece->count = sound_file_next(file->file, samples, most, NULL);
	if (piece->count <= 0) {
		bool ended = piece->count == 0;
		piece->count = 0;
		return ended ? SOUND_ENDED : SOUND_GONE;
	}
	bandwidth_add(&file->bandwidth, samples, piece->count);
	piece->narrow = bandwidth_narrow(&file->bandwidth);
	return SOUND_SOME;
}

static void
file_close(struct sound_source *source)
{
	struct file_source *file = (struct file_source *)source;
	sound_file_close(file->file);
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
	file->file = sound_file_open(path, problem);
	if (file->file == NULL) {
		free(file);
		return NULL;
	}
	return &file->source;
}
