/* A piece of sound of our own making: 16 kHz, mono, 16-bit. */
#ifndef LAPEL_VOICE_SOUND_H
#define LAPEL_VOICE_SOUND_H

#include "problem.h"

#include <stdbool.h>
#include <stdint.h>

enum { SOUND_RATE_HZ = 16000 };

struct sound {
	int16_t *samples; /* owned; freed by sound_finish */
	int64_t count;
};

void sound_finish(struct sound *sound); /* NULL and empty are allowed; it is empty afterwards */

/* Mixes `other` into `sound` from sample `from` (0 or more) on, limited to 16 bits; `sound` is
 * lengthened where it ends too early. False, with `sound` as it was, when memory ran out. */
bool sound_mix(struct sound *sound, const struct sound *other, int64_t from);

/* Writes the sound to a WAV file, over what was there. */
bool sound_write(const char *path, const struct sound *sound, struct problem *problem);

#endif
