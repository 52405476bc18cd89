#include "sound_file.h"

#include <errno.h>
#include <math.h>
#include <samplerate.h>
#include <sndfile.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { HOURS_MAX = 24, BLOCK_FRAMES = 4096, OUT_MAX = 4 * BLOCK_FRAMES };

struct sound_file {
	const char *path; /* borrowed: outlives this */
	SNDFILE *sound;
	SF_INFO info;
	int64_t read;	   /* frames of the file */
	SRC_STATE *change; /* NULL: it is at 16 kHz */
	float *block;	   /* as the file has it */
	float mono[BLOCK_FRAMES], changed[OUT_MAX];
	const float *ready; /* what is still to be given */
	int64_t ready_count;
	int64_t mono_at, mono_count; /* what is still to be brought to the rate */
	bool ended;		     /* nothing will come any more */
};

static uint32_t
little_endian_32(const unsigned char *bytes)
{
	return bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16 |
	       (uint32_t)bytes[3] << 24;
}

/* libsndfile opens a WAV that lost its end and takes what is left for the whole: so the length that
 * the data chunk promises is held against the file's. Some writers that stream leave the length at
 * 0 or at its largest value: those promise nothing. */
static bool
wav_is_whole(FILE *file, const char *path, struct problem *problem)
{
	unsigned char header[12], chunk[8];
	struct stat status;
	if (fstat(fileno(file), &status) != 0 || !S_ISREG(status.st_mode))
		return true;
	if (fread(header, 1, sizeof header, file) != sizeof header ||
	    memcmp(header, "RIFF", 4) != 0 || memcmp(header + 8, "WAVE", 4) != 0)
		return true;
	while (fread(chunk, 1, sizeof chunk, file) == sizeof chunk) {
		uint32_t size = little_endian_32(chunk + 4);
		if (memcmp(chunk, "data", 4) == 0) {
			int64_t left = (int64_t)status.st_size - (int64_t)ftello(file);
			if (size == 0 || size >= 0xfffffff0u || left >= (int64_t)size)
				return true;
			return problem_say(
				problem,
				"%s is cut off: its header promises %u bytes of sound and "
				"%lld are there; copy it again",
				path, (unsigned)size, (long long)left);
		}
		if (fseeko(file, (off_t)size + (size & 1), SEEK_CUR) != 0)
			break;
	}
	return true;
}

static bool
file_is_sound_enough(const char *path, struct problem *problem)
{
	FILE *file = fopen(path, "rb");
	if (file == NULL)
		return problem_say(problem, "%s cannot be opened: %s", path, strerror(errno));
	struct stat status;
	bool ok = fstat(fileno(file), &status) == 0 && !S_ISDIR(status.st_mode);
	if (!ok)
		problem_say(problem, "%s is a folder, not a sound file", path);
	else
		ok = wav_is_whole(file, path, problem);
	fclose(file);
	return ok;
}

static bool
cut_off(const struct sound_file *file, struct problem *problem)
{
	return problem_say(problem,
			   "%s is cut off or damaged: %lld of its %lld samples can be read; copy "
			   "it again",
			   file->path, (long long)file->read, (long long)file->info.frames);
}

/* The next frames of the file, averaged over its channels. */
static bool
read_block(struct sound_file *file, struct problem *problem)
{
	int channels = file->info.channels;
	int64_t left = file->info.frames - file->read;
	int64_t got =
		sf_readf_float(file->sound, file->block, left < BLOCK_FRAMES ? left : BLOCK_FRAMES);
	file->mono_at = 0;
	file->mono_count = got > 0 ? got : 0;
	if (got <= 0 && left > 0)
		return cut_off(file, problem);
	for (int64_t i = 0; i < got; i++) {
		float sum = 0;
		for (int channel = 0; channel < channels; channel++)
			sum += file->block[i * channels + channel];
		file->mono[i] = sum / (float)channels;
	}
	file->read += got;
	return true;
}

/* Brings what was read to the rate; at the end of the file, also what the filter kept back. */
static bool
change_rate(struct sound_file *file, struct problem *problem)
{
	SRC_DATA data = {.data_in = file->mono + file->mono_at,
			 .input_frames = (long)file->mono_count,
			 .data_out = file->changed,
			 .output_frames = OUT_MAX,
			 .end_of_input = file->read == file->info.frames,
			 .src_ratio = (double)SOUND_FILE_RATE_HZ / file->info.samplerate};
	int error = src_process(file->change, &data);
	if (error != 0)
		return problem_say(problem, "%s cannot be brought from %d Hz to %d Hz: %s",
				   file->path, file->info.samplerate, SOUND_FILE_RATE_HZ,
				   src_strerror(error));
	file->mono_at += data.input_frames_used;
	file->mono_count -= data.input_frames_used;
	file->ready = file->changed;
	file->ready_count = data.output_frames_gen;
	file->ended = data.end_of_input && file->mono_count == 0 && data.output_frames_gen == 0;
	return true;
}

