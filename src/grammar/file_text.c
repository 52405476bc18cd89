#include "file_text.h"

#include <errno.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { FILE_TEXT_MAX = 16 * 1024 * 1024 };

/* Reads to the end, whatever length the file claims to have (a pipe claims none). */
static char *
read_all(FILE *file, const char *path, struct problem *problem)
{
	size_t room = 64 * 1024, length = 0;
	char *text = NULL;

	for (;;) {
		char *larger = realloc(text, room + 1);
		if (larger == NULL) {
			problem_say(problem, "%s: there is no memory left to read it", path);
			break;
		}
		text = larger;
		length += fread(text + length, 1, room - length, file);
		if (ferror(file)) {
			problem_say(problem, "%s: cannot be read: %s", path, strerror(errno));
			break;
		}
		if (length > FILE_TEXT_MAX) {
			problem_say(problem, "%s: is larger than 16 MiB, too large for a text file",
				    path);
			break;
		}
		if (length < room) {
			text[length] = '\0';
			if (strlen(text) == length)
				return text;
			problem_say(problem, "%s: is not a text file: it has a zero byte in it",
				    path);
			break;
		}
		room *= 2;
	}
	free(text);
	return NULL;
}

char *
file_text(const char *path, struct problem *problem)
{
	struct stat status;
	char *text = NULL;
	FILE *file = fopen(path, "re");

	if (file == NULL) {
		problem_say(problem, "%s: cannot be opened: %s", path, strerror(errno));
		return NULL;
	}
	if (fstat(fileno(file), &status) == 0 && S_ISDIR(status.st_mode))
		problem_say(problem, "%s: is a folder, not a file", path);
	else
		text = read_all(file, path, problem);
	fclose(file);
	return text;
}

char *
file_text_in(const char *folder, const char *name, struct problem *problem)
{
	char *path = NULL;
	if (asprintf(&path, "%s/%s", folder, name) < 0) {
		problem_say(problem, "%s: there is no memory left to read it", name);
		return NULL;
	}
	char *text = file_text(path, problem);
	free(path);
	return text;
}
