#include "folders.h"

#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const char english[] = "/usr/share/pocketsphinx/model/en-us";

static bool
is_there(const char *folder, const char *name)
{
	char path[FOLDER_MAX + 64];
	snprintf(path, sizeof path, "%s/%s", folder, name);
	return access(path, R_OK) == 0;
}

/* The program's own folder; its tree is one above it. */
static bool
find_tree(char *tree, size_t size)
{
	char program[PATH_MAX];
	ssize_t length = readlink("/proc/self/exe", program, sizeof program - 1);
	if (length <= 0)
		return false;
	program[length] = '\0';
	for (int up = 0; up < 2; up++) {
		char *slash = strrchr(program, '/');
		if (slash == NULL)
			return false;
		*slash = '\0';
	}
	snprintf(tree, size, "%s", program);
	return true;
}

bool
folders_find(struct folders *folders, struct problem *problem)
{
	char tree[PATH_MAX], share[PATH_MAX + 32];
	memset(folders, 0, sizeof *folders);
	if (!find_tree(tree, sizeof tree))
		return problem_say(problem, "the folder that lapel runs from cannot be found: is "
					    "/proc mounted?");
	snprintf(share, sizeof share, "%s/share/lapel", tree);
	const char *home = is_there(tree, "grammars/station.gram") ? tree : share;
	snprintf(folders->grammars, FOLDER_MAX, "%s/grammars", home);
	snprintf(folders->audio, FOLDER_MAX, "%s/audio", home);
	snprintf(folders->own_model, FOLDER_MAX, "%s/model", folders->audio);
	if (!is_there(folders->grammars, "station.gram"))
		return problem_say(problem,
				   "lapel's own files are missing: neither %s/grammars nor "
				   "%s/grammars holds station.gram; build or install it again",
				   tree, share);
	snprintf(folders->model, FOLDER_MAX, "%s/en-us", english);
	snprintf(folders->dictionary, FOLDER_MAX, "%s/cmudict-en-us.dict", english);
	if (!is_there(folders->model, "mdef") || access(folders->dictionary, R_OK) != 0)
		return problem_say(problem,
				   "the acoustic model or its dictionary is not in %s: install the "
				   "package pocketsphinx-en-us",
				   english);
	return true;
}
