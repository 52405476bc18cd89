/* Finding the sentences of a grammar that fit best what the network heard: every word of the
 * grammar runs along with the sound, frame by frame (Viterbi's algorithm), and each place where one
 * may have ended is kept (a word lattice), so that the best sentences can be told in order. */
#ifndef LAPEL_EARS_SEARCH_H
#define LAPEL_EARS_SEARCH_H

#include "automaton.h"
#include "sounding.h"

enum { FOUND_TEXT_MAX = 512, FOUND_MAX = 24 };

struct found {
	int count; /* best first, each another text; 0: no sentence fits */
	struct {
		char text[FOUND_TEXT_MAX];
		double score; /* nats: the network's, and the grammar's share */
	} texts[FOUND_MAX];
};

/* What the grammar's weights count beside the network's scores (a factor of their logarithms), what
 * a word costs; and how far behind the best of a frame is not gone on with, at the end of a word is
 * not gone on with, and behind the best sentence is not told; in nats.
 * search_usual was fitted by tests/bench/fit_search.py. */
struct search_weights {
	float language_share, word_cost, beam, word_beam, margin;
};
extern const struct search_weights search_usual;

struct search; /* opaque: a grammar made ready; used by one thread */

/* The automaton and the sounding are borrowed until search_destroy. A word without a sound cannot
 * be found. NULL when memory ran out. */
struct search *search_create(const struct automaton *automaton, const struct sounding *sounding,
			     int outputs, const struct search_weights *weights);
void search_destroy(struct search *search); /* NULL is allowed */

/* `scores`: `frames` rows of the network's outputs (network_scores). False when memory ran out. */
bool search_find(struct search *search, const float *scores, int frames, struct found *found);

#endif
