/* The one output: what is said, when, on the session's time line. Level-limited: no sample is above
 * LEVEL_CEILING_DBFS, and level.h says why. */
#ifndef LAPEL_VOICE_VOICE_H
#define LAPEL_VOICE_VOICE_H

#include "cues.h"
#include "speech.h"

struct voice; /* opaque */

/* Writes to a WAV file from which the whole session can be heard: sample n is time n / 16000 s. It
 * is written as time passes, so only what is still to be said is in memory.
 * `speech` and `cues` are borrowed. `path` NULL: nothing is written, but time passes the same. */
struct voice *voice_open_file(const char *path, struct speech *speech, struct cues *cues,
			      struct problem *problem);

/* Says a cue (name or NULL) and then, 40 ms after it, words (or NULL) at `at_ms`, or 60 ms after
 * what is still being said or waiting has ended. Times never go down from one function to the next
 * (one that does counts as the time before). False when the words could not be rendered (nothing is
 * said then), and once when the file could not be written (it is said, but the file ends; time
 * passes the same from there on). */
bool voice_say(struct voice *voice, int64_t at_ms, const char *cue, const char *text,
	       struct problem *problem);

/* Silence from `at_ms` on, by a fade of 10 ms; what was not yet said is dropped. What is said next
 * may follow the fade at once. */
void voice_hush(struct voice *voice, int64_t at_ms);

/* When all that was asked for will have been said (a time in the past: it has), in whole
 * milliseconds, upward. */
int64_t voice_done_ms(const struct voice *voice);

/* Lengthens the file with silence to `end_ms`, lets what is being said end, and closes. False when
 * the file is not whole, at whatever time that happened. NULL is allowed. */
bool voice_close(struct voice *voice, int64_t end_ms, struct problem *problem);

#endif
