#include "geometry.h"

#include <math.h>

struct box
box_grown(struct box box, double by)
{
	return (struct box){box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by};
}

struct box
box_around(struct point centre, double width, double height)
{
	return (struct box){centre.x - width / 2, centre.y - height / 2, width, height};
}

struct point
box_centre(struct box box)
{
	return (struct point){box.x + box.width / 2, box.y + box.height / 2};
}

struct box
box_of_segment(struct segment segment)
{
	struct point from = segment.from, to = segment.to;
	struct box box = {fmin(from.x, to.x), fmin(from.y, to.y), fabs(to.x - from.x),
			  fabs(to.y - from.y)};
	return box_grown(box, 0.01);
}

struct box
box_union(struct box one, struct box other)
{
	if (one.width <= 0 && one.height <= 0)
		return other;
	if (other.width <= 0 && other.height <= 0)
		return one;
	double left = fmin(one.x, other.x), top = fmin(one.y, other.y);
	double right = fmax(one.x + one.width, other.x + other.width);
	double bottom = fmax(one.y + one.height, other.y + other.height);
	return (struct box){left, top, right - left, bottom - top};
}

bool
box_holds(struct box outer, struct box inner)
{
	return inner.x >= outer.x && inner.y >= outer.y &&
	       inner.x + inner.width <= outer.x + outer.width &&
	       inner.y + inner.height <= outer.y + outer.height;
}

bool
box_meets_box(struct box one, struct box other)
{
	return one.x < other.x + other.width && other.x < one.x + one.width &&
	       one.y < other.y + other.height && other.y < one.y + one.height;
}

/* Cuts the part `*enter` to `*leave` (0 to 1) of a line down to where it is between two sides of
 * the box: Liang and Barsky, A New Concept and Method for Line Clipping, 1984. */
static bool
clip(double from, double delta, double low, double high, double *enter, double *leave)
{
	if (delta == 0)
		return from > low && from < high;
	double one = (low - from) / delta, other = (high - from) / delta;
	*enter = fmax(*enter, fmin(one, other));
	*leave = fmin(*leave, fmax(one, other));
	return *enter < *leave;
}

/* Most lines of a sketch are nowhere near the box that is asked about: found out at little cost. */
static bool
lies_aside(double low, double high, double from, double to)
{
	return (from <= low && to <= low) || (from >= high && to >= high);
}

bool
box_meets_segment(struct box box, struct segment segment)
{
	double enter = 0, leave = 1;
	struct point from = segment.from, to = segment.to;
	if (lies_aside(box.x, box.x + box.width, from.x, to.x) ||
	    lies_aside(box.y, box.y + box.height, from.y, to.y))
		return false;
	if (from.x == to.x && from.y == to.y)
		return from.x > box.x && from.x < box.x + box.width && from.y > box.y &&
		       from.y < box.y + box.height;
	return clip(from.x, to.x - from.x, box.x, box.x + box.width, &enter, &leave) &&
	       clip(from.y, to.y - from.y, box.y, box.y + box.height, &enter, &leave);
}

struct point
box_nearest(struct box box, struct point point)
{
	return (struct point){fmin(fmax(point.x, box.x), box.x + box.width),
			      fmin(fmax(point.y, box.y), box.y + box.height)};
}

bool
box_meets_disc(struct box box, struct point centre, double radius)
{
	return point_distance(box_nearest(box, centre), centre) < radius;
}

/* Above 0 where `point` lies to the one side of the segment's line, below 0 on the other. */
static double
side_of(struct segment segment, struct point point)
{
	return (segment.to.x - segment.from.x) * (point.y - segment.from.y) -
	       (segment.to.y - segment.from.y) * (point.x - segment.from.x);
}

bool
segments_cross(struct segment one, struct segment other)
{
	return side_of(one, other.from) * side_of(one, other.to) < 0 &&
	       side_of(other, one.from) * side_of(other, one.to) < 0;
}

double
point_distance(struct point one, struct point other)
{
	double across = one.x - other.x, down = one.y - other.y;
	return sqrt(across * across + down * down);
}

double
segment_distance(struct segment segment, struct point point)
{
	double along_x = segment.to.x - segment.from.x, along_y = segment.to.y - segment.from.y;
	double square = along_x * along_x + along_y * along_y;
	double share = 0;
	if (square > 0)
		share = ((point.x - segment.from.x) * along_x +
			 (point.y - segment.from.y) * along_y) /
			square;
	share = fmin(fmax(share, 0), 1);
	return point_distance(point, (struct point){segment.from.x + share * along_x,
						    segment.from.y + share * along_y});
}

double
segments_distance(struct segment one, struct segment other)
{
	if (segments_cross(one, other))
		return 0;
	return fmin(fmin(segment_distance(one, other.from), segment_distance(one, other.to)),
		    fmin(segment_distance(other, one.from), segment_distance(other, one.to)));
}

bool
segments_near(struct segment one, struct segment other, double near)
{
	return box_meets_box(box_grown(box_of_segment(one), near), box_of_segment(other)) &&
	       segments_distance(one, other) < near;
}
