#include "growth.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

bool
growth_reserve(void *array, int *room, int needed, size_t size)
{
	void *old, *larger;

	if (needed <= *room)
		return true;
	int wanted = *room < 16 ? 16 : *room;
	while (wanted < needed) {
		if (wanted > INT_MAX / 2)
			return false;
		wanted *= 2;
	}
	/* `array` is the address of a pointer to any type, so its bytes are copied. */
	memcpy(&old, array, sizeof old);
	larger = realloc(old, (size_t)wanted * size);
	if (larger == NULL)
		return false;
	memcpy(array, &larger, sizeof larger);
	*room = wanted;
	return true;
}
