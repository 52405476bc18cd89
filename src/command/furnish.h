/* What several commands are furnished with, from lapel's own files and the user's settings. */
#ifndef LAPEL_COMMAND_FURNISH_H
#define LAPEL_COMMAND_FURNISH_H

#include "cues.h"
#include "ears.h"
#include "folders.h"
#include "settings.h"
#include "sketch.h"
#include "writeup.h"

/* The lists, with the user's bins; the caller destroys them. NULL with a problem. */
struct vocabulary *furnish_vocabulary(const struct folders *folders,
				      const struct settings *settings, struct problem *problem);

/* The station's ears as the settings want them, for ears_open; the folders are borrowed. */
struct ears_setting furnish_ears(const struct folders *folders, const struct settings *settings,
				 const struct vocabulary *vocabulary);

/* The words of write-ups, which tell how each measure is taken as the sketches say: these stay as
 * long. The caller destroys both. False with a problem; one of them may be there even then. */
bool furnish_writeups(const struct folders *folders, const struct vocabulary *vocabulary,
		      struct writeup_form **form, struct sketch_book **sketches,
		      struct problem *problem);

/* The cues of audio/cues.txt; the caller destroys them. NULL with a problem. */
struct cues *furnish_cues(const struct folders *folders, struct problem *problem);

#endif