static bool
make_ready(struct sound_file *file, struct problem *problem)
{
	while (file->ready_count == 0 && !file->ended) {
		if (file->mono_count == 0 && !read_block(file, problem))
			return false;
		if (file->change != NULL) {
			if (!change_rate(file, problem))
				return false;
			continue;
		}
		file->ready = file->mono;
		file->ready_count = file->mono_count;
		file->ended = file->mono_count == 0;
		file->mono_count = 0;
	}
	return true;
}

int64_t
sound_file_next(struct sound_file *file, int16_t *samples, int64_t most, struct problem *problem)
{
	int64_t count = 0;
	while (count < most) {
		if (!make_ready(file, problem))
			return -1;
		if (file->ready_count == 0)
			break;
		for (; count < most && file->ready_count > 0; file->ready_count--) {
			float value = roundf(*file->ready++ * 32768.0f);
			samples[count++] = (int16_t)fmaxf(-32768.0f, fminf(32767.0f, value));
		}
	}
	return count;
}

int64_t
sound_file_length(const struct sound_file *file)
{
	return (int64_t)((double)file->info.frames * SOUND_FILE_RATE_HZ / file->info.samplerate +
			 0.5);
}

void
sound_file_close(struct sound_file *file)
{
	if (file == NULL)
		return;
	if (file->change != NULL)
		src_delete(file->change);
	if (file->sound != NULL)
		sf_close(file->sound);
	free(file->block);
	free(file);
}

/* That a compressed file lost its end shows only when it has been read to there. */
static bool
can_be_read_to_its_end(struct sound_file *file, struct problem *problem)
{
	if ((file->info.format & SF_FORMAT_TYPEMASK) == SF_FORMAT_WAV || !file->info.seekable)
		return true;
	while (file->read < file->info.frames)
		if (!read_block(file, problem))
			return false;
	file->read = file->mono_count = 0;
	return sf_seek(file->sound, 0, SEEK_SET) == 0 ||
	       problem_say(problem, "%s cannot be read from its beginning again", file->path);
}

static bool
open_file(struct sound_file *file, struct problem *problem)
{
	if (!file_is_sound_enough(file->path, problem))
		return false;
	file->sound = sf_open(file->path, SFM_READ, &file->info);
	if (file->sound == NULL)
		return problem_say(problem, "%s is not a sound file that can be read: %s",
				   file->path, sf_strerror(NULL));
	if (file->info.frames <= 0)
		return problem_say(problem, "%s holds no sound", file->path);
	if (file->info.frames > (sf_count_t)file->info.samplerate * 3600 * HOURS_MAX)
		return problem_say(problem, "%s is too long to be read (24 hours at most)",
				   file->path);
	file->block = malloc(sizeof *file->block * BLOCK_FRAMES * (size_t)file->info.channels);
	int error = 0;
	if (file->info.samplerate != SOUND_FILE_RATE_HZ)
		file->change = src_new(SRC_SINC_MEDIUM_QUALITY, 1, &error);
	if (file->block == NULL || error != 0)
		return problem_say(problem, "%s cannot be read: out of memory", file->path);
	return can_be_read_to_its_end(file, problem);
}

struct sound_file *
sound_file_open(const char *path, struct problem *problem)
{
	struct sound_file *file = calloc(1, sizeof *file);
	if (file == NULL) {
		problem_say(problem, "%s cannot be read: out of memory", path);
		return NULL;
	}
	file->path = path;
	if (open_file(file, problem))
		return file;
	sound_file_close(file);
	return NULL;
}

bool
sound_file_read(const char *path, int16_t **samples, int64_t *count, struct problem *problem)
{
	enum { SPARE = 64 }; /* the filter may give a few samples more than the ratio says */
	struct sound_file *file = sound_file_open(path, problem);
	if (file == NULL)
		return false;
	int64_t room = sound_file_length(file) + SPARE;
	*samples = malloc(sizeof **samples * (size_t)room);
	if (*samples == NULL)
		problem_say(problem, "%s is too long for this machine's memory", path);
	*count = *samples != NULL ? sound_file_next(file, *samples, room, problem) : -1;
	sound_file_close(file);
	if (*count >= 0)
		return true;
	free(*samples);
	*samples = NULL;
	return false;
}
