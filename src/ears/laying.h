/* Laying words over the frames of an utterance: how well a given text fits what the network heard,
 * where each word then lies, and how well any phones at all would have fitted. */
#ifndef LAPEL_EARS_LAYING_H
#define LAPEL_EARS_LAYING_H

#include "network.h"
#include "sounding.h"

enum { LAID_WORDS_MAX = 96 };

struct laid_word {
	int first_frame, last_frame; /* inclusive */
	int parts;		     /* of phones, in the way it was said */
	float score;		     /* in nats, over its frames */
};

struct laid {
	bool possible; /* false: too many words for so few frames, or a word without a sound */
	float score;   /* in nats: of the words and of the silence around and between them */
	int word_count;
	struct laid_word words[LAID_WORDS_MAX];
};

struct laying; /* opaque */

/* Network and sounding are borrowed until laying_destroy. NULL when memory ran out. */
struct laying *laying_create(const struct network *network, const struct sounding *sounding);
void laying_destroy(struct laying *laying); /* NULL is allowed */

/* `scores`: network_scores of the utterance. `text`: words parted by single spaces. What each frame
 * scores on the way is written to `frame_scores`, if it is possible; NULL: not wanted. */
void laying_lay(const struct laying *laying, const float *scores, int frames, const char *text,
		struct laid *laid, float *frame_scores);

/* What each frame scores on the best path through any phones (a phone loop, context-independent),
 * and is written to `frame_scores`. False when memory ran out. */
bool laying_anything(const struct laying *laying, const float *scores, int frames,
		     float *frame_scores);

#endif
