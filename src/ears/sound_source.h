/* Where the ears' sound comes from: a table of functions with two drivers, the headset's microphone
 * and a file. Samples are 16 kHz, mono, 16-bit. A source belongs to the listening thread. */
#ifndef LAPEL_EARS_SOUND_SOURCE_H
#define LAPEL_EARS_SOUND_SOURCE_H

#include "problem.h"

#include <stdbool.h>
#include <stdint.h>

enum sound_news {
	SOUND_NONE,  /* nothing now: look again in 10 ms */
	SOUND_SOME,  /* `count` samples, 1 or more */
	SOUND_ENDED, /* the file is at its end */
	SOUND_GONE   /* the headset is gone: close this source and open another */
};

struct sound_piece {
	int64_t count; /* samples given */
	int64_t lost;  /* samples that came since the piece before, could not be kept, and so are
			  missing before this one: the ring was full */
	bool narrow;   /* the link carries nothing above 4 kHz; may turn true at any piece */
};

struct sound_source;

struct sound_source_functions {
	const char *name; /* "headset", "file" */
	int (*fd)(struct sound_source *source);
	enum sound_news (*next)(struct sound_source *source, int16_t *samples, int64_t most,
				struct sound_piece *piece);
	void (*close)(struct sound_source *source);
};

/* The first member of each driver's own struct. */
struct sound_source {
	const struct sound_source_functions *functions;
};

/* The whole file, as fast as it is asked for; `path` is borrowed and outlives the source. A file
 * that cannot be read to its end is gone. */
struct sound_source *sound_source_file_open(const char *path, struct problem *problem);

/* The microphone whose device is called `name`, or holds it in its name; NULL or "": the usual one.
 * 16 kHz is asked for; where the device has other rates only, its own is resampled. The callback
 * writes a ring of `room_ms` milliseconds and does nothing else; 0: four seconds.
 *
 * The source is gone when its stream has ended, when no sound came for two seconds (five at the
 * beginning: the first frames of a fresh PulseAudio source take up to two), or when PulseAudio
 * moved the recording to another source, which then is silent. */
struct sound_source *sound_source_headset_open(const char *name, int room_ms,
					       struct problem *problem);

/* To poll for input, or -1: the audio callback makes no system call, so the headset has none. */
int sound_source_fd(struct sound_source *source);

/* Up to `most` samples, those that are there: does not wait. */
enum sound_news sound_source_next(struct sound_source *source, int16_t *samples, int64_t most,
				  struct sound_piece *piece);
void sound_source_close(struct sound_source *source); /* NULL is allowed */

#endif
