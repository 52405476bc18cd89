#include "obstacles.h"

#include <math.h>
#include <stdlib.h>

static bool
segments_add(struct segments *segments, struct segment segment)
{
	if (segments->count == segments->room) {
		int room = segments->room == 0 ? 256 : 2 * segments->room;
		struct segment *larger = realloc(segments->items, (size_t)room * sizeof *larger);
		if (larger == NULL)
			return false;
		segments->items = larger;
		segments->room = room;
	}
	segments->items[segments->count++] = segment;
	return true;
}

static bool
stroke_add(struct segments *segments, const struct picture *picture, const struct stroke *stroke)
{
	struct point points[PATH_POINTS_MAX] = {stroke->button, stroke->button};
	int count = stroke->type == STROKE_BUTTON
			    ? 2
			    : path_flatten(&stroke->path, points, PATH_POINTS_MAX);
	bool good = true;
	for (int i = 1; good && i < count; i++)
		good = segments_add(segments,
				    (struct segment){picture_point(picture, points[i - 1]),
						     picture_point(picture, points[i])});
	return good;
}

static bool
segments_group(struct segments *segments)
{
	int count = (segments->count + SEGMENTS_GROUP - 1) / SEGMENTS_GROUP;
	segments->groups = calloc((size_t)count + 1, sizeof *segments->groups);
	if (segments->groups == NULL)
		return false;
	for (int i = 0; i < segments->count; i++) {
		struct box *group = &segments->groups[i / SEGMENTS_GROUP];
		*group = box_union(*group, box_of_segment(segments->items[i]));
	}
	return true;
}

bool
obstacles_gather(struct obstacles *obstacles, const struct picture *picture)
{
	*obstacles = (struct obstacles){0};
	for (int i = 0; i < picture->sketch->stroke_count; i++) {
		const struct stroke *stroke = &picture->sketch->strokes[i];
		struct segments *segments =
			stroke->type == STROKE_EDGE ? &obstacles->edges : &obstacles->details;
		if (!stroke_add(segments, picture, stroke))
			return false;
	}
	return segments_group(&obstacles->edges) && segments_group(&obstacles->details);
}

static void
segments_free(struct segments *segments)
{
	free(segments->items);
	free(segments->groups);
}

void
obstacles_free(struct obstacles *obstacles)
{
	segments_free(&obstacles->edges);
	segments_free(&obstacles->details);
	*obstacles = (struct obstacles){0};
}

/* The index of the next item, from `at` on, whose group is not wholly outside the box; the count
 * when there is none. */
static int
next_near(const struct segments *segments, int at, struct box box)
{
	while (at < segments->count && at % SEGMENTS_GROUP == 0 &&
	       !box_meets_box(segments->groups[at / SEGMENTS_GROUP], box))
		at += SEGMENTS_GROUP;
	return at < segments->count ? at : segments->count;
}

int
segments_in_box(const struct segments *segments, struct box box)
{
	int count = 0;
	for (int i = next_near(segments, 0, box); i < segments->count;
	     i = next_near(segments, i + 1, box))
		count += box_meets_segment(box, segments->items[i]);
	return count;
}

int
segments_crossed(const struct segments *segments, struct segment segment)
{
	struct box box = box_of_segment(segment);
	int count = 0;
	for (int i = next_near(segments, 0, box); i < segments->count;
	     i = next_near(segments, i + 1, box))
		count += segments_cross(segments->items[i], segment);
	return count;
}

int
tapes_in_box(const struct picture *picture, struct box box, int but)
{
	int count = 0;
	for (int i = 0; i < picture->tape_count; i++) {
		const struct point *points = picture->tapes[i].points;
		for (int k = 1; i != but && k < picture->tapes[i].point_count; k++)
			count += box_meets_segment(box, (struct segment){points[k - 1], points[k]});
	}
	return count;
}

int
tapes_near(const struct picture *picture, struct segment segment, double near, int but)
{
	int count = 0;
	for (int i = 0; i < picture->tape_count; i++) {
		const struct point *points = picture->tapes[i].points;
		for (int k = 1; i != but && k < picture->tapes[i].point_count; k++)
			count += segments_near((struct segment){points[k - 1], points[k]}, segment,
					       near);
	}
	return count;
}

double
tapes_distance(const struct picture *picture, struct point point)
{
	double nearest = HUGE_VAL;
	for (int i = 0; i < picture->tape_count; i++) {
		const struct point *points = picture->tapes[i].points;
		for (int k = 1; k < picture->tapes[i].point_count; k++)
			nearest = fmin(nearest,
				       segment_distance((struct segment){points[k - 1], points[k]},
							point));
	}
	return nearest;
}
