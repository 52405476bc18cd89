#include "kept_sound.h"

#include <sndfile.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A file in memory, for libsndfile to write into. */
struct memory_file {
	unsigned char *bytes;
	sf_count_t size, room, at;
};

static sf_count_t
memory_size(void *user)
{
	const struct memory_file *file = user;
	return file->size;
}

static sf_count_t
memory_seek(sf_count_t offset, int whence, void *user)
{
	struct memory_file *file = user;
	if (whence == SEEK_CUR)
		offset += file->at;
	else if (whence == SEEK_END)
		offset += file->size;
	if (offset < 0 || offset > file->size)
		return -1;
	return file->at = offset;
}

static sf_count_t
memory_read(void *bytes, sf_count_t count, void *user)
{
	struct memory_file *file = user;
	if (count > file->size - file->at)
		count = file->size - file->at;
	memcpy(bytes, file->bytes + file->at, (size_t)count);
	file->at += count;
	return count;
}

static sf_count_t
memory_write(const void *bytes, sf_count_t count, void *user)
{
	struct memory_file *file = user;
	sf_count_t end = file->at + count;
	if (end > file->room) {
		sf_count_t room = 2 * end;
		unsigned char *grown = realloc(file->bytes, (size_t)room);
		if (grown == NULL)
			return 0;
		file->bytes = grown;
		file->room = room;
	}
	memcpy(file->bytes + file->at, bytes, (size_t)count);
	file->at = end;
	if (end > file->size)
		file->size = end;
	return count;
}

static sf_count_t
memory_tell(void *user)
{
	const struct memory_file *file = user;
	return file->at;
}

bool
kept_sound_pack(const int16_t *samples, int64_t count, unsigned char **bytes, int64_t *size)
{
	struct memory_file file = {.bytes = NULL};
	SF_VIRTUAL_IO operations = {memory_size, memory_seek, memory_read, memory_write,
				    memory_tell};
	SF_INFO info = {.samplerate = KEPT_SOUND_RATE_HZ,
			.channels = 1,
			.format = SF_FORMAT_FLAC | SF_FORMAT_PCM_16};
	SNDFILE *sound = sf_open_virtual(&operations, SFM_WRITE, &info, &file);
	bool packed = sound != NULL && sf_write_short(sound, samples, count) == count;
	if (sound != NULL && sf_close(sound) != 0)
		packed = false;
	if (!packed || file.size == 0) {
		free(file.bytes);
		file.bytes = NULL;
		file.size = 0;
	}
	*bytes = file.bytes;
	*size = file.size;
	return file.bytes != NULL;
}
