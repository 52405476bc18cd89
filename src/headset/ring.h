/* Samples across one thread border, without a lock: one thread writes, one reads, and neither ever
 * waits. Both count what passed since the ring was made, so a position in the stream is one number
 * on either side. A full ring keeps what it has; what did not fit is lost and counted. */
#ifndef LAPEL_HEADSET_RING_H
#define LAPEL_HEADSET_RING_H

#include <stdint.h>

struct ring; /* opaque */

/* `room` is in samples, 1 or more, and is rounded up to a power of two. NULL: out of memory. */
struct ring *ring_create(int64_t room);
void ring_destroy(struct ring *ring); /* NULL is allowed; neither thread may be in it */

/* The writing thread. Takes as many samples as there is room for and returns how many; ring_offer
 * does the same without counting the rest as lost, for a writer that will come again. */
int64_t ring_write(struct ring *ring, const int16_t *samples, int64_t count);
int64_t ring_offer(struct ring *ring, const int16_t *samples, int64_t count);

/* The reading thread. Gives as many as there are, up to `most`, and returns how many;
 * ring_skip lets up to `most` go unread. */
int64_t ring_read(struct ring *ring, int16_t *samples, int64_t most);
int64_t ring_skip(struct ring *ring, int64_t most);

/* Either thread; all only ever grow but `filled`, which may have changed before it is looked at. */
int64_t ring_filled(const struct ring *ring);
int64_t ring_written(const struct ring *ring); /* taken in since the beginning */
int64_t ring_taken(const struct ring *ring);   /* read or skipped since the beginning */
int64_t ring_lost(const struct ring *ring);

#endif
