#include "state_folder.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

bool
state_folder_path(const char *name, char path[STATE_PATH_MAX])
{
	const char *state = getenv("XDG_STATE_HOME"), *home = getenv("HOME");
	int length;
	if (state != NULL && state[0] == '/')
		length = snprintf(path, STATE_PATH_MAX, "%s/lapel/%s", state, name);
	else if (home != NULL && home[0] == '/')
		length = snprintf(path, STATE_PATH_MAX, "%s/.local/state/lapel/%s", home, name);
	else
		return false;
	return length < STATE_PATH_MAX;
}

static void
make_folders_of(const char *path)
{
	char folder[STATE_PATH_MAX];
	snprintf(folder, sizeof folder, "%s", path);
	for (char *slash = strchr(folder + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
		*slash = '\0';
		mkdir(folder, 0700); /* what cannot be made shows when the file is opened */
		*slash = '/';
	}
}

static bool
write_all(int descriptor, const char *text)
{
	for (size_t left = strlen(text); left > 0;) {
		ssize_t some = write(descriptor, text, left);
		if (some < 0 && errno == EINTR)
			continue;
		if (some <= 0)
			return false;
		text += some;
		left -= (size_t)some;
	}
	return fsync(descriptor) == 0;
}

bool
state_folder_write(const char *name, const char *text, struct problem *problem)
{
	char path[STATE_PATH_MAX], fresh[STATE_PATH_MAX + 8];
	if (!state_folder_path(name, path))
		return problem_say(problem, "there is no folder to keep \"%s\" in: HOME is not set",
				   name);
	make_folders_of(path);
	snprintf(fresh, sizeof fresh, "%s.new", path);
	int descriptor = open(fresh, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
	bool written = descriptor >= 0 && write_all(descriptor, text);
	if (descriptor >= 0)
		written = close(descriptor) == 0 && written;
	written = written && rename(fresh, path) == 0;
	if (!written) {
		problem_say(problem, "%s cannot be written: %s", path, strerror(errno));
		unlink(fresh);
	}
	return written;
}
