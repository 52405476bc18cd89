#include "picture.h"

#include "labels.h"
#include "legend.h"
#include "marks.h"
#include "pieces.h"
#include "set_piece.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The garment is drawn as large as fits into this; the rest of the width is for labels. */
#define GARMENT_WIDTH 258.0
#define GARMENT_HEIGHT 300.0
/* Above and below the garment, for labels and marks; what they do not take is cut off. */
#define ROOM 44.0
#define BELOW_HEADING 4.0
/* Between the sketch and the list below it. */
#define BEFORE_LIST 10.0

struct point
picture_point(const struct picture *picture, struct point point)
{
	return (struct point){picture->origin.x + picture->scale * point.x,
			      picture->origin.y + picture->scale * point.y};
}

/* Of all its lines, in centimetres; empty when there is no outline among them. */
static struct box
sketch_bounds(const struct sketch *sketch)
{
	struct point points[PATH_POINTS_MAX];
	double left = HUGE_VAL, right = -HUGE_VAL, top = HUGE_VAL, bottom = -HUGE_VAL;
	bool outlined = false;

	for (int i = 0; i < sketch->stroke_count; i++) {
		int count = path_flatten(&sketch->strokes[i].path, points, PATH_POINTS_MAX);
		outlined = outlined || sketch->strokes[i].type == STROKE_EDGE;
		for (int k = 0; k < count; k++) {
			left = fmin(left, points[k].x);
			right = fmax(right, points[k].x);
			top = fmin(top, points[k].y);
			bottom = fmax(bottom, points[k].y);
		}
	}
	if (!outlined)
		return (struct box){0};
	return (struct box){left, top, right - left, bottom - top};
}

/* Scales the sketch, and puts it in the middle. False when it has no outline. */
static bool
garment_place(struct picture *picture)
{
	struct box bounds = sketch_bounds(picture->sketch);
	if (bounds.width <= 0 || bounds.height <= 0)
		return false;
	picture->scale = fmin(GARMENT_WIDTH / bounds.width, GARMENT_HEIGHT / bounds.height);
	picture->garment.width = picture->scale * bounds.width;
	picture->garment.height = picture->scale * bounds.height;
	picture->garment.x = (PICTURE_WIDTH - picture->garment.width) / 2;
	picture->garment.y = ROOM;
	picture->origin.x = picture->garment.x - picture->scale * bounds.x;
	picture->origin.y = picture->garment.y - picture->scale * bounds.y;
	return true;
}

/* "left sleeve" without a line of its own is the sleeve on the wearer's left, whichever one the
 * sketch shows. */
static const struct tape *
tape_of(const struct sketch *sketch, const char *measure, bool *mirrored)
{
	enum side side;
	const struct tape *tape = tape_find(sketch, measure);
	const char *plain = measure_without_side(measure, &side);

	*mirrored = false;
	if (tape != NULL || side == SIDE_UNSAID)
		return tape;
	tape = tape_find(sketch, plain);
	if (tape != NULL) {
		bool on_left = path_begin(&tape->path).x + path_end(&tape->path).x > 0;
		*mirrored = on_left != (side == SIDE_LEFT);
	}
	return tape;
}

/* `reading` is NULL when there is no record; the measure has no line when the sketch knows none, or
 * when the garment has no such point. */
static void
tape_add(struct picture *picture, const char *measure, bool wanted, const struct entry *reading)
{
	bool mirrored, none = reading != NULL && reading->said.none;
	const struct tape *tape = tape_of(picture->sketch, measure, &mirrored);

	if (picture->tape_count == PICTURE_TAPES_MAX)
		return;
	struct picture_tape *drawn = &picture->tapes[picture->tape_count++];
	drawn->measure = measure;
	drawn->wanted = wanted;
	if (none)
		snprintf(drawn->value, sizeof drawn->value, "none");
	else if (reading != NULL) {
		char value[32];
		length_value(reading->said.length, value, sizeof value);
		snprintf(drawn->value, sizeof drawn->value, "%s %s", value,
			 length_unit_name(reading->said.length.unit));
	}
	if (tape == NULL || none)
		return;
	drawn->on_back = tape->on_back;
	drawn->point_count = path_flatten(&tape->path, drawn->points, PICTURE_TAPE_POINTS_MAX);
	for (int i = 0; i < drawn->point_count; i++) {
		struct point point = drawn->points[i];
		if (mirrored)
			point.x = -point.x;
		drawn->points[i] = picture_point(picture, point);
	}
}

