/* The listening thread: takes sound from a source as it comes, and owns the ears while it feeds
 * them. What is heard is handed to the main loop one event at a time: until that has been dealt
 * with, the thread waits and the source's ring keeps what comes. */
#ifndef LAPEL_COMMAND_LISTENING_H
#define LAPEL_COMMAND_LISTENING_H

#include "ears.h"
#include "played.h"
#include "sound_source.h"

struct listening; /* opaque; all functions are the main loop's */

/* What there is to tell. */
struct listening_news {
	struct ears_event event; /* if something was heard; its times are of the ears' own clock */
	int64_t told_us;	 /* when that was, on CLOCK_MONOTONIC */
	bool heard;
	int64_t lost; /* samples that were lost since the last news */
	bool narrow;  /* the link carries nothing above 4 kHz; told once */
	bool gone;    /* the source is gone: take it back, close it, and give another */
};

/* `ears` are borrowed, and touched by others only between listening_hold and listening_release.
 * What of `played` (NULL: nothing; borrowed) comes back through the source is taken out before the
 * ears hear it. NULL when there is no memory or no thread. */
struct listening *listening_start(struct ears *ears, struct played *played,
				  struct problem *problem);
void listening_stop(struct listening *listening); /* ends the thread; NULL is allowed */

int listening_fd(struct listening *listening); /* readable when there are news */

/* Gives a source to be listened to, and takes it back (NULL: there is none). The main loop opens
 * and closes sources, for PortAudio is not to be opened and closed by two threads. */
void listening_give(struct listening *listening, struct sound_source *source);
struct sound_source *listening_take_back(struct listening *listening);

/* From listening_hold to listening_release the ears stand still. */
void listening_hold(struct listening *listening);
void listening_release(struct listening *listening);

/* Between the two: the news, if there are any. What was heard is valid until listening_release. */
bool listening_next(struct listening *listening, struct listening_news *news);

#endif
