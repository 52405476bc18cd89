/* A sound file as samples for the ears: 16 kHz, mono, 16-bit. */
#ifndef LAPEL_EARS_SOUND_FILE_H
#define LAPEL_EARS_SOUND_FILE_H

#include "problem.h"

#include <stdint.h>

enum { SOUND_FILE_RATE_HZ = 16000 };

/* Reads WAV, FLAC or whatever libsndfile knows; several channels are averaged, other rates are
 * resampled. The caller frees *samples. Refuses, naming the file and what to do: a file that is not
 * there or no sound, one that is shorter than its own header says (cut off while it was copied),
 * one without samples, one of more than 24 hours. */
bool sound_file_read(const char *path, int16_t **samples, int64_t *count, struct problem *problem);

#endif
