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
	return true;
}

void
obstacles_free(struct obstacles *obstacles)
{
	free(obstacles->edges.items);
	free(obstacles->details.items);
	*obstacles = (struct obstacles){0};
}

int
segments_in_box(const struct segments *segments, struct box box)
{
	int count = 0;
	for (int i = 0; i < segments->count; i++)
		count += box_meets_segment(box, segments->items[i]);
	return count;
}

int
segments_crossed(const struct segments *segments, struct segment segment)
{
	int count = 0;
	for (int i = 0; i < segments->count; i++)
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
			count += segments_distance((struct segment){points[k - 1], points[k]},
						   segment) < near;
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
