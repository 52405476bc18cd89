#include "learnt.h"

#include "file_text.h"

#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const struct {
	enum list list;
	const char *file;
} tables[] = {
	{LIST_KIND, "kinds.txt"},     {LIST_FLAW, "flaws.txt"}, {LIST_MAKER, "makers.txt"},
	{LIST_COLOUR, "colours.txt"}, {LIST_TAG, "tags.txt"},	{LIST_FIBRE, "fibres.txt"},
	{LIST_PARCEL, "parcels.txt"},
};

static bool
table_path(const char *folder, const char *file, char path[PATH_MAX], struct problem *problem)
{
	if (snprintf(path, PATH_MAX, "%s/%s", folder, file) < PATH_MAX)
		return true;
	return problem_say(problem, "the path %.100s... is too long", folder);
}

/* The name that a line begins with; false when it has none. */
static bool
line_name(const char *line, char *name, size_t size)
{
	size_t length = strcspn(line, "|#\n");
	while (length > 0 &&
	       (line[length - 1] == ' ' || line[length - 1] == '\t' || line[length - 1] == '\r'))
		length--;
	snprintf(name, size, "%.*s", (int)length, line);
	return length > 0;
}

/* Line by line, since one that is known already is no fault here. */
static bool
read_lines(struct vocabulary *vocabulary, enum list list, const char *path, char *text,
	   struct problem *problem)
{
	for (char *next = text, *line; (line = strsep(&next, "\n")) != NULL;) {
		char name[256];
		if (!line_name(line, name, sizeof name) ||
		    vocabulary_find(vocabulary, list, name) >= 0)
			continue;
		if (!vocabulary_read(vocabulary, list, path, line, problem))
			return false;
	}
	return true;
}

bool
learnt_read(struct vocabulary *vocabulary, const char *folder, struct problem *problem)
{
	for (size_t i = 0; i < sizeof tables / sizeof *tables; i++) {
		char path[PATH_MAX];
		if (!table_path(folder, tables[i].file, path, problem))
			return false;
		if (access(path, F_OK) != 0)
			continue;
		char *text = file_text(path, problem);
		bool read =
			text != NULL && read_lines(vocabulary, tables[i].list, path, text, problem);
		free(text);
		if (!read)
			return false;
	}
	return true;
}

/* With the folders above it. */
static bool
make_folder(const char *folder, struct problem *problem)
{
	char path[PATH_MAX];
	snprintf(path, sizeof path, "%s", folder);
	for (char *slash = path + 1; (slash = strchr(slash, '/')) != NULL; slash++) {
		*slash = '\0';
		mkdir(path, 0700);
		*slash = '/';
	}
	if (mkdir(path, 0700) == 0 || errno == EEXIST)
		return true;
	return problem_say(problem, "the folder %s cannot be made: %s", folder, strerror(errno));
}

static bool
add_line(const char *path, const char *name, struct problem *problem)
{
	FILE *file = fopen(path, "ae");
	bool written = file != NULL && fprintf(file, "%s\n", name) > 0;
	written = file != NULL && fclose(file) == 0 && written;
	return written || problem_say(problem, "%s cannot be written: %s", path, strerror(errno));
}

bool
learnt_add(struct vocabulary *vocabulary, const char *folder, enum list list, const char *name,
	   struct problem *problem)
{
	char path[PATH_MAX];
	size_t i = 0;
	while (i < sizeof tables / sizeof *tables && tables[i].list != list)
		i++;
	if (i == sizeof tables / sizeof *tables)
		return problem_say(problem, "nothing is learnt for this list");
	if (folder[0] == '\0')
		return problem_say(problem, "there is no folder for learnt words: name one in the "
					    "settings, [lists] learnt = FOLDER");
	struct problem why = {""};
	/* The vocabulary takes only what can be said; its sentence names a line of a table. */
	bool plain = name[0] != '\0' && name[strspn(name, "abcdefghijklmnopqrstuvwxyz' ")] == '\0';
	if (!plain || !vocabulary_read(vocabulary, list, "learnt", name, &why))
		return problem_say(problem,
				   "\"%.60s\" cannot be put on the list of %.*s: a name is written "
				   "as it is said, in letters a to z, ' and spaces, and is no word "
				   "of lapel's own",
				   name, (int)(strlen(tables[i].file) - 4), tables[i].file);
	return make_folder(folder, problem) && table_path(folder, tables[i].file, path, problem) &&
	       add_line(path, name, problem);
}
