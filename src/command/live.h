/* A session on the devices: headset, pedal and the world's clock. */
#ifndef LAPEL_COMMAND_LIVE_H
#define LAPEL_COMMAND_LIVE_H

#include <stdbool.h>

struct live_options {
	const char *db;	      /* the records: a file */
	const char *settings; /* NULL: the user's */
	/* NULL, of each of the following: as the settings say. */
	const char *who;      /* dictates */
	const char *headset;  /* a piece of its name; "": the usual one */
	const char *pedal;    /* a piece of its name, its numbers or its file; "": any pedal */
	const char *switches; /* what they do (mapping.h) */
	bool json;	      /* JSON Lines in place of the transcript */
};

/* Runs until SIGTERM or SIGINT; returns the exit status, having said what went wrong. */
int live_listen(const struct live_options *options);

#endif
