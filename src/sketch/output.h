/* The bytes of a picture on their way out. Inside sketch/. */
#ifndef LAPEL_SKETCH_OUTPUT_H
#define LAPEL_SKETCH_OUTPUT_H

#include "sketch.h"

#include <cairo.h>

/* What a picture is written into while it is drawn: all of it in memory, so that nothing reaches a
 * file before it is whole. */
struct output {
	unsigned char *bytes; /* owned */
	size_t count, room;
};

/* Takes cairo's bytes; `output` is a struct output. */
cairo_status_t output_take(void *output, const unsigned char *bytes, unsigned count);
void output_free(struct output *output);

/* Gives the bytes to `write`; false with a problem that speaks of `name`. */
bool output_pass(const struct output *output, const char *name, sketch_writer *write, void *to,
		 struct problem *problem);

/* Whether cairo could do what it was asked; otherwise a problem that says what it said. */
bool cairo_went_well(cairo_status_t status, struct problem *problem);

/* Makes the file of the bytes, in the place of what was there. On failure there is no half file. */
bool output_save(const struct output *output, const char *path, struct problem *problem);

#endif
