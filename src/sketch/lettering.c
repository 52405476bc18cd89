#include "lettering.h"

#include <stdlib.h>
#include <string.h>

/* 11 is the least that is still read with ease when a picture is shown 360 pixels wide; the sheet
 * is read on paper, closer to. */
static const struct style {
	double size;
	cairo_font_weight_t weight;
} STYLES[LETTERING_COUNT] = {
	[LETTERING_NAME] = {11, CAIRO_FONT_WEIGHT_NORMAL},
	[LETTERING_VALUE] = {11.5, CAIRO_FONT_WEIGHT_BOLD},
	[LETTERING_NUMBER] = {11, CAIRO_FONT_WEIGHT_BOLD},
	[LETTERING_LEGEND] = {11.5, CAIRO_FONT_WEIGHT_NORMAL},
	[LETTERING_TITLE] = {17, CAIRO_FONT_WEIGHT_BOLD},
	[LETTERING_CAPTION] = {12.5, CAIRO_FONT_WEIGHT_NORMAL},
	[LETTERING_STRONG] = {12.5, CAIRO_FONT_WEIGHT_BOLD},
};

void
lettering_set(cairo_t *cairo, enum lettering lettering)
{
	const struct style *style = &STYLES[lettering];
	cairo_font_options_t *options = cairo_font_options_create();

	/* Widths that do not depend on the number of pixels, and grey edges on any screen: what was
	 * laid out for one width fits every other. */
	cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
	cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
	cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
	cairo_set_font_options(cairo, options);
	cairo_font_options_destroy(options);
	cairo_select_font_face(cairo, "sans-serif", CAIRO_FONT_SLANT_NORMAL, style->weight);
	cairo_set_font_size(cairo, style->size);
}

double
lettering_size(enum lettering lettering)
{
	return STYLES[lettering].size;
}

double
lettering_line(enum lettering lettering)
{
	return STYLES[lettering].size * 1.2;
}

double
lettering_base(enum lettering lettering)
{
	return STYLES[lettering].size * 0.95;
}

struct ruler {
	cairo_surface_t *surface;
	cairo_t *cairo;
};

struct ruler *
ruler_create(void)
{
	struct ruler *ruler = calloc(1, sizeof *ruler);
	if (ruler == NULL)
		return NULL;
	ruler->surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
	ruler->cairo = cairo_create(ruler->surface);
	if (cairo_status(ruler->cairo) == CAIRO_STATUS_SUCCESS)
		return ruler;
	ruler_destroy(ruler);
	return NULL;
}

void
ruler_destroy(struct ruler *ruler)
{
	if (ruler == NULL)
		return;
	cairo_destroy(ruler->cairo);
	cairo_surface_destroy(ruler->surface);
	free(ruler);
}

double
ruler_width(const struct ruler *ruler, enum lettering lettering, const char *text)
{
	cairo_text_extents_t extents;
	lettering_set(ruler->cairo, lettering);
	cairo_text_extents(ruler->cairo, text, &extents);
	return extents.x_advance;
}

/* A word that is longer than a whole line of bytes is cut, between two letters of its UTF-8. */
static size_t
cut_word(const char *text)
{
	size_t length = LINE_TEXT_MAX - 1;
	while (length > 1 && ((unsigned char)text[length] & 0xc0) == 0x80)
		length--;
	return length;
}

size_t
ruler_fit(const struct ruler *ruler, enum lettering lettering, const char *text, double width)
{
	char part[LINE_TEXT_MAX];
	size_t fit = 0, end = 0;
	while (text[end] != '\0') {
		end += strspn(text + end, " ");
		end += strcspn(text + end, " ");
		if (end >= sizeof part)
			return fit > 0 ? fit : cut_word(text);
		memcpy(part, text, end);
		part[end] = '\0';
		if (fit > 0 && ruler_width(ruler, lettering, part) > width)
			return fit;
		fit = end;
	}
	return fit;
}
