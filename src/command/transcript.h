/* The running transcript on standard output: a line a call, and a summary at the end; or, as JSON
 * Lines, the objects of `hear` with the item and what was written. */
#ifndef LAPEL_COMMAND_TRANSCRIPT_H
#define LAPEL_COMMAND_TRANSCRIPT_H

#include "ears.h"
#include "event.h"
#include "store.h"

struct transcript; /* opaque */

/* `file` names the sound in the JSON objects. */
struct transcript *transcript_open(bool json, const char *file);
void transcript_close(struct transcript *transcript);

/* An utterance is being dealt with; its calls are answered until transcript_end_heard. */
void transcript_begin_heard(struct transcript *transcript, const struct ears_utterance *utterance);

/* Live: when the utterance that comes was decided, in microseconds of CLOCK_MONOTONIC. Its object
 * then tells when its answer was handed to the ear-piece (answered_clock_us), and how long after
 * the decision that was (answered_after_us). */
void transcript_decided_at(struct transcript *transcript, int64_t clock_us);
void transcript_stored(struct transcript *transcript, const struct write *write);
void transcript_answer(struct transcript *transcript, const struct effect *answer);
void transcript_end_heard(struct transcript *transcript);

void transcript_said(struct transcript *transcript, int64_t at_ms, const char *text);
void transcript_summary(struct transcript *transcript, const struct store_tally *tally,
			int64_t length_ms, double took_s);

#endif
