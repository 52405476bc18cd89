/* What the ear-piece plays, handed to whoever listens: so that what of it comes back through the
 * microphone can be told from speech. One thread (PortAudio's) writes, one (the listening one)
 * takes; neither waits. */
#ifndef LAPEL_HEADSET_PLAYED_H
#define LAPEL_HEADSET_PLAYED_H

#include <stdbool.h>
#include <stdint.h>

struct played; /* opaque */

struct played *played_create(void); /* NULL: out of memory */
void played_destroy(struct played *played);

/* A stream of this rate begins, mono; before the first played_write of it, by the thread that opens
 * it while no stream writes. */
void played_begin(struct played *played, int rate_hz);

/* The writing thread: what is handed to the device now, silence too. */
void played_write(struct played *played, const int16_t *samples, int64_t count);

/* The listening thread: the next `count` samples at 16 kHz, in step with the microphone's; silence
 * where there are none. `count` is 160 at most. True at the first samples of a new stream, whose
 * distance to the microphone is another. */
bool played_take(struct played *played, int16_t *samples, int64_t count);

/* The listening thread, when it has taken all that the microphone gave, and nothing is being
 * played: the two streams are brought in step again should they have drifted apart. True when they
 * were. */
bool played_keep_step(struct played *played);

#endif
