/* To be preloaded before umockdev's library, which keeps a place for each device file that a
 * program tries to open in vain, has few of them, and then ends the program: ALSA alone looks for
 * some sixty sound cards. Here there are none; the sound comes from PulseAudio. */
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdbool.h>
#include <string.h>

int open(const char *path, int flags, ...);
int open64(const char *path, int flags, ...);

static bool
is_sound_card(const char *path)
{
	static const char *const files[] = {"/dev/snd/", "/dev/aload", "/dev/dsp", "/dev/audio",
					    "/dev/sound"};
	for (size_t i = 0; i < sizeof files / sizeof *files; i++)
		if (strncmp(path, files[i], strlen(files[i])) == 0)
			return true;
	return false;
}

static int
open_by(const char *function, const char *path, int flags, int mode)
{
	int (*next)(const char *path, int flags, ...);
	if (is_sound_card(path)) {
		errno = ENOENT;
		return -1;
	}
	*(void **)&next = dlsym(RTLD_NEXT, function);
	return next(path, flags, mode);
}

int
open(const char *path, int flags, ...)
{
	va_list rest;
	va_start(rest, flags);
	int mode = (flags & O_CREAT) != 0 ? va_arg(rest, int) : 0;
	va_end(rest);
	return open_by("open", path, flags, mode);
}

int
open64(const char *path, int flags, ...)
{
	va_list rest;
	va_start(rest, flags);
	int mode = (flags & O_CREAT) != 0 ? va_arg(rest, int) : 0;
	va_end(rest);
	return open_by("open64", path, flags, mode);
}