static void
kind_tapes_add(struct picture *picture, const struct term *kind, const struct record *record)
{
	const char *piece = picture->piece < 0 ? "" : kind->name;
	for (int i = 0; i < kind->wanted_count + kind->helpful_count; i++) {
		bool wanted = i < kind->wanted_count;
		int index = wanted ? kind->wanted[i] : kind->helpful[i - kind->wanted_count];
		const char *measure =
			vocabulary_term(picture->vocabulary, LIST_MEASURE, index)->name;
		char name[CALL_NAME_MAX];
		const struct entry *reading =
			record != NULL && piece_join(piece, measure, name, sizeof name)
				? record_reading(record, name)
				: NULL;
		if (record == NULL || reading != NULL)
			tape_add(picture, measure, wanted, reading);
	}
}

/* What was measured though the kind does not ask for it. */
static void
other_tapes_add(struct picture *picture, const struct record *record)
{
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		const char *name;
		bool there = false;
		if (!entry->stands || entry->said.type != CALL_MEASURE ||
		    !picture_shows(picture, entry, &name))
			continue;
		for (int k = 0; k < picture->tape_count; k++)
			there = there || strcmp(picture->tapes[k].measure, name) == 0;
		if (!there)
			tape_add(picture, name, false, entry);
	}
}

static void
point_move(struct point *point, double down)
{
	point->y += down;
}

static void
segment_move(struct segment *segment, double down)
{
	segment->from.y += down;
	segment->to.y += down;
}

static void
everything_move(struct picture *picture, double down)
{
	picture->origin.y += down;
	picture->garment.y += down;
	for (int i = 0; i < picture->tape_count; i++) {
		struct picture_tape *tape = &picture->tapes[i];
		for (int k = 0; k < tape->point_count; k++)
			point_move(&tape->points[k], down);
		tape->label.y += down;
		segment_move(&tape->leader, down);
	}
	for (int i = 0; i < picture->mark_count; i++) {
		point_move(&picture->marks[i].centre, down);
		point_move(&picture->marks[i].place, down);
		segment_move(&picture->marks[i].leader, down);
	}
}

/* Of the garment with its labels and marks. */
static struct box
drawn_bounds(const struct picture *picture)
{
	struct box bounds = picture->garment;
	for (int i = 0; i < picture->tape_count; i++)
		if (picture->tapes[i].labelled)
			bounds = box_union(bounds, picture->tapes[i].label);
	for (int i = 0; i < picture->mark_count; i++)
		bounds = box_union(bounds,
				   box_around(picture->marks[i].centre, 2 * PICTURE_MARK_RADIUS,
					      2 * PICTURE_MARK_RADIUS));
	return bounds;
}

static bool
layout(struct picture *picture, const struct record *record, const struct ruler *ruler)
{
	struct obstacles obstacles;
	struct box area = {PICTURE_MARGIN, 0, PICTURE_WIDTH - 2 * PICTURE_MARGIN,
			   picture->garment.height + 2 * ROOM};
	double bottom;

	if (record != NULL)
		marks_place(picture, record, area);
	bool good = obstacles_gather(&obstacles, picture);
	obstacles.area = area;
	good = good && labels_place(picture, &obstacles, ruler);
	obstacles_free(&obstacles);
	if (!good)
		return false;
	struct box bounds = drawn_bounds(picture);
	double above = PICTURE_MARGIN;
	if (picture_heading(picture) != NULL)
		above += lettering_line(LETTERING_STRONG) + BELOW_HEADING;
	everything_move(picture, above - bounds.y);
	double top = above + bounds.height + BEFORE_LIST;
	good = legend_make(picture, record, ruler, top, &bottom);
	picture->height =
		bottom == top ? top - BEFORE_LIST + PICTURE_MARGIN : bottom + PICTURE_MARGIN;
	return good;
}

