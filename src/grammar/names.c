#include "names.h"

#include "growth.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct names {
	char **text;
	int count, room;
	int *slots; /* a hash table of numbers, -1 where it is free; twice as large as needed */
	int slot_count;
};

struct names *
names_create(void)
{
	return calloc(1, sizeof(struct names));
}

void
names_destroy(struct names *names)
{
	if (names == NULL)
		return;
	for (int i = 0; i < names->count; i++)
		free(names->text[i]);
	free(names->text);
	free(names->slots);
	free(names);
}

/* FNV-1a, 32 bits (Fowler, Noll and Vo). */
static uint32_t
hash(const char *text, size_t length)
{
	uint32_t value = 2166136261u;
	for (size_t i = 0; i < length; i++)
		value = (value ^ (unsigned char)text[i]) * 16777619u;
	return value;
}

/* The slot where the name is, or the free one where it belongs. */
static int
slot_of(const struct names *names, const char *text, size_t length)
{
	uint32_t mask = (uint32_t)names->slot_count - 1;
	uint32_t slot = hash(text, length) & mask;
	for (; names->slots[slot] >= 0; slot = (slot + 1) & mask) {
		const char *there = names->text[names->slots[slot]];
		if (strncmp(there, text, length) == 0 && there[length] == '\0')
			break;
	}
	return (int)slot;
}

static bool
slots_double(struct names *names)
{
	int count = names->slot_count == 0 ? 64 : 2 * names->slot_count;
	int *slots = malloc((size_t)count * sizeof *slots);
	if (slots == NULL)
		return false;
	memset(slots, -1, (size_t)count * sizeof *slots);
	free(names->slots);
	names->slots = slots;
	names->slot_count = count;
	for (int i = 0; i < names->count; i++)
		slots[slot_of(names, names->text[i], strlen(names->text[i]))] = i;
	return true;
}

int
names_find(const struct names *names, const char *text, size_t length)
{
	return names->slot_count == 0 ? -1 : names->slots[slot_of(names, text, length)];
}

int
names_add(struct names *names, const char *text, size_t length)
{
	int found = names_find(names, text, length);
	if (found >= 0)
		return found;
	if (2 * (names->count + 1) > names->slot_count && !slots_double(names))
		return -1;
	if (!growth_reserve(&names->text, &names->room, names->count + 1, sizeof *names->text))
		return -1;
	char *copy = strndup(text, length);
	if (copy == NULL)
		return -1;
	names->slots[slot_of(names, text, length)] = names->count;
	names->text[names->count] = copy;
	return names->count++;
}

int
names_count(const struct names *names)
{
	return names->count;
}

const char *
names_text(const struct names *names, int number)
{
	return names->text[number];
}
