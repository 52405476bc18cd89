/* Sound in, judged utterances out: endpointer, recogniser and verifier as one. */
#ifndef LAPEL_EARS_EARS_H
#define LAPEL_EARS_EARS_H

#include "meaning.h"
#include "problem.h"
#include "write.h"

#include <stdint.h>

enum ears_place {
	EARS_ITEM,
	EARS_ASKED,
	EARS_QUESTION,
	EARS_PAUSED,
	EARS_PLACES, /* in which words are waited for */
	EARS_NOTE    /* anything may be said: it is recorded, and nothing is made of it */
};
enum decided_by { DECIDED_BY_SILENCE, DECIDED_BY_LIMIT, DECIDED_BY_END };
enum {
	EARS_READINGS_MAX = 6,
	EARS_TEXT_MAX = 512,
	EARS_SAMPLE_RATE_HZ = 16000,
	EARS_NOTE_MAX_S = 70
};

const char *decided_by_name(enum decided_by decided_by);

struct ears_setting {
	const char *grammars;	/* folder of grammars/ */
	const char *model;	/* folder of the acoustic model */
	const char *own_model;	/* folder of ours: numbers.net, numbers.dict, judge.txt */
	const char *dictionary; /* the large dictionary, a file */
	const char *grammar;	/* a caller's JSGF file in place of the station's, or NULL */
	const char *words;	/* a caller's dictionary, or NULL */
	const struct vocabulary *vocabulary; /* borrowed; outlives the ears */
	struct meaning_setting meaning;
	bool whole; /* never split: all that is fed until ears_end is one utterance */
};

/* One way of understanding the utterance. */
struct ears_reading {
	char text[EARS_TEXT_MAX];
	double confidence; /* 0 to 1 */
	struct meaning meaning;
};

/* What was heard between two silences. */
struct ears_utterance {
	uint64_t number; /* from 1, in order */
	int64_t start_ms, end_ms, decided_ms;
	enum decided_by decided_by;
	double compute_ms; /* monotonic time from the decision to the verdict */
	enum verdict verdict;
	double confidence;
	bool near;	   /* refused, but close to a call */
	bool other_voice;  /* refused as too soft to be the wearer */
	int reading_count; /* the first is the best; others differ from it in meaning; 0: none */
	struct ears_reading readings[EARS_READINGS_MAX];
	enum verdict call_verdicts[MEANING_CALLS_MAX]; /* of readings[0].meaning's calls */
	double call_confidences[MEANING_CALLS_MAX];
	double score;	      /* the verifier's: log odds of being a call of ours */
	char evidence[1024];  /* JSON object of the features that the verdict rests on */
	const int16_t *sound; /* 16 kHz, borrowed until the next call of ears_feed or ears_end */
	int64_t sound_count;
};

struct ears; /* opaque; used by one thread */

struct ears *ears_open(const struct ears_setting *setting, struct problem *problem);
void ears_close(struct ears *ears);

/* What is expected from the next utterance on; `measure` for EARS_ASKED. */
void ears_expect(struct ears *ears, enum ears_place place, const char *measure);

/* What was recorded since EARS_NOTE was expected, 16 kHz, and in *count how much; at most
 * EARS_NOTE_MAX_S of it. Borrowed until the next ears_feed, whatever is expected by then. */
const int16_t *ears_note(const struct ears *ears, int64_t *count);

/* Starts afresh: time 0, nothing known of the room, the model's own mean. */
void ears_restart(struct ears *ears);

/* How the wearer sounds through this microphone, learned from what was taken: the mean of the
 * cepstra. It may be kept and given back to other ears, before they are fed; what they are not
 * given they learn anew. */
enum { EARS_MEAN_SIZE = 13 };
struct ears_wearer {
	bool known;
	float mean[EARS_MEAN_SIZE];
};
void ears_wearer(const struct ears *ears, struct ears_wearer *wearer);
void ears_know_wearer(struct ears *ears, const struct ears_wearer *wearer);

/* Feeds 16 kHz samples until something happens; returns how many were taken (all of them unless
 * something did). *speech: somebody began to speak, at *speech_ms. *utterance: one was decided. */
struct ears_event {
	bool speech_began;
	bool decided;
	bool fell_silent; /* EARS_NOTE: 1.5 s of silence after speech */
	int64_t at_ms;
	struct ears_utterance *utterance; /* owned by the ears; valid until the next call */
};
int64_t ears_feed(struct ears *ears, const int16_t *samples, int64_t count,
		  struct ears_event *event);

/* The sound has ended: an utterance under way is decided. */
void ears_end(struct ears *ears, struct ears_event *event);

#endif
