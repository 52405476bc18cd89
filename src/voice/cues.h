/* The cues: short tones told apart by pitch, direction and number, so that none needs hearing well.
 * They are described in audio/cues.txt, which a user may edit. */
#ifndef LAPEL_VOICE_CUES_H
#define LAPEL_VOICE_CUES_H

#include "problem.h"
#include "sound.h"

struct cues; /* opaque */

/* A line a cue: its name (lower-case letters), then up to 16 tones as `HERTZ/MILLISECONDS`,
 * `0/MILLISECONDS` being silence, then `level DECIBELS` (the peak of the tones, full scale being 0;
 * a whole number from -60 to -12). Tones are 100 to 4000 Hz and 10 to 1000 ms; a cue is at most
 * 2000 ms in all. `#` starts a comment; blank lines do not count. A cue stands once. Names file and
 * line of what is wrong. The caller destroys the cues. */
struct cues *cues_parse(const char *file, const char *text, struct problem *problem);
void cues_destroy(struct cues *cues); /* NULL is allowed */

/* The rendered cue, borrowed; an unknown name is an empty sound. */
const struct sound *cues_find(const struct cues *cues, const char *name);

#endif
