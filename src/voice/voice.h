/* The one output: what is said, when, on the session's time line. Level-limited: no sample is above
 * LEVEL_CEILING_DBFS, and level.h says why. */
#ifndef LAPEL_VOICE_VOICE_H
#define LAPEL_VOICE_VOICE_H

#include "cues.h"
#include "speech.h"

struct voice; /* opaque */
struct played;

/* Writes to a WAV file from which the whole session can be heard: sample n is time n / 16000 s. It
 * is written as time passes, so only what is still to be said is in memory.
 * `speech` and `cues` are borrowed. `path` NULL: nothing is written, but time passes the same. */
struct voice *voice_open_file(const char *path, struct speech *speech, struct cues *cues,
			      struct problem *problem);

/* Plays on the ear-piece whose device is called `name`, or holds it in its name; NULL or "": the
 * usual one. `loudness_db` (0 or less) turns all of it down. The first clause is heard while the
 * others are still to be rendered, which voice_work does. All times are of one clock that runs with
 * the world's. What is played is written to `played` (played.h), borrowed, unless it is NULL. */
struct voice *voice_open_headset(const char *name, double loudness_db, struct speech *speech,
				 struct cues *cues, struct played *played, struct problem *problem);

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

/* Live: renders the next clause, in some hundredths of a second; true while there are more. To be
 * called between other work until it is false. */
bool voice_work(struct voice *voice, int64_t at_ms, struct problem *problem);

/* Live: whether the headset is gone (its stream ended or stands still, or PulseAudio moved it to
 * another device). Then, or when PortAudio's devices are to be listed anew: voice_let_go, and
 * voice_take_up until it succeeds. In between everything counts as said at once. */
bool voice_gone(struct voice *voice);
void voice_let_go(struct voice *voice);
bool voice_take_up(struct voice *voice, struct problem *problem);

/* Lengthens the file with silence to `end_ms`, lets what is being said end, and closes. False when
 * the file is not whole, at whatever time that happened. NULL is allowed. */
bool voice_close(struct voice *voice, int64_t end_ms, struct problem *problem);

#endif
