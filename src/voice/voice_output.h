/* Where what is said goes: a table of functions with two drivers, a file and the headset. Private
 * to the voice. */
#ifndef LAPEL_VOICE_VOICE_OUTPUT_H
#define LAPEL_VOICE_VOICE_OUTPUT_H

#include "problem.h"
#include "sound.h"

struct played;
struct voice_output;

struct voice_output_functions {
	const char *name; /* "file", "headset" */
	bool live;	  /* is heard now: what is long is rendered and played bit by bit */
	/* Time has come to `at_ms`, which may be less than before: then nothing happens. */
	void (*time)(struct voice_output *output, int64_t at_ms);
	/* Takes the sound over, which may be empty, to be heard now or after what is still to be
	 * heard; `joined`: it goes on from what was played before. False once, when it cannot be
	 * heard, and then lets time pass as if it could. */
	bool (*play)(struct voice_output *output, struct sound *sound, bool joined,
		     struct problem *problem);
	void (*hush)(struct voice_output *output); /* silence from now on */
	int64_t (*done_ms)(const struct voice_output *output);
	bool (*close)(struct voice_output *output, int64_t end_ms, struct problem *problem);
};

/* The first member of each driver's own struct. */
struct voice_output {
	const struct voice_output_functions *functions;
};

struct voice_output *voice_output_file(const char *path, struct problem *problem);
struct voice_output *voice_output_headset(const char *name, double loudness_db,
					  struct played *played, struct problem *problem);

/* Of the headset's output only. */
bool headset_output_gone(struct voice_output *output);
void headset_output_let_go(struct voice_output *output);
bool headset_output_take(struct voice_output *output, struct problem *problem);

#endif
