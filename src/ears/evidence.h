/* The evidence on which a verdict rests: how well the words fit what was heard, held against how
 * well anything would have fitted. Pure arithmetic. */
#ifndef LAPEL_EARS_EVIDENCE_H
#define LAPEL_EARS_EVIDENCE_H

#include "laying.h"

enum evidence_feature {
	EVIDENCE_RATIO,		/* words against the phone loop, nats a frame */
	EVIDENCE_WORST_RATIO,	/* the same of the word that fits worst */
	EVIDENCE_WORST_STRETCH, /* the same of the STRETCH_FRAMES in a row that fit worst */
	EVIDENCE_OUTSIDE,  /* what was not words fits other phones better than silence: nats, 200 at
			      most */
	EVIDENCE_MARGIN,   /* to the best reading with another meaning, nats, 120 at most */
	EVIDENCE_SHORTEST, /* frames a phone of the word said fastest, 12 at most */
	EVIDENCE_PACE,	   /* frames a phone over all words, 20 at most */
	EVIDENCE_LEVEL,	   /* loud frames above quiet ones, decibels */
	EVIDENCE_COVER,	   /* share of the loud time that the words explain */
	EVIDENCE_WORDS,	   /* how many words, 8 at most */
	EVIDENCE_FEATURES
};

enum { STRETCH_FRAMES = 8 }; /* about a phone */

struct evidence {
	double value[EVIDENCE_FEATURES];
};

const char *evidence_name(enum evidence_feature feature);

struct evidence_ground {
	const struct laid *laid;  /* the reading that is judged */
	const float *laid_scores; /* of each frame, by that reading */
	const float *anything;	  /* and by laying_anything */
	int frames;
	bool has_other;
	double margin; /* nats; of no use without another reading */
	double level_db;
	int loud_first, loud_last; /* frames */
};

/* The evidence for words `first` to `first + count - 1`. */
void evidence_gather(const struct evidence_ground *ground, int first, int count,
		     struct evidence *evidence);

#endif
