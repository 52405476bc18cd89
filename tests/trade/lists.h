/* The lists that are shipped, for tests: read from the folder named by LAPEL_GRAMMARS. */
#ifndef LAPEL_TESTS_TRADE_LISTS_H
#define LAPEL_TESTS_TRADE_LISTS_H

#include "vocabulary.h"

#include <stdio.h>
#include <stdlib.h>

/* A whole small file, which the caller frees; NULL when it cannot be read. */
static char *
lists_text(const char *name)
{
	char path[512];
	snprintf(path, sizeof path, "%s/%s", getenv("LAPEL_GRAMMARS"), name);
	FILE *file = fopen(path, "r");
	if (file == NULL)
		return NULL;
	size_t room = 65536;
	char *text = calloc(1, room);
	size_t length = text == NULL ? 0 : fread(text, 1, room - 1, file);
	fclose(file);
	if (length == room - 1) {
		free(text);
		return NULL;
	}
	return text;
}

/* All lists, and three bins; NULL, and why on standard error, when one cannot be read. */
static struct vocabulary *
lists_read(void)
{
	static const struct {
		enum list list;
		const char *name;
	} files[] = {
		{LIST_MEASURE, "measures.txt"}, {LIST_KIND, "kinds.txt"},
		{LIST_FLAW, "flaws.txt"},	{LIST_PART, "parts.txt"},
		{LIST_ROUTE, "routes.txt"},	{LIST_MAKER, "makers.txt"},
		{LIST_COLOUR, "colours.txt"},	{LIST_TAG, "tags.txt"},
		{LIST_FIBRE, "fibres.txt"},	{LIST_PARCEL, "parcels.txt"},
		{LIST_PERSON, "people.txt"},	{LIST_GROUP, "groups.txt"},
		{LIST_CARE, "care.txt"},	{LIST_MEND, "mends.txt"},
	};
	static const char *const bins = "482\n492\n17\nback room | the back room\n";
	struct vocabulary *vocabulary = vocabulary_create();
	struct problem problem = {""};
	bool good = vocabulary_read(vocabulary, LIST_BIN, "bins", bins, &problem);
	for (size_t i = 0; good && i < sizeof files / sizeof files[0]; i++) {
		char *text = lists_text(files[i].name);
		good = text != NULL &&
		       vocabulary_read(vocabulary, files[i].list, files[i].name, text, &problem);
		free(text);
	}
	if (good)
		return vocabulary;
	fprintf(stderr, "the lists: %s\n", problem.text);
	vocabulary_destroy(vocabulary);
	return NULL;
}

#endif
