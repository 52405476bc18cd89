/* Room for one more in an array that grows. Inside grammar/. */
#ifndef LAPEL_GRAMMAR_GROWTH_H
#define LAPEL_GRAMMAR_GROWTH_H

#include <stdbool.h>
#include <stddef.h>

/* Makes room in `*array`, which has `*room` places of `size` bytes, for `needed` of them; the room
 * at least doubles. False, with everything as it was, when there is no memory. */
bool growth_reserve(void *array, int *room, int needed, size_t size);

#endif
