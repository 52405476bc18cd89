#include "draw.h"

#include <math.h>
#include <stdio.h>

/* Few colours, all dark on light: told apart also where colours are not, since measured lines have
 * ends and flaws have numbers. */
enum colour {
	COLOUR_PAPER,
	COLOUR_CLOTH,
	COLOUR_CLOTH_INSIDE,
	COLOUR_EDGE,
	COLOUR_SEAM,
	COLOUR_TAPE,
	COLOUR_TEXT,
	COLOUR_NOTE,
	COLOUR_FLAW
};

static const struct {
	double red, green, blue;
} COLOURS[] = {
	[COLOUR_PAPER] = {1, 1, 1},
	[COLOUR_CLOTH] = {0.965, 0.957, 0.937},
	[COLOUR_CLOTH_INSIDE] = {0.878, 0.867, 0.839},
	[COLOUR_EDGE] = {0.239, 0.255, 0.278},
	[COLOUR_SEAM] = {0.561, 0.573, 0.592},
	[COLOUR_TAPE] = {0.043, 0.404, 0.537},
	[COLOUR_TEXT] = {0.106, 0.122, 0.145},
	[COLOUR_NOTE] = {0.353, 0.373, 0.404},
	[COLOUR_FLAW] = {0.663, 0.180, 0.129},
};

#define EDGE_WIDTH 1.5
#define SEAM_WIDTH 0.8
#define STITCH_WIDTH 0.6
#define TAPE_WIDTH 1.4
#define LEADER_WIDTH 0.7
#define RIM_WIDTH 3.0
#define TAPE_END_RADIUS 2.3
#define BUTTON_RADIUS_CM 0.75

static void
set_colour(cairo_t *cairo, enum colour colour)
{
	cairo_set_source_rgb(cairo, COLOURS[colour].red, COLOURS[colour].green,
			     COLOURS[colour].blue);
}

static void
set_dashes(cairo_t *cairo, double on, double off)
{
	double dashes[] = {on, off};
	cairo_set_dash(cairo, dashes, 2, 0);
}

static void
no_dashes(cairo_t *cairo)
{
	cairo_set_dash(cairo, NULL, 0, 0);
}

static void
disc(cairo_t *cairo, struct point centre, double radius)
{
	cairo_new_sub_path(cairo);
	cairo_arc(cairo, centre.x, centre.y, radius, 0, 2 * M_PI);
}

static void
segment_draw(cairo_t *cairo, struct segment segment)
{
	cairo_move_to(cairo, segment.from.x, segment.from.y);
	cairo_line_to(cairo, segment.to.x, segment.to.y);
	cairo_stroke(cairo);
}

static void
path_trace(cairo_t *cairo, const struct picture *picture, const struct path *path)
{
	struct point begin = picture_point(picture, path_begin(path));
	cairo_move_to(cairo, begin.x, begin.y);
	for (int i = 0; i < path->count; i++) {
		const struct curve *curve = &path->curves[i];
		struct point one = picture_point(picture, curve->from_handle);
		struct point other = picture_point(picture, curve->to_handle);
		struct point to = picture_point(picture, curve->to);
		if (curve->straight)
			cairo_line_to(cairo, to.x, to.y);
		else
			cairo_curve_to(cairo, one.x, one.y, other.x, other.y, to.x, to.y);
	}
	if (path->closed)
		cairo_close_path(cairo);
}

static void
stroke_draw(cairo_t *cairo, const struct picture *picture, const struct stroke *stroke)
{
	struct point button = picture_point(picture, stroke->button);

	switch (stroke->type) {
	case STROKE_EDGE:
		path_trace(cairo, picture, &stroke->path);
		set_colour(cairo, COLOUR_CLOTH);
		cairo_fill(cairo);
		return;
	case STROKE_INSIDE:
		path_trace(cairo, picture, &stroke->path);
		set_colour(cairo, COLOUR_CLOTH_INSIDE);
		cairo_fill(cairo);
		return;
	case STROKE_STITCH:
		path_trace(cairo, picture, &stroke->path);
		set_colour(cairo, COLOUR_SEAM);
		cairo_set_line_width(cairo, STITCH_WIDTH);
		set_dashes(cairo, 2, 1.6);
		break;
	case STROKE_SEAM:
		path_trace(cairo, picture, &stroke->path);
		set_colour(cairo, COLOUR_SEAM);
		cairo_set_line_width(cairo, SEAM_WIDTH);
		break;
	case STROKE_BUTTON:
		disc(cairo, button, picture->scale * BUTTON_RADIUS_CM);
		set_colour(cairo, COLOUR_PAPER);
		cairo_fill_preserve(cairo);
		set_colour(cairo, COLOUR_SEAM);
		cairo_set_line_width(cairo, SEAM_WIDTH);
		break;
	}
	cairo_stroke(cairo);
	no_dashes(cairo);
}

