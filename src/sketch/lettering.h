/* The letters in a picture, and how wide they run. Inside sketch/.
 *
 * Sizes are in units of a picture that is PICTURE_WIDTH of them wide. */
#ifndef LAPEL_SKETCH_LETTERING_H
#define LAPEL_SKETCH_LETTERING_H

#include <cairo.h>
#include <stddef.h>

enum lettering {
	LETTERING_NAME,	  /* of a measure */
	LETTERING_VALUE,  /* what was measured */
	LETTERING_NUMBER, /* in a mark */
	LETTERING_LEGEND,
	LETTERING_TITLE,   /* on the sheet: of a kind */
	LETTERING_CAPTION, /* on the sheet: how a measure is taken */
	LETTERING_STRONG,  /* in a caption: the name of a measure that is asked for */
	LETTERING_COUNT
};

/* Sets the font of what is written next. */
void lettering_set(cairo_t *cairo, enum lettering lettering);

double lettering_size(enum lettering lettering);
/* From one line of text to the next; letters with their accents and tails stay within. */
double lettering_line(enum lettering lettering);
/* From the top of a line to the line on which the letters stand. */
double lettering_base(enum lettering lettering);

struct ruler; /* measures text; opaque */

struct ruler *ruler_create(void); /* NULL when there is no memory */
void ruler_destroy(struct ruler *ruler);
double ruler_width(const struct ruler *ruler, enum lettering lettering, const char *text);

enum { LINE_TEXT_MAX = 160 };

/* How many bytes of the text, from its first on, go into a line of that width: whole words, one at
 * least, and less than LINE_TEXT_MAX bytes. 0 for an empty text. */
size_t ruler_fit(const struct ruler *ruler, enum lettering lettering, const char *text,
		 double width);

#endif
