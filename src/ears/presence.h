/* Whether somebody speaks at the microphone, frame by frame as the sound comes in: a small time
 * delay network over how far each band stands above its floor (the floor falls fast and rises
 * slowly, whoever speaks). Made by tests/bench/model/presence.py. It knows no clock but its frames.
 */
#ifndef LAPEL_EARS_PRESENCE_H
#define LAPEL_EARS_PRESENCE_H

#include "problem.h"
#include "spectrum.h"

/* The chance that is told is of the frame so many frames ago: what follows is waited for. */
enum { PRESENCE_DELAY = 5 };

struct presence; /* opaque */

/* Reads a file that presence.py wrote. NULL with a problem when it is not there, cut off or of
 * another shape. */
struct presence *presence_read(const char *path, struct problem *problem);
void presence_destroy(struct presence *presence); /* NULL is allowed */

/* Forgets what it heard; the room is taken to be a quiet one. */
void presence_restart(struct presence *presence);

/* The chance, 0 to 1, that somebody spoke PRESENCE_DELAY frames before this one. `bands`: decibels,
 * as spectrum_bands gives them. */
float presence_frame(struct presence *presence, const float bands[BANDS]);

#endif
