#include "labels.h"

#include "search.h"

#include <math.h>
#include <stdlib.h>

/* From a measured line to a label beside it. */
#define BESIDE 3.0
/* The farthest that a label may be without a leader. */
#define NEARBY 7.0
/* Between a label and a mark, an edge, another measured line. */
#define CLEAR 2.0
/* Nearer than this to another measured line, a label could be taken for that one's. */
#define DOUBTFUL 7.0
/* From one place at the margin to the next. */
#define MARGIN_STEP 10.0

/* What is not wished for, weighed against each other. A seam behind a label is worse than a short
 * leader, and not as bad as a long one; a line of the outline through it is worse than anything. */
#define COST_EDGE 400.0
#define COST_EDGE_NEAR 12.0
#define COST_DETAIL 40.0
#define COST_DETAIL_MORE 4.0 /* for each further piece of a seam */
#define COST_DOUBTFUL 24.0
#define COST_LEADER 14.0
#define COST_LEADER_UNIT 0.35	 /* for each unit of its length */
#define COST_LEADER_AT_TAPE 90.0 /* over or at another measured line: whose is it? */
#define COST_LEADER_OVER_EDGE 10.0
#define COST_SLANT 0.15	    /* for each unit that a leader from the margin rises or falls */
#define COST_OFF_MIDDLE 8.0 /* at the end of the line rather than in its middle */

struct maker {
	const struct picture *picture;
	const struct obstacles *obstacles;
	int tape; /* whose places are being made */
	struct choice *choice;
};

/* The point at `share` (0 to 1) of the line's length, and the direction in which it runs there. */
static struct point
tape_point(const struct picture_tape *tape, double share, struct point *direction)
{
	const struct point *points = tape->points;
	double length = 0;
	*direction = (struct point){1, 0};
	for (int i = 1; i < tape->point_count; i++)
		length += point_distance(points[i - 1], points[i]);
	double left = share * length;
	for (int i = 1; i < tape->point_count; i++) {
		double piece = point_distance(points[i - 1], points[i]);
		if (piece == 0)
			continue;
		*direction = (struct point){(points[i].x - points[i - 1].x) / piece,
					    (points[i].y - points[i - 1].y) / piece};
		if (left <= piece)
			return (struct point){points[i - 1].x + left * direction->x,
					      points[i - 1].y + left * direction->y};
		left -= piece;
	}
	return points[tape->point_count - 1];
}

/* What the place costs, or below 0 where no label may be. */
static double
place_cost(const struct maker *maker, const struct candidate *place)
{
	const struct picture *picture = maker->picture;
	const struct obstacles *obstacles = maker->obstacles;
	struct box box = place->box, clear = box_grown(box, CLEAR);
	double cost = 0;

	if (!box_holds(obstacles->area, box) || tapes_in_box(picture, clear, -1) > 0)
		return -1;
	if (place->has_leader && box_meets_segment(box, place->leader))
		return -1;
	for (int i = 0; i < picture->mark_count; i++) {
		const struct picture_mark *mark = &picture->marks[i];
		if (box_meets_disc(clear, mark->centre, PICTURE_MARK_RADIUS) ||
		    (mark->has_leader && box_meets_segment(clear, mark->leader)))
			return -1;
		if (place->has_leader &&
		    segment_distance(place->leader, mark->centre) < PICTURE_MARK_RADIUS + 1)
			return -1;
	}
	if (segments_in_box(&obstacles->edges, box) > 0)
		cost += COST_EDGE;
	else if (segments_in_box(&obstacles->edges, clear) > 0)
		cost += COST_EDGE_NEAR;
	int details = segments_in_box(&obstacles->details, box);
	if (details > 0)
		cost += COST_DETAIL + COST_DETAIL_MORE * fmin(details - 1, 3);
	if (tapes_in_box(picture, box_grown(box, DOUBTFUL), maker->tape) > 0)
		cost += COST_DOUBTFUL;
	if (!place->has_leader)
		return cost;
	return cost + COST_LEADER +
	       COST_LEADER_UNIT * point_distance(place->leader.from, place->leader.to) +
	       COST_LEADER_AT_TAPE * (tapes_near(picture, place->leader, BESIDE, maker->tape) > 0) +
	       COST_LEADER_OVER_EDGE * segments_crossed(&obstacles->edges, place->leader);
}

static void
offer(struct maker *maker, struct candidate place, double extra)
{
	struct choice *choice = maker->choice;
	double cost = place_cost(maker, &place);
	if (cost < 0 || choice->count == CANDIDATES_MAX)
		return;
	place.cost = cost + extra;
	int at = choice->count++;
	/* Sorted as they come; of equal ones the earlier stays before the later. */
	while (at > 0 && choice->candidates[at - 1].cost > place.cost) {
		choice->candidates[at] = choice->candidates[at - 1];
		at--;
	}
	choice->candidates[at] = place;
}

/* The box of a label that lies in the direction `away` from the point, `gap` from it. */
static struct box
box_beside(struct point point, struct point away, double gap, double width, double height)
{
	double reach = gap + (fabs(away.x) * width + fabs(away.y) * height) / 2;
	return box_around((struct point){point.x + reach * away.x, point.y + reach * away.y}, width,
			  height);
}

