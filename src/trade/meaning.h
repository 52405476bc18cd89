/* From words to calls: what an utterance means. */
#ifndef LAPEL_TRADE_MEANING_H
#define LAPEL_TRADE_MEANING_H

#include "call.h"
#include "vocabulary.h"

enum { MEANING_CALLS_MAX = 8 };

struct meaning_setting {
	enum length_unit unit; /* of a length said without one */
	char currency[4];
};

struct meaning {
	struct call calls[MEANING_CALLS_MAX]; /* in spoken order */
	int count;
};

/* Reads all of `words`; false, with no calls, when they are not one call after another to the last
 * word (readings of the grammar always are; other texts need not be), or more than fit. Where words
 * can be cut in more than one way, the reading that uses them up wins, the first call taking as
 * many as it can. "twenty one no twenty two" is the single value 22, with `correction` set; "no
 * twenty two" alone is a bare value with `correction`; "no" alone an answer. A call after "no"
 * takes the place of the one before: whole ("chest twenty one no waist twenty two" is the waist
 * alone), or as its value only ("bin four eighty two no four ninety two"); "no" as the last word
 * withdraws it, and is an answer with `correction`. Bare values: a length (or "none") alone is a
 * CALL_MEASURE with an empty name, and opens an utterance: elsewhere it is looked for only when the
 * words make no sense otherwise. "first" and "second" are answers. `front` and `back` with no part
 * after them are parts, before one they are faces. */
bool meaning_read(const struct vocabulary *vocabulary, const struct meaning_setting *setting,
		  const struct words *words, struct meaning *meaning);

/* Same calls in the same order by call_same. */
bool meaning_same(const struct meaning *one, const struct meaning *other);

#endif
