/* The sound of an utterance as it is kept: 16 kHz mono in FLAC, which loses nothing, takes about
 * half the room and is played by a browser as it is. */
#ifndef LAPEL_STORE_KEPT_SOUND_H
#define LAPEL_STORE_KEPT_SOUND_H

#include <stdbool.h>
#include <stdint.h>

enum { KEPT_SOUND_RATE_HZ = 16000 };

/* The bytes of a whole FLAC file, which the caller frees; `count` is in samples. False, and *bytes
 * NULL, when the memory was full. */
bool kept_sound_pack(const int16_t *samples, int64_t count, unsigned char **bytes, int64_t *size);

#endif