/* Layer on layer: all cloth first, all edges last. */
static void
garment_draw(cairo_t *cairo, const struct picture *picture)
{
	const struct sketch *sketch = picture->sketch;
	for (int type = STROKE_EDGE; type <= STROKE_BUTTON; type++)
		for (int i = 0; i < sketch->stroke_count; i++)
			if (sketch->strokes[i].type == (enum stroke_type)type)
				stroke_draw(cairo, picture, &sketch->strokes[i]);
	set_colour(cairo, COLOUR_EDGE);
	cairo_set_line_width(cairo, EDGE_WIDTH);
	for (int i = 0; i < sketch->stroke_count; i++) {
		if (sketch->strokes[i].type != STROKE_EDGE)
			continue;
		path_trace(cairo, picture, &sketch->strokes[i].path);
		cairo_stroke(cairo);
	}
}

static void
tape_draw(cairo_t *cairo, const struct picture_tape *tape)
{
	if (!tape->labelled)
		return;
	set_colour(cairo, COLOUR_TAPE);
	if (tape->has_leader) {
		cairo_set_line_width(cairo, LEADER_WIDTH);
		segment_draw(cairo, tape->leader);
	}
	cairo_set_line_width(cairo, TAPE_WIDTH);
	if (tape->on_back)
		set_dashes(cairo, 4, 3);
	for (int i = 0; i < tape->point_count; i++)
		cairo_line_to(cairo, tape->points[i].x, tape->points[i].y);
	cairo_stroke(cairo);
	no_dashes(cairo);
	disc(cairo, tape->points[0], TAPE_END_RADIUS);
	disc(cairo, tape->points[tape->point_count - 1], TAPE_END_RADIUS);
	cairo_fill(cairo);
}

/* The text with a rim in the colour of what it lies on, which keeps it legible where a seam runs
 * behind it. */
static void
rimmed(cairo_t *cairo, enum lettering lettering, struct point start, const char *text,
       enum colour colour, enum colour rim)
{
	lettering_set(cairo, lettering);
	cairo_move_to(cairo, start.x, start.y);
	cairo_text_path(cairo, text);
	set_colour(cairo, rim);
	cairo_set_line_width(cairo, RIM_WIDTH);
	cairo_stroke(cairo);
	set_colour(cairo, colour);
	cairo_move_to(cairo, start.x, start.y);
	cairo_show_text(cairo, text);
}

/* The colour of the picture at a point of it. */
static enum colour
ground_at(const struct picture *picture, struct point point)
{
	struct point place = {(point.x - picture->origin.x) / picture->scale,
			      (point.y - picture->origin.y) / picture->scale};
	enum colour ground = COLOUR_PAPER;
	for (int i = 0; i < picture->sketch->stroke_count; i++) {
		const struct stroke *stroke = &picture->sketch->strokes[i];
		if (stroke->type == STROKE_INSIDE && path_holds(&stroke->path, place))
			return COLOUR_CLOTH_INSIDE;
		if (stroke->type == STROKE_EDGE && path_holds(&stroke->path, place))
			ground = COLOUR_CLOTH;
	}
	return ground;
}

static void
label_draw(cairo_t *cairo, const struct picture *picture, const struct picture_tape *tape,
	   const struct ruler *ruler)
{
	if (!tape->labelled)
		return;
	enum colour ground = ground_at(picture, box_centre(tape->label));
	rimmed(cairo, LETTERING_NAME, picture_name_start(tape, ruler), tape->measure, COLOUR_TAPE,
	       ground);
	if (tape->value[0] != '\0')
		rimmed(cairo, LETTERING_VALUE, picture_value_start(tape, ruler), tape->value,
		       COLOUR_TEXT, ground);
}

