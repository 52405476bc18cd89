/* How words sound to the network: each way of saying a word as the outputs that it runs through. */
#ifndef LAPEL_EARS_SOUNDING_H
#define LAPEL_EARS_SOUNDING_H

#include "network.h"
#include "pronunciation.h"

enum { WAYS_MAX = 6, WAY_PARTS_MAX = 64 };

struct way {
	int count;
	int outputs[WAY_PARTS_MAX]; /* of the network, in order */
};

struct sounded {
	const char *word; /* owned by the sounding */
	int way_count;
	struct way *ways;
};

struct sounding; /* opaque, immutable once made */

/* Makes ready for `words`, pronounced as `pronunciations` says; a word with a phone that the
 * network does not know has no ways. Everything is borrowed for the call. NULL when memory ran out,
 * or the network has no silence. */
struct sounding *sounding_create(const struct network *network,
				 const struct pronunciations *pronunciations,
				 const char *const *words, int count);
void sounding_destroy(struct sounding *sounding); /* NULL is allowed */

/* The ways of the first `length` letters of `word`; NULL when it has none. */
const struct sounded *sounding_of(const struct sounding *sounding, const char *word, size_t length);

int sounding_silence(const struct sounding *sounding); /* the output of silence */

#endif
