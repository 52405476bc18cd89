/* Whether a stream of this process is still on the device that it began with.
 *
 * PulseAudio does not end a stream whose device was taken away: it moves it to another, and what is
 * recorded from then on is some other microphone, mostly silent. PortAudio sees nothing of that. So
 * the sound server is asked which device our stream is on, at the beginning and whenever it says
 * that something changed. The watch is looked at from time to time. */
#ifndef LAPEL_HEADSET_PULSE_WATCH_H
#define LAPEL_HEADSET_PULSE_WATCH_H

#include "audio_device.h"

#include <stdbool.h>

struct pulse_watch; /* opaque; used by one thread */

/* To be opened when the stream has begun. Waits, for a third of a second at most, until the server
 * has said which device the stream is on; where it has nothing to say, because the stream is not
 * PulseAudio's or there is no server, the watch never tells anything. NULL where there is no
 * libpulse or no memory. */
struct pulse_watch *pulse_watch_open(enum audio_end end);
void pulse_watch_close(struct pulse_watch *watch); /* NULL is allowed */

/* Does what the server has to say. True, from then on, when the stream was moved to another
 * device or its device has gone. NULL: false. */
bool pulse_watch_moved(struct pulse_watch *watch);

enum { PULSE_NAME_MAX = 256 };

/* The name of the device that PulseAudio takes when none is named. Waits for the server for a third
 * of a second at most. False, with an empty name, where there is no server. */
bool pulse_usual_device(enum audio_end end, char name[PULSE_NAME_MAX]);

#endif
