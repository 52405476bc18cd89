/* Words to sound, by flite. */
#ifndef LAPEL_VOICE_SPEECH_H
#define LAPEL_VOICE_SPEECH_H

#include "problem.h"
#include "sound.h"

/* Opaque: a voice of flite's, and a small cache of what was said last. All speech is used from one
 * thread. */
struct speech;

/* `name` is a voice of flite's ("slt", "rms", "awb", "kal16", "kal"); `rate` 1.0 is its usual
 * speed, 0.5 to 2.0. Lists the voices there are in the problem when there is no such. */
struct speech *speech_open(const char *name, double rate, struct problem *problem);
void speech_close(struct speech *speech); /* NULL is allowed */

/* Renders `text` (UTF-8; other letters than those of western Europe are left out); the caller
 * finishes *sound. Any voice's rate is brought to 16 kHz, the level to LEVEL_SPEECH_DBFS, and the
 * silence that flite puts around the words is cut down to a few milliseconds, for it is waited
 * through. The same text gives the same samples at all times. Text in which there is nothing to say
 * gives an empty sound. False, with *sound empty, when flite or memory failed. */
bool speech_render(struct speech *speech, const char *text, struct sound *sound,
		   struct problem *problem);

#endif
