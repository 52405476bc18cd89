#include "wav_file.h"

#include "sound.h"

#include <errno.h>
#include <fcntl.h>
#include <sndfile.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* A WAV file counts its bytes in 32 bits, its header among them. */
static const int64_t samples_max = (UINT32_MAX - 4096) / (int64_t)sizeof(int16_t);

struct wav_file {
	SNDFILE *sndfile;
	char *path;
	int64_t count; /* samples written */
};

/* libsndfile's sentences end in a full stop; ours go on. */
static int
length_without_stop(const char *why)
{
	size_t length = strlen(why);
	return (int)(length > 0 && why[length - 1] == '.' ? length - 1 : length);
}

static bool
say_cannot_make(struct problem *problem, const char *path, const char *why)
{
	return problem_say(
		problem,
		"cannot make the sound file %s: %.*s; give a file in a folder that exists "
		"and that you may write to",
		path, length_without_stop(why), why);
}

static bool
say_cannot_write(struct problem *problem, const struct wav_file *file, const char *why)
{
	return problem_say(
		problem,
		"the sound file %s is not whole, it ends after %lld s: %.*s; make room on "
		"its disk or give another place",
		file->path, (long long)(file->count / SOUND_RATE_HZ), length_without_stop(why),
		why);
}

struct wav_file *
wav_file_open(const char *path, struct problem *problem)
{
	struct wav_file *file = calloc(1, sizeof *file);
	if (file != NULL)
		file->path = strdup(path);
	if (file == NULL || file->path == NULL) {
		problem_say(problem, "cannot make the sound file %s: out of memory", path);
		goto failed;
	}
	/* Opened here and not by libsndfile, which does not tell why it could not. */
	int descriptor = open(path, O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
	if (descriptor < 0) {
		say_cannot_make(problem, path, strerror(errno));
		goto failed;
	}
	SF_INFO info = {.samplerate = SOUND_RATE_HZ,
			.channels = 1,
			.format = SF_FORMAT_WAV | SF_FORMAT_PCM_16};
	file->sndfile = sf_open_fd(descriptor, SFM_WRITE, &info, SF_TRUE);
	if (file->sndfile == NULL) { /* libsndfile has closed the descriptor */
		say_cannot_make(problem, path, sf_strerror(NULL));
		goto failed;
	}
	sf_command(file->sndfile, SFC_SET_UPDATE_HEADER_AUTO, NULL, SF_TRUE);
	return file;
failed:
	wav_file_close(file, NULL);
	return NULL;
}

bool
wav_file_write(struct wav_file *file, const int16_t *samples, int64_t count,
	       struct problem *problem)
{
	if (count == 0)
		return true;
	if (count > samples_max - file->count)
		return problem_say(
			problem,
			"the sound file %s is not whole: it would be longer than a WAV file "
			"can be, which is 37 hours; begin a new session each day",
			file->path);
	sf_count_t written = sf_write_short(file->sndfile, samples, count);
	file->count += written;
	/* The header is written with the samples, and libsndfile tells of that by sf_error alone.
	 */
	if (written < count || sf_error(file->sndfile) != SF_ERR_NO_ERROR)
		return say_cannot_write(problem, file, sf_strerror(file->sndfile));
	return true;
}

bool
wav_file_write_silence(struct wav_file *file, int64_t count, struct problem *problem)
{
	static const int16_t silence[SOUND_RATE_HZ];
	while (count > 0) {
		int64_t piece = count < SOUND_RATE_HZ ? count : SOUND_RATE_HZ;
		if (!wav_file_write(file, silence, piece, problem))
			return false;
		count -= piece;
	}
	return true;
}

bool
wav_file_close(struct wav_file *file, struct problem *problem)
{
	if (file == NULL)
		return true;
	bool whole = true;
	if (file->sndfile != NULL) {
		int fault = sf_close(file->sndfile);
		if (fault != SF_ERR_NO_ERROR)
			whole = say_cannot_write(problem, file, sf_error_number(fault));
	}
	free(file->path);
	free(file);
	return whole;
}
