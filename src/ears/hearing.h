/* What the ears know before anything is said: vocabulary in sound, grammars, the recogniser and the
 * judge. Made once, then only used. Private to the ears. */
#ifndef LAPEL_EARS_HEARING_H
#define LAPEL_EARS_HEARING_H

#include "automaton.h"
#include "ears.h"
#include "judge.h"
#include "laying.h"
#include "network.h"
#include "presence.h"
#include "recogniser.h"
#include "search.h"
#include "spectrum.h"

struct hearing {
	struct ears_setting setting;
	bool own_grammar; /* a caller's: its texts have no meaning for us but themselves */
	struct automaton *grammars[EARS_PLACES];
	struct recogniser *recogniser;
	struct spectrum *spectrum;
	struct network *network;
	struct presence *presence;
	struct sounding *sounding;
	struct laying *laying;
	struct search *searches[EARS_PLACES];
	struct judge judge;
};

bool hearing_init(struct hearing *hearing, const struct ears_setting *setting,
		  struct problem *problem);
void hearing_finish(struct hearing *hearing);

/* How far what was heard is a call. */
enum looked_at {
	STANDS_NOT_YET, /* "chest", "point" */
	STANDS_NUMBER,	/* "twenty", "bin four": more of the number or of the words may follow */
	STANDS_VALUE,	/* "chest twenty one": only a fraction or a unit may follow */
	STANDS_WHOLE	/* nothing can lengthen it */
};

/* One look at a piece of sound: everything of *utterance that rests on what was said, and not on
 * when. `mean` are the cepstral means known of the speaker, `mean_frames` how many frames of the
 * utterance's own they outweigh. */
struct hearing_look {
	enum ears_place place;
	const char *measure; /* EARS_ASKED: which */
	const int16_t *samples;
	int64_t count;
	double wearer_db; /* how loud the wearer speaks; 0: not known yet */
	const float *mean;
	double mean_frames;
	double loud_db;		   /* out: how loud this piece is */
	float found_mean[CEPSTRA]; /* out: of this piece alone */
	int found_frames;	   /* out */
	enum looked_at stands;	   /* out: whether the text is a sentence, and may go on */
	int after_frames;	   /* out: of silence after its last word */
};
void hearing_look(struct hearing *hearing, struct hearing_look *look,
		  struct ears_utterance *utterance);

/* What sounds like a call may be none: what would be taken is asked about. */
void hearing_doubt(struct ears_utterance *utterance);

#endif
