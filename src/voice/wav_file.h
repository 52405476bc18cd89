/* A WAV file that grows: 16 kHz, mono, 16-bit. It can be heard at any time while it grows, since
 * its header is brought up to date at each writing: a session that is killed leaves a whole file.
 */
#ifndef LAPEL_VOICE_WAV_FILE_H
#define LAPEL_VOICE_WAV_FILE_H

#include "problem.h"

#include <stdbool.h>
#include <stdint.h>

struct wav_file; /* opaque */

/* Makes the file, over what was there. NULL with a problem that names the path. */
struct wav_file *wav_file_open(const char *path, struct problem *problem);

/* Both add at the end, and both fail where the disk is full or the file would be longer than WAV
 * can say (4 GiB: 37 hours). After a failure only wav_file_close is of use. */
bool wav_file_write(struct wav_file *file, const int16_t *samples, int64_t count,
		    struct problem *problem);
bool wav_file_write_silence(struct wav_file *file, int64_t count, struct problem *problem);

/* False when the end of the file could not be written. NULL is allowed. */
bool wav_file_close(struct wav_file *file, struct problem *problem);

#endif