/* Beside the line, on either side of it, at several points of it and in several distances. */
static void
offer_beside(struct maker *maker, double width, double height)
{
	static const double shares[] = {0.5,  0.45, 0.55, 0.4, 0.6,  0.35, 0.65, 0.3, 0.7,
					0.25, 0.75, 0.2,  0.8, 0.15, 0.85, 0.1,	 0.9};
	static const double gaps[] = {BESIDE, NEARBY, 14, 24, 36};
	const struct picture_tape *tape = &maker->picture->tapes[maker->tape];

	for (size_t s = 0; s < sizeof shares / sizeof shares[0]; s++) {
		struct point direction;
		struct point point = tape_point(tape, shares[s], &direction);
		for (int side = -1; side <= 1; side += 2) {
			struct point away = {side * direction.y, -side * direction.x};
			for (size_t g = 0; g < sizeof gaps / sizeof gaps[0]; g++) {
				struct candidate place = {
					.box = box_beside(point, away, gaps[g], width, height),
					.has_leader = gaps[g] > NEARBY};
				place.leader =
					(struct segment){box_nearest(place.box, point), point};
				offer(maker, place, COST_OFF_MIDDLE * 2 * fabs(shares[s] - 0.5));
			}
		}
	}
}

/* Beyond either end of the line, as if it went on. */
static void
offer_beyond(struct maker *maker, double width, double height)
{
	const struct picture_tape *tape = &maker->picture->tapes[maker->tape];
	for (int end = 0; end <= 1; end++) {
		struct point direction;
		struct point point = tape_point(tape, end, &direction);
		struct point away = {end ? direction.x : -direction.x,
				     end ? direction.y : -direction.y};
		struct candidate place = {
			.box = box_beside(point, away, BESIDE + 3, width, height)};
		offer(maker, place, COST_OFF_MIDDLE);
	}
}

/* The point of the line, one of a few, that is nearest to `from`. */
static struct point
tape_nearest(const struct picture_tape *tape, struct point from)
{
	struct point direction, nearest = tape_point(tape, 0, &direction);
	for (double share = 0.25; share <= 1; share += 0.25) {
		struct point point = tape_point(tape, share, &direction);
		if (point_distance(from, point) < point_distance(from, nearest) - 0.01)
			nearest = point;
	}
	return nearest;
}

/* At the left or the right edge of the picture, with a leader to the line. */
static void
offer_at_margin(struct maker *maker, bool right, double y, double width, double height)
{
	struct box area = maker->obstacles->area;
	struct candidate place = {
		.box = {right ? area.x + area.width - width : area.x, y, width, height},
		.has_leader = true};
	place.leader.from =
		(struct point){right ? place.box.x : place.box.x + width, y + height / 2};
	place.leader.to = tape_nearest(&maker->picture->tapes[maker->tape], place.leader.from);
	offer(maker, place, COST_SLANT * fabs(place.leader.to.y - place.leader.from.y));
}

static void
offer_at_margins(struct maker *maker, double width, double height)
{
	const struct picture_tape *tape = &maker->picture->tapes[maker->tape];
	struct box area = maker->obstacles->area;

	for (int right = 0; right <= 1; right++) {
		for (double y = area.y; y + height <= area.y + area.height; y += MARGIN_STEP)
			offer_at_margin(maker, right, y, width, height);
		/* And where the leader is level. */
		for (double share = 0; share <= 1; share += 0.5) {
			struct point direction, point = tape_point(tape, share, &direction);
			offer_at_margin(maker, right, point.y - height / 2, width, height);
		}
	}
}

static void
label_size(const struct picture_tape *tape, const struct ruler *ruler, double *width,
	   double *height)
{
	*width = ruler_width(ruler, LETTERING_NAME, tape->measure);
	*height = lettering_line(LETTERING_NAME);
	if (tape->value[0] != '\0') {
		*width = fmax(*width, ruler_width(ruler, LETTERING_VALUE, tape->value));
		*height += lettering_line(LETTERING_VALUE);
	}
}

bool
labels_place(struct picture *picture, const struct obstacles *obstacles, const struct ruler *ruler)
{
	int count = picture->tape_count;
	struct choice *choices = calloc((size_t)count + 1, sizeof *choices);

	if (choices == NULL)
		return false;
	for (int i = 0; i < count; i++) {
		struct maker maker = {picture, obstacles, i, &choices[i]};
		double width, height;
		if (picture->tapes[i].point_count == 0)
			continue;
		label_size(&picture->tapes[i], ruler, &width, &height);
		offer_beside(&maker, width, height);
		offer_beyond(&maker, width, height);
		offer_at_margins(&maker, width, height);
	}
	search_choose(choices, count);
	for (int i = 0; i < count; i++) {
		struct picture_tape *tape = &picture->tapes[i];
		tape->labelled = choices[i].chosen >= 0;
		if (!tape->labelled)
			continue;
		const struct candidate *place = &choices[i].candidates[choices[i].chosen];
		tape->label = place->box;
		tape->has_leader = place->has_leader;
		tape->leader = place->leader;
	}
	free(choices);
	return true;
}
