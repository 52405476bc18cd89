/* What a session on the devices stands on. For the files of live.h only. */
#ifndef LAPEL_COMMAND_LIVE_PART_H
#define LAPEL_COMMAND_LIVE_PART_H

#include "folders.h"
#include "listening.h"
#include "live.h"
#include "mapping.h"
#include "pedal.h"
#include "pulse_watch.h"
#include "scan.h"
#include "settings.h"
#include "working_session.h"

enum { PEDALS = 2 }; /* the pedal and the terminal's keys */

/* A thing with switches, and what they do. */
struct foot {
	struct pedal *pedal; /* NULL: there is none such */
	struct switches switches;
	bool seen;	     /* it was there at some time */
	struct problem told; /* why it could not be opened */
};

/* A bar-code reader: a device of the same sort, of which labels are made. */
struct reader {
	struct pedal *device; /* NULL: it could not be watched for */
	struct scan scan;
	bool seen;
};

/* Everything that a session on the devices stands on. */
struct live {
	const struct live_options *options;
	struct folders folders;
	struct settings settings;
	const char *headset, *who; /* by option or setting; "": the usual one, not told */
	struct vocabulary *vocabulary;
	struct store *store;
	struct ears *ears;
	struct speech *speech;
	struct cues *cues;
	struct played *played; /* by the voice, for the ears */
	struct voice *voice;
	struct transcript *transcript;
	struct listening *listening;
	struct ranges ranges;
	struct working_session work;
	struct foot feet[PEDALS];
	struct reader reader;
	int64_t start_ms; /* of the session, on CLOCK_MONOTONIC */
	int64_t told_ms;  /* the latest time told to the conversation */
	char usual[2]
		  [PULSE_NAME_MAX]; /* by audio_end: PulseAudio's usual device at the beginning */
	bool headset_there;
	int64_t lost; /* samples, in the whole session */
	int64_t retry_ms;
};

/* Opens everything, in the order in which it stands one on the other. What was opened when it fails
 * is closed by live_close, too. */
bool live_open(struct live *live, struct problem *problem);
void live_close(struct live *live);

/* By what name the microphone is known: the one that was chosen, or PulseAudio's for the usual. */
const char *live_microphone(const struct live *live);

/* Both ends of the headset anew: only when both were let go does PortAudio look which devices there
 * are. */
bool live_take_headset(struct live *live, struct problem *problem);

/* A time of the session that does not go back, whatever came late; and the time now. */
int64_t live_told_ms(struct live *live, int64_t at_ms);
int64_t live_now_ms(struct live *live);

/* What the switches tell, up to CLOCK_MONOTONIC `until_ms`; what a pedal has to tell; and what the
 * reader has. */
void live_let_switches_wait(struct live *live, struct switches *switches, int64_t until_ms);
void live_take_presses(struct live *live, struct foot *foot);
void live_tell_trouble(struct foot *foot); /* why a pedal cannot be opened, once for each reason */
void live_take_scans(struct live *live);

#endif
