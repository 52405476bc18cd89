/* A session at work: events go to the conversation, its effects to the devices, and their answers
 * back. Knows every floor; decides nothing. */
#ifndef LAPEL_COMMAND_WORKING_SESSION_H
#define LAPEL_COMMAND_WORKING_SESSION_H

#include "ears.h"
#include "gesture.h"
#include "session.h"
#include "store.h"
#include "transcript.h"
#include "voice.h"

struct working_session {
	struct session *session; /* all borrowed */
	struct store *store;
	struct ears *ears;
	struct voice *voice;
	struct transcript *transcript;
	bool keep_sound;
	bool ended;				/* the conversation asked for it */
	const struct ears_utterance *utterance; /* the one being dealt with, or NULL */
	char *alternatives;
	struct problem trouble; /* of the voice: told once */
	bool speaking;
	bool noting; /* sound is being recorded, for: */
	int64_t note_call;
	uint64_t note_token;
	bool note_by_silence; /* an off-list word ends by silence too */
	bool note_ended;      /* and the conversation is still to be told: */
	struct written note_written;
};

/* Reads the table by which the conversation doubts what fits no garment. */
bool working_session_ranges(struct ranges *ranges, const char *grammars, struct problem *problem);

/* Begins with the item that was left open. */
void working_session_start(struct working_session *work, int64_t at_ms);

void working_session_ears(struct working_session *work, const struct ears_event *event);
void working_session_gesture(struct working_session *work, enum gesture_step step, int64_t at_ms);

/* A bar-code reader read the label of an item: that one is opened. */
void working_session_scan(struct working_session *work, const char *label, int64_t at_ms);

/* Time has come to `at_ms`: what was waited for is told to the conversation. */
void working_session_time(struct working_session *work, int64_t at_ms);
int64_t working_session_deadline_ms(const struct working_session *work);

/* The end of the sound, or a signal. */
void working_session_stop(struct working_session *work, int64_t at_ms);

#endif
