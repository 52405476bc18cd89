/* SVG as cairo writes it, made fit to stand in a page. Inside sketch/. */
#ifndef LAPEL_SKETCH_SVG_H
#define LAPEL_SKETCH_SVG_H

#include "text.h"

/* Adds the SVG of `count` bytes to the text, as an image with a title and a description (SVG 1.1,
 * section 5.4; WAI-ARIA 1.1, role img; an empty description is left out), which may be any UTF-8.
 *
 * Cairo numbers the letters that it draws, and refers to them by that number; of two pictures in
 * one page, the second would be written with the letters of the first. So each id gets a prefix of
 * the picture's own, worked out of its bytes: the same picture has the same bytes. The number of
 * the surface, which counts up through the process and which nothing refers to, is taken away. */
void svg_finish(const char *svg, size_t count, const char *title, const char *description,
		struct text *to);

#endif