/* A disc with the flaw's number; a ring when the flaw is not to be seen from the front. */
static void
number_draw(cairo_t *cairo, const struct ruler *ruler, struct point centre, int number, bool hidden)
{
	char text[16];
	snprintf(text, sizeof text, "%d", number);
	disc(cairo, centre, PICTURE_MARK_RADIUS - 0.6);
	set_colour(cairo, hidden ? COLOUR_PAPER : COLOUR_FLAW);
	cairo_fill_preserve(cairo);
	set_colour(cairo, COLOUR_FLAW);
	cairo_set_line_width(cairo, 1.2);
	cairo_stroke(cairo);
	set_colour(cairo, hidden ? COLOUR_FLAW : COLOUR_PAPER);
	lettering_set(cairo, LETTERING_NUMBER);
	double width = ruler_width(ruler, LETTERING_NUMBER, text);
	/* Digits of the font are 0.73 of its size high, and stand in the middle. */
	cairo_move_to(cairo, centre.x - width / 2, centre.y + 4.0);
	cairo_show_text(cairo, text);
}

static void
mark_draw(cairo_t *cairo, const struct ruler *ruler, const struct picture_mark *mark)
{
	if (mark->has_leader) {
		set_colour(cairo, COLOUR_FLAW);
		cairo_set_line_width(cairo, LEADER_WIDTH);
		segment_draw(cairo, mark->leader);
		disc(cairo, mark->place, 1.6);
		cairo_fill(cairo);
	}
	number_draw(cairo, ruler, mark->centre, mark->number, mark->hidden);
}

static void
line_draw(cairo_t *cairo, const struct ruler *ruler, const struct legend_line *line)
{
	double width = ruler_width(ruler, LETTERING_LEGEND, line->text);
	struct point start = {line->box.x + line->box.width - width,
			      line->box.y + lettering_base(LETTERING_LEGEND)};
	struct point centre = {line->box.x + PICTURE_MARK_RADIUS, box_centre(line->box).y};
	if (line->number > 0)
		number_draw(cairo, ruler, centre, line->number, line->hidden);
	set_colour(cairo, line->note ? COLOUR_NOTE : COLOUR_TEXT);
	lettering_set(cairo, LETTERING_LEGEND);
	cairo_move_to(cairo, start.x, start.y);
	cairo_show_text(cairo, line->text);
}

void
text_draw(cairo_t *cairo, enum lettering lettering, struct point start, const char *text)
{
	set_colour(cairo, COLOUR_TEXT);
	lettering_set(cairo, lettering);
	cairo_move_to(cairo, start.x, start.y);
	cairo_show_text(cairo, text);
}

/* One picture, without those below it. */
static void
piece_draw(cairo_t *cairo, const struct picture *picture, const struct ruler *ruler)
{
	const char *heading = picture_heading(picture);
	struct point start = {PICTURE_MARGIN, PICTURE_MARGIN + lettering_base(LETTERING_STRONG)};

	set_colour(cairo, COLOUR_PAPER);
	cairo_rectangle(cairo, 0, 0, PICTURE_WIDTH, picture->height);
	cairo_fill(cairo);
	if (heading != NULL)
		text_draw(cairo, LETTERING_STRONG, start, heading);
	garment_draw(cairo, picture);
	for (int i = 0; i < picture->tape_count; i++)
		tape_draw(cairo, &picture->tapes[i]);
	for (int i = 0; i < picture->tape_count; i++)
		label_draw(cairo, picture, &picture->tapes[i], ruler);
	for (int i = 0; i < picture->mark_count; i++)
		mark_draw(cairo, ruler, &picture->marks[i]);
	for (int i = 0; i < picture->line_count; i++)
		line_draw(cairo, ruler, &picture->lines[i]);
}

void
picture_draw(const struct picture *picture, const struct ruler *ruler, cairo_t *cairo)
{
	cairo_save(cairo);
	cairo_set_line_cap(cairo, CAIRO_LINE_CAP_ROUND);
	cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
	for (; picture != NULL; picture = picture->below) {
		piece_draw(cairo, picture, ruler);
		cairo_translate(cairo, 0, picture->height);
	}
	cairo_restore(cairo);
}
