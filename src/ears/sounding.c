#include "sounding.h"

#include <stdlib.h>
#include <string.h>

struct sounding {
	int silence;
	int count;
	struct sounded *words; /* sorted */
};

static bool
read_way(const struct network *network, const char *phones, struct way *way)
{
	char text[256], *rest = NULL;
	if (strlen(phones) >= sizeof text)
		return false;
	strcpy(text, phones);
	way->count = 0;
	for (char *phone = strtok_r(text, " ", &rest); phone != NULL;
	     phone = strtok_r(NULL, " ", &rest)) {
		int parts;
		int first = network_phone(network, phone, &parts);
		if (first < 0 || way->count + parts > WAY_PARTS_MAX)
			return false;
		for (int i = 0; i < parts; i++)
			way->outputs[way->count++] = first + i;
	}
	return way->count > 0;
}

static bool
sound_word(const struct network *network, const struct pronunciations *pronunciations,
	   const char *word, struct sounded *sounded)
{
	struct way ways[WAYS_MAX];
	for (int i = 0; sounded->way_count < WAYS_MAX; i++) {
		const char *phones = pronunciations_of(pronunciations, word, i);
		if (phones == NULL)
			break;
		if (read_way(network, phones, &ways[sounded->way_count]))
			sounded->way_count++;
	}
	size_t size = sizeof *ways * (size_t)sounded->way_count;
	sounded->word = strdup(word);
	sounded->ways = malloc(size > 0 ? size : 1);
	if (sounded->word == NULL || sounded->ways == NULL)
		return false;
	memcpy(sounded->ways, ways, size);
	return true;
}

static int
by_word(const void *one, const void *other)
{
	return strcmp(((const struct sounded *)one)->word, ((const struct sounded *)other)->word);
}

struct sounding *
sounding_create(const struct network *network, const struct pronunciations *pronunciations,
		const char *const *words, int count)
{
	int parts;
	struct sounding *sounding = calloc(1, sizeof *sounding);
	if (sounding == NULL)
		return NULL;
	sounding->silence = network_phone(network, "SIL", &parts);
	sounding->words = calloc((size_t)(count > 0 ? count : 1), sizeof *sounding->words);
	bool done = sounding->words != NULL && sounding->silence >= 0;
	for (int i = 0; done && i < count; i++)
		done = sound_word(network, pronunciations, words[i],
				  &sounding->words[sounding->count++]);
	if (!done) {
		sounding_destroy(sounding);
		return NULL;
	}
	qsort(sounding->words, (size_t)count, sizeof *sounding->words, by_word);
	return sounding;
}

void
sounding_destroy(struct sounding *sounding)
{
	if (sounding == NULL)
		return;
	for (int i = 0; i < sounding->count; i++) {
		free((char *)sounding->words[i].word);
		free(sounding->words[i].ways);
	}
	free(sounding->words);
	free(sounding);
}

const struct sounded *
sounding_of(const struct sounding *sounding, const char *word, size_t length)
{
	int low = 0, high = sounding->count - 1;
	while (low <= high) {
		int middle = (low + high) / 2;
		const struct sounded *sounded = &sounding->words[middle];
		int order = strncmp(sounded->word, word, length);
		if (order == 0)
			order = sounded->word[length] != '\0';
		if (order == 0)
			return sounded->way_count > 0 ? sounded : NULL;
		if (order < 0)
			low = middle + 1;
		else
			high = middle - 1;
	}
	return NULL;
}

int
sounding_silence(const struct sounding *sounding)
{
	return sounding->silence;
}
