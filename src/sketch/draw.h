/* A picture that was laid out, drawn. Inside sketch/. */
#ifndef LAPEL_SKETCH_DRAW_H
#define LAPEL_SKETCH_DRAW_H

#include "picture.h"

/* Draws it, with all that are below, at the upper left of what `cairo` draws on, one unit of the
 * picture as one of cairo's. What goes wrong stays in cairo's status. */
void picture_draw(const struct picture *picture, const struct ruler *ruler, cairo_t *cairo);

/* Text that starts at the left end of its base line, in the colour of plain text. */
void text_draw(cairo_t *cairo, enum lettering lettering, struct point start, const char *text);

#endif
