/* What leaks from the ear-piece into the microphone, taken out of what is heard: lapel is not to
 * answer itself, nor to fall silent at its own voice. Pure: it is fed both sounds, frame by frame,
 * in step (played.h), and knows no other clock.
 *
 * An echo canceller (speexdsp) learns how the one becomes the other and subtracts it. It needs some
 * seconds of speech to learn that, and never gets all of it; so while something is played, and as
 * long after as it may take to come back, a gate stands behind it: what is left is let through only
 * when it is louder than what could be left of the leak. How loud that is, against the loudest that
 * was played within the last LEAK_TAIL_FRAMES, is taken to be much at first, and learned from every
 * read-back into which nobody spoke. What the canceller could take most of is leak, however loud.
 * In place of what does not pass the room is put, as it sounded before, so that it does not seem to
 * change.
 * A person who speaks into the microphone is louder than that, and is heard at once. */
#ifndef LAPEL_HEADSET_LEAK_H
#define LAPEL_HEADSET_LEAK_H

#include <stdbool.h>
#include <stdint.h>

enum {
	LEAK_FRAME = 160,     /* samples at 16 kHz: 10 ms */
	LEAK_TAIL_FRAMES = 40 /* how late the leak may come */
};

struct leak; /* opaque */

struct leak *leak_create(void); /* NULL: out of memory */
void leak_destroy(struct leak *leak);

/* The distance between the two sounds is another from now on: the canceller learns anew. */
void leak_restart(struct leak *leak);

/* A frame of the microphone, and what was handed to the ear-piece in step with it; `heard` is
 * changed in place. Where nothing was played for a while it is left as it is, at no cost. */
void leak_take_out(struct leak *leak, int16_t heard[LEAK_FRAME], const int16_t played[LEAK_FRAME]);

/* Whether nothing was played for so long that nothing can come back. */
bool leak_silent(const struct leak *leak);

/* What is let through, in decibels over the loudest that was played (below 0): for measuring. */
double leak_gate_db(const struct leak *leak);

#endif
