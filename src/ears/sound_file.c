#include "sound_file.h"

#include <errno.h>
#include <math.h>
#include <samplerate.h>
#include <sndfile.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { HOURS_MAX = 24 };

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

static float *
read_mono(SNDFILE *sound, const SF_INFO *info, const char *path, int64_t *count,
	  struct problem *problem)
{
	enum { BLOCK_FRAMES = 4096 };
	float *mono = NULL;
	float *block = malloc(sizeof *block * BLOCK_FRAMES * (size_t)info->channels);
	sf_count_t total = 0, got;
	if (info->frames > 0 && info->frames <= (sf_count_t)info->samplerate * 3600 * HOURS_MAX)
		mono = malloc(sizeof *mono * (size_t)(info->frames + BLOCK_FRAMES));
	if (block == NULL || mono == NULL) {
		problem_say(problem,
			    info->frames <= 0 ? "%s holds no sound"
					      : "%s is too long to be read (24 hours at most)",
			    path);
		goto failed;
	}
	while (total < info->frames && (got = sf_readf_float(sound, block, BLOCK_FRAMES)) > 0) {
		for (sf_count_t i = 0; i < got && total < info->frames; i++, total++) {
			float sum = 0;
			for (int channel = 0; channel < info->channels; channel++)
				sum += block[i * info->channels + channel];
			mono[total] = sum / (float)info->channels;
		}
	}
	if (total < info->frames) {
		problem_say(problem,
			    "%s is cut off or damaged: %lld of its %lld samples can be read; copy "
			    "it again",
			    path, (long long)total, (long long)info->frames);
		goto failed;
	}
	free(block);
	*count = total;
	return mono;
failed:
	free(block);
	free(mono);
	return NULL;
}

static bool
to_rate(float **mono, int64_t *count, int rate_hz, const char *path, struct problem *problem)
{
	if (rate_hz == SOUND_FILE_RATE_HZ)
		return true;
	SRC_DATA data = {.data_in = *mono, .input_frames = (long)*count};
	data.src_ratio = (double)SOUND_FILE_RATE_HZ / rate_hz;
	data.output_frames = (long)ceil((double)*count * data.src_ratio) + 16;
	float *resampled = malloc(sizeof *resampled * (size_t)data.output_frames);
	if (resampled == NULL)
		return problem_say(problem, "%s is too long for this machine's memory", path);
	data.data_out = resampled;
	int error = src_simple(&data, SRC_SINC_MEDIUM_QUALITY, 1);
	if (error != 0) {
		free(resampled);
		return problem_say(problem, "%s cannot be brought from %d Hz to %d Hz: %s", path,
				   rate_hz, SOUND_FILE_RATE_HZ, src_strerror(error));
	}
	free(*mono);
	*mono = resampled;
	*count = data.output_frames_gen;
	return true;
}

bool
sound_file_read(const char *path, int16_t **samples, int64_t *count, struct problem *problem)
{
	SF_INFO info = {0};
	float *mono = NULL;
	bool done = false;
	if (!file_is_sound_enough(path, problem))
		return false;
	SNDFILE *sound = sf_open(path, SFM_READ, &info);
	if (sound == NULL)
		return problem_say(problem, "%s is not a sound file that can be read: %s", path,
				   sf_strerror(NULL));
	mono = read_mono(sound, &info, path, count, problem);
	if (mono == NULL || !to_rate(&mono, count, info.samplerate, path, problem))
		goto finished;
	*samples = malloc(sizeof **samples * (size_t)(*count > 0 ? *count : 1));
	if (*samples == NULL) {
		problem_say(problem, "%s is too long for this machine's memory", path);
		goto finished;
	}
	for (int64_t i = 0; i < *count; i++) {
		float value = roundf(mono[i] * 32768.0f);
		(*samples)[i] = (int16_t)fmaxf(-32768.0f, fminf(32767.0f, value));
	}
	done = true;
finished:
	free(mono);
	sf_close(sound);
	return done;
}
