/* A session on the devices: headset, pedal and the world's clock. */
#ifndef LAPEL_COMMAND_LIVE_H
#define LAPEL_COMMAND_LIVE_H

#include <stdbool.h>

struct live_options {
	const char *db;	      /* the records: a file */
	const char *settings; /* NULL: the user's */
	const char *who;      /* NULL: not told */
	const char *headset;  /* a piece of its name; NULL: the usual one */
	const char *pedal;    /* a piece of its name, its numbers or its file; NULL: any pedal */
	const char *switches; /* what they do (mapping.h); NULL: as the settings say */
	double loudness_db;   /* of the voice, 0 or less */
	bool json;	      /* JSON Lines in place of the transcript */
};

/* Runs until SIGTERM or SIGINT; returns the exit status, having said what went wrong. */
int live_listen(const struct live_options *options);

#endif
