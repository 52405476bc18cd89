/* A network that says, frame by frame, which part of which phone it hears: layers of rectifiers,
 * each looking at a few frames of the one below (a time delay network: Waibel and others, 1989).
 * tests/bench/model makes it from recordings. */
#ifndef LAPEL_EARS_NETWORK_H
#define LAPEL_EARS_NETWORK_H

#include "problem.h"

struct network; /* opaque, immutable once read */

/* Reads a file that tests/bench/model/network.py wrote: text lines that say its shape, then 32-bit
 * floats. NULL with a problem when it is not there, cut off or of another shape. */
struct network *network_read(const char *path, struct problem *problem);
void network_destroy(struct network *network); /* NULL is allowed */

int network_outputs(const struct network *network);

/* The first output of a phone by its name, and how many it has (its parts, in order); -1 when the
 * network does not know it. Silence is "SIL". */
int network_phone(const struct network *network, const char *name, int *parts);
int network_phone_count(const struct network *network);
int network_phone_at(const struct network *network, int index, int *parts);

/* How likely each output made each frame, in nats and up to a constant: log posteriors less a share
 * of the log priors. `bands`: `frames` rows of BANDS natural logarithms, whatever their mean; a new
 * block of `frames` rows of network_outputs() that the caller frees, or NULL when memory ran out.
 */
float *network_scores(const struct network *network, const float *bands, int frames);

#endif
