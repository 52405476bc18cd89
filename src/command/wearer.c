#include "wearer.h"

#include "state_folder.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME_MAX_BYTES = 256, TEXT_MAX = 2048 };

static const char heading[] = "# How a voice sounds through a headset, kept by lapel. It may be "
			      "deleted.\n";

/* "wearer-ann.txt": what is no letter or digit is written as its number. */
static void
file_name(const char *who, char name[NAME_MAX_BYTES])
{
	size_t length = (size_t)snprintf(name, NAME_MAX_BYTES, "wearer-");
	for (; *who != '\0' && length < NAME_MAX_BYTES - 8; who++)
		length += (size_t)snprintf(name + length, NAME_MAX_BYTES - length,
					   isalnum((unsigned char)*who) ? "%c" : "%%%02x",
					   (unsigned char)*who);
	snprintf(name + length, NAME_MAX_BYTES - length, ".txt");
}

static bool
read_mean(FILE *file, const char *headset, struct ears_wearer *wearer)
{
	char line[TEXT_MAX], whole[TEXT_MAX];
	if (fgets(line, sizeof line, file) == NULL || fgets(line, sizeof line, file) == NULL)
		return false;
	snprintf(whole, sizeof whole, "headset %s\n", headset);
	if (strcmp(line, whole) != 0)
		return false;
	for (int i = 0; i < EARS_MEAN_SIZE; i++)
		if (fscanf(file, "%f", &wearer->mean[i]) != 1 || !isfinite(wearer->mean[i]))
			return false;
	return true;
}

void
wearer_recall(struct ears *ears, const char *who, const char *headset)
{
	char name[NAME_MAX_BYTES], path[STATE_PATH_MAX];
	struct ears_wearer wearer = {.known = false};
	file_name(who, name);
	FILE *file = state_folder_path(name, path) ? fopen(path, "r") : NULL;
	if (file == NULL)
		return;
	wearer.known = read_mean(file, headset, &wearer);
	fclose(file);
	ears_know_wearer(ears, &wearer);
}

bool
wearer_keep(const struct ears *ears, const char *who, const char *headset, struct problem *problem)
{
	char name[NAME_MAX_BYTES], text[TEXT_MAX];
	struct ears_wearer wearer;
	ears_wearer(ears, &wearer);
	if (!wearer.known)
		return true;
	file_name(who, name);
	int length = snprintf(text, sizeof text, "%sheadset %.1024s\n", heading, headset);
	for (int i = 0; i < EARS_MEAN_SIZE; i++)
		length += snprintf(text + length, sizeof text - (size_t)length, "%.4f\n",
				   (double)wearer.mean[i]);
	return state_folder_write(name, text, problem);
}