/* The kind's index in LIST_KIND; -1 with the problem. */
static int
kind_find(const struct vocabulary *vocabulary, const char *kind, const struct record *record,
	  struct problem *problem)
{
	const struct entry *said = record == NULL ? NULL : record_slot(record, CALL_KIND);
	if (kind == NULL && said != NULL)
		kind = said->said.name;
	if (kind == NULL) {
		problem_say(problem, "there is no picture of a garment whose kind was not said");
		return -1;
	}
	int index = vocabulary_find(vocabulary, LIST_KIND, kind);
	if (index < 0)
		problem_say(problem, "there is no kind \"%s\" in the list of kinds", kind);
	return index;
}

/* The picture of one piece, or (-1) of what is of none, with what is `below` it, which it owns from
 * here on, also when it fails; `kind` is that of the item. */
static struct picture *
piece_create(const struct sketch_book *book, const struct vocabulary *vocabulary, int kind,
	     int piece, const struct record *record, const struct ruler *ruler,
	     struct picture *below, struct problem *problem)
{
	const struct term *term = vocabulary_term(vocabulary, LIST_KIND, piece < 0 ? kind : piece);
	struct picture *picture = calloc(1, sizeof *picture);
	if (picture == NULL) {
		picture_destroy(below);
		problem_say(problem, "there is no memory left for a picture");
		return NULL;
	}
	picture->below = below;
	picture->vocabulary = vocabulary;
	picture->kind = vocabulary_term(vocabulary, LIST_KIND, kind)->name;
	picture->of_set = kind_is_set(vocabulary, kind);
	picture->piece = piece;
	picture->sketch = sketch_find(book, term->name);
	if (picture->sketch == NULL || !garment_place(picture)) {
		problem_say(
			problem,
			"there is no sketch of \"%s\": add its outline to the table of sketches",
			term->name);
		picture_destroy(picture);
		return NULL;
	}
	kind_tapes_add(picture, term, record);
	if (record != NULL)
		other_tapes_add(picture, record);
	if (layout(picture, record, ruler))
		return picture;
	problem_say(problem, "there is no memory left for a picture");
	picture_destroy(picture);
	return NULL;
}

struct picture *
picture_create(const struct sketch_book *book, const struct vocabulary *vocabulary,
	       const char *kind, const struct record *record, const struct ruler *ruler,
	       struct problem *problem)
{
	int pieces[PIECES_MAX + 1] = {-1}, count = 1;
	int index = kind_find(vocabulary, kind, record, problem);
	struct picture *whole = NULL;

	if (index < 0)
		return NULL;
	if (record != NULL && kind_is_set(vocabulary, index))
		count = pieces_gather(vocabulary, record, pieces);
	/* The last one first: each is put above those that there are. */
	do
		whole = piece_create(book, vocabulary, index, pieces[--count], record, ruler, whole,
				     problem);
	while (whole != NULL && count > 0);
	return whole;
}

void
picture_destroy(struct picture *picture)
{
	while (picture != NULL) {
		struct picture *below = picture->below;
		free(picture->lines);
		free(picture);
		picture = below;
	}
}

double
picture_whole_height(const struct picture *picture)
{
	double height = 0;
	for (; picture != NULL; picture = picture->below)
		height += picture->height;
	return height;
}

const char *
picture_heading(const struct picture *picture)
{
	return picture->piece < 0
		       ? NULL
		       : vocabulary_term(picture->vocabulary, LIST_KIND, picture->piece)->name;
}

bool
picture_shows(const struct picture *picture, const struct entry *entry, const char **name)
{
	*name = entry->said.type == CALL_FLAW ? entry->said.part : entry->said.name;
	if (entry->said.type == CALL_FLAW && entry->said.none)
		return picture->below == NULL;
	return !picture->of_set || piece_of(picture->vocabulary, *name, name) == picture->piece;
}

static struct point
text_start(const struct picture_tape *tape, const struct ruler *ruler, enum lettering lettering,
	   const char *text, double above)
{
	double width = ruler_width(ruler, lettering, text);
	return (struct point){tape->label.x + (tape->label.width - width) / 2,
			      tape->label.y + above + lettering_base(lettering)};
}

struct point
picture_name_start(const struct picture_tape *tape, const struct ruler *ruler)
{
	return text_start(tape, ruler, LETTERING_NAME, tape->measure, 0);
}

struct point
picture_value_start(const struct picture_tape *tape, const struct ruler *ruler)
{
	return text_start(tape, ruler, LETTERING_VALUE, tape->value,
			  lettering_line(LETTERING_NAME));
}
