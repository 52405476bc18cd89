/* A sound file as samples for the ears: 16 kHz, mono, 16-bit. */
#ifndef LAPEL_EARS_SOUND_FILE_H
#define LAPEL_EARS_SOUND_FILE_H

#include "problem.h"

#include <stdint.h>

enum { SOUND_FILE_RATE_HZ = 16000 };

struct sound_file; /* opaque: a file on its way in, of which only a block is in memory */

/* Opens WAV, FLAC or whatever libsndfile knows; several channels are averaged, other rates are
 * resampled. `path` is borrowed and outlives it. Refuses, naming the file and what to do: a file
 * that is not there or no sound, one that is shorter than its own header says (cut off while it was
 * copied), one without samples, one of more than 24 hours. */
struct sound_file *sound_file_open(const char *path, struct problem *problem);
void sound_file_close(struct sound_file *file); /* NULL is allowed */

/* The next samples, `most` of them until the end of the file is near; 0 at its end, -1 with a
 * problem where it cannot be read any further. */
int64_t sound_file_next(struct sound_file *file, int16_t *samples, int64_t most,
			struct problem *problem);

/* About how many samples it will give in all. */
int64_t sound_file_length(const struct sound_file *file);

/* All of it. The caller frees *samples. */
bool sound_file_read(const char *path, int16_t **samples, int64_t *count, struct problem *problem);

#endif
