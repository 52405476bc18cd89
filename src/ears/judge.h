/* From evidence to a confidence, and to a verdict: a logistic model whose weights were fitted on
 * recorded speech by tests/bench/fit_judge.py. */
#ifndef LAPEL_EARS_JUDGE_H
#define LAPEL_EARS_JUDGE_H

#include "evidence.h"
#include "write.h"

struct judge {
	double intercept;
	double weight[EVIDENCE_FEATURES];
	double take_from;      /* confidence from which a call is taken */
	double doubt_from;     /* and from which it is asked about */
	double near_from;      /* and from which a refusal is answered by the low cue */
	double other_voice_db; /* so much softer than the wearer, it is somebody else */
};

/* Reads the weights: lines `NAME NUMBER`, the names of the features, `intercept`, `take_from`,
 * `doubt_from`, `near_from` and `other_voice_db`, each exactly once; `#` starts a comment. */
bool judge_read(struct judge *judge, const char *file, const char *text, struct problem *problem);

/* The chance, 0 to 1, that what was heard is what was said. */
double judge_confidence(const struct judge *judge, const struct evidence *evidence);

enum verdict judge_verdict(const struct judge *judge, double confidence);

#endif
