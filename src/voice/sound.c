#include "sound.h"

#include "wav_file.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

void
sound_finish(struct sound *sound)
{
	if (sound == NULL)
		return;
	free(sound->samples);
	sound->samples = NULL;
	sound->count = 0;
}

static bool
lengthen(struct sound *sound, int64_t count)
{
	if (count <= sound->count)
		return true;
	int16_t *samples = realloc(sound->samples, (size_t)count * sizeof *samples);
	if (samples == NULL)
		return false;
	memset(samples + sound->count, 0, (size_t)(count - sound->count) * sizeof *samples);
	sound->samples = samples;
	sound->count = count;
	return true;
}

static int16_t
limited(int value)
{
	if (value > INT16_MAX)
		return INT16_MAX;
	return value < INT16_MIN ? INT16_MIN : (int16_t)value;
}

bool
sound_mix(struct sound *sound, const struct sound *other, int64_t from)
{
	assert(from >= 0);
	if (other->count == 0)
		return true;
	if (!lengthen(sound, from + other->count))
		return false;
	int16_t *into = sound->samples + from;
	for (int64_t i = 0; i < other->count; i++)
		into[i] = limited(into[i] + other->samples[i]);
	return true;
}

bool
sound_write(const char *path, const struct sound *sound, struct problem *problem)
{
	struct wav_file *file = wav_file_open(path, problem);
	if (file == NULL)
		return false;
	bool written = wav_file_write(file, sound->samples, sound->count, problem);
	/* Of two faults the first is told. */
	return wav_file_close(file, written ? problem : NULL) && written;
}
