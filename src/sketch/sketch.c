#include "describe.h"
#include "draw.h"
#include "output.h"
#include "svg.h"

#include <cairo-svg.h>
#include <math.h>

/* Rounded up: the last row of a bitmap may be part of a unit only. */
static int
height_px(const struct picture *picture, double scale)
{
	return (int)ceil(picture_whole_height(picture) * scale - 0.001);
}

static bool
draw_on(cairo_surface_t *surface, const struct picture *picture, const struct ruler *ruler,
	double scale, struct problem *problem)
{
	cairo_t *cairo = cairo_create(surface);
	/* To the very edge, also where the height was rounded up. */
	cairo_set_source_rgb(cairo, 1, 1, 1);
	cairo_paint(cairo);
	cairo_scale(cairo, scale, scale);
	picture_draw(picture, ruler, cairo);
	bool good = cairo_went_well(cairo_status(cairo), problem);
	cairo_destroy(cairo);
	return good;
}

static bool
png_draw(const struct picture *picture, const struct ruler *ruler, int width_px,
	 struct output *output, struct problem *problem)
{
	double scale = (double)width_px / PICTURE_WIDTH;
	cairo_surface_t *surface =
		cairo_image_surface_create(CAIRO_FORMAT_RGB24, width_px, height_px(picture, scale));
	bool good = draw_on(surface, picture, ruler, scale, problem) &&
		    cairo_went_well(cairo_surface_write_to_png_stream(surface, output_take, output),
				    problem);
	cairo_surface_destroy(surface);
	return good;
}

static bool
svg_draw(const struct picture *picture, const struct ruler *ruler, int width_px,
	 struct output *output, struct problem *problem)
{
	double scale = (double)width_px / PICTURE_WIDTH;
	cairo_surface_t *surface = cairo_svg_surface_create_for_stream(
		output_take, output, width_px, height_px(picture, scale));
	cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_PX);
	bool good = draw_on(surface, picture, ruler, scale, problem);
	cairo_surface_finish(surface);
	good = good && cairo_went_well(cairo_surface_status(surface), problem);
	cairo_surface_destroy(surface);
	return good;
}

/* With its title and description, in the place of the bytes that cairo wrote. */
static bool
svg_describe(const struct picture *picture, const struct record *record, struct output *output,
	     struct problem *problem)
{
	struct text title = {0}, description = {0}, svg = {0};

	describe_title(picture, record, &title);
	describe_picture(picture, record, &description);
	svg_finish((const char *)output->bytes, output->count, text_chars(&title),
		   text_chars(&description), &svg);
	output->count = 0;
	bool good = !title.failed && !description.failed && !svg.failed &&
		    output_take(output, (const unsigned char *)text_chars(&svg),
				(unsigned)svg.length) == CAIRO_STATUS_SUCCESS;
	text_finish(&title);
	text_finish(&description);
	text_finish(&svg);
	return good || problem_say(problem, "there is no memory left for a picture");
}

/* All of the picture into `output`, which the caller frees in any case. */
static bool
draw(const struct sketch_book *book, const struct vocabulary *vocabulary, const char *kind,
     const struct record *record, enum sketch_form form, int width_px, struct output *output,
     struct problem *problem)
{
	bool good = false;

	if (width_px < SKETCH_WIDTH_MIN || width_px > SKETCH_WIDTH_MAX)
		return problem_say(problem, "a picture is %d to %d pixels wide, not %d",
				   SKETCH_WIDTH_MIN, SKETCH_WIDTH_MAX, width_px);
	struct ruler *ruler = ruler_create();
	if (ruler == NULL)
		return problem_say(problem, "there is no memory left for a picture");
	struct picture *picture = picture_create(book, vocabulary, kind, record, ruler, problem);
	if (picture != NULL) {
		switch (form) {
		case SKETCH_SVG:
			good = svg_draw(picture, ruler, width_px, output, problem) &&
			       svg_describe(picture, record, output, problem);
			break;
		case SKETCH_PNG:
			good = png_draw(picture, ruler, width_px, output, problem);
			break;
		}
	}
	picture_destroy(picture);
	ruler_destroy(ruler);
	return good;
}

bool
sketch_draw(const struct sketch_book *book, const struct vocabulary *vocabulary, const char *kind,
	    const struct record *record, enum sketch_form form, int width_px, const char *name,
	    sketch_writer *write, void *to, struct problem *problem)
{
	struct output output = {0};
	bool good = draw(book, vocabulary, kind, record, form, width_px, &output, problem) &&
		    output_pass(&output, name, write, to, problem);
	output_free(&output);
	return good;
}

bool
sketch_draw_file(const struct sketch_book *book, const struct vocabulary *vocabulary,
		 const char *kind, const struct record *record, enum sketch_form form, int width_px,
		 const char *path, struct problem *problem)
{
	struct output output = {0};
	bool good = draw(book, vocabulary, kind, record, form, width_px, &output, problem) &&
		    output_save(&output, path, problem);
	output_free(&output);
	return good;
}
