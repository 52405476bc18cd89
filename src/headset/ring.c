#include "ring.h"

#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

/* Two counters that run freely. Each thread changes its own, with release after the samples were
 * moved, and looks at the other's with acquire before it moves any. They lie on lines of their own,
 * so that the two threads do not fight over one. */
enum { CACHE_LINE_BYTES = 64 };

struct ring {
	int16_t *samples; /* set before either thread begins, as is `room` */
	int64_t room;
	_Alignas(CACHE_LINE_BYTES) _Atomic int64_t written; /* the writer's */
	_Atomic int64_t lost;				    /* the writer's */
	_Alignas(CACHE_LINE_BYTES) _Atomic int64_t taken;   /* the reader's */
};

struct ring *
ring_create(int64_t room)
{
	int64_t rounded = 1;
	while (rounded < room)
		rounded *= 2;
	struct ring *ring = aligned_alloc(CACHE_LINE_BYTES, sizeof *ring);
	if (ring == NULL)
		return NULL;
	memset(ring, 0, sizeof *ring);
	ring->room = rounded;
	ring->samples = calloc((size_t)rounded, sizeof *ring->samples);
	if (ring->samples == NULL) {
		free(ring);
		return NULL;
	}
	return ring;
}

void
ring_destroy(struct ring *ring)
{
	if (ring == NULL)
		return;
	free(ring->samples);
	free(ring);
}

static int64_t
least(int64_t a, int64_t b)
{
	return a < b ? a : b;
}

int64_t
ring_offer(struct ring *ring, const int16_t *samples, int64_t count)
{
	int64_t written = atomic_load_explicit(&ring->written, memory_order_relaxed);
	int64_t taken = atomic_load_explicit(&ring->taken, memory_order_acquire);
	int64_t some = least(count, ring->room - (written - taken));
	int64_t at = written & (ring->room - 1);
	int64_t first = least(some, ring->room - at);
	memcpy(ring->samples + at, samples, (size_t)first * sizeof *samples);
	memcpy(ring->samples, samples + first, (size_t)(some - first) * sizeof *samples);
	atomic_store_explicit(&ring->written, written + some, memory_order_release);
	return some;
}

int64_t
ring_write(struct ring *ring, const int16_t *samples, int64_t count)
{
	int64_t some = ring_offer(ring, samples, count);
	if (some < count)
		atomic_fetch_add_explicit(&ring->lost, count - some, memory_order_release);
	return some;
}

/* `samples` NULL: they go unread. */
static int64_t
take(struct ring *ring, int16_t *samples, int64_t most)
{
	int64_t taken = atomic_load_explicit(&ring->taken, memory_order_relaxed);
	int64_t written = atomic_load_explicit(&ring->written, memory_order_acquire);
	int64_t some = least(most, written - taken);
	if (samples != NULL) {
		int64_t at = taken & (ring->room - 1);
		int64_t first = least(some, ring->room - at);
		memcpy(samples, ring->samples + at, (size_t)first * sizeof *samples);
		memcpy(samples + first, ring->samples, (size_t)(some - first) * sizeof *samples);
	}
	atomic_store_explicit(&ring->taken, taken + some, memory_order_release);
	return some;
}

int64_t
ring_read(struct ring *ring, int16_t *samples, int64_t most)
{
	return take(ring, samples, most);
}

int64_t
ring_skip(struct ring *ring, int64_t most)
{
	return take(ring, NULL, most);
}

int64_t
ring_written(const struct ring *ring)
{
	return atomic_load_explicit(&ring->written, memory_order_acquire);
}

int64_t
ring_taken(const struct ring *ring)
{
	return atomic_load_explicit(&ring->taken, memory_order_acquire);
}

int64_t
ring_filled(const struct ring *ring)
{
	/* The reader's counter first: the other can only have grown since. */
	int64_t taken = ring_taken(ring);
	return ring_written(ring) - taken;
}

int64_t
ring_lost(const struct ring *ring)
{
	return atomic_load_explicit(&ring->lost, memory_order_acquire);
}
