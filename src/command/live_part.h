/* What a session on the devices stands on. For live.c and live_open.c only. */
#ifndef LAPEL_COMMAND_LIVE_PART_H
#define LAPEL_COMMAND_LIVE_PART_H

#include "folders.h"
#include "listening.h"
#include "live.h"
#include "mapping.h"
#include "pedal.h"
#include "pulse_watch.h"
#include "settings.h"
#include "working_session.h"

enum { PEDALS = 2 }; /* the pedal and the terminal's keys */

/* A thing with switches, and what they do. */
struct foot {
	struct pedal *pedal; /* NULL: there is none such */
	struct switches switches;
	bool seen; /* it was there at some time */
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
	struct voice *voice;
	struct transcript *transcript;
	struct listening *listening;
	struct ranges ranges;
	struct working_session work;
	struct foot feet[PEDALS];
	int64_t start_ms; /* of the session, on CLOCK_MONOTONIC */
	int64_t told_ms;  /* the latest time told to the conversation */
	char usual[2]
		  [PULSE_NAME_MAX]; /* by audio_end: PulseAudio's usual device at the beginning */
	bool headset_there;
	int64_t retry_ms;
};

/* Opens everything, in the order in which it stands one on the other. What was opened when it fails
 * is closed by live_close, too. */
bool live_open(struct live *live, struct problem *problem);
void live_close(struct live *live);

/* Both ends of the headset anew: only when both were let go does PortAudio look which devices there
 * are. */
bool live_take_headset(struct live *live, struct problem *problem);

#endif
