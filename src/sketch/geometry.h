/* Points, boxes and straight segments in a plane whose y runs downward. Any unit. Inside sketch/.
 */
#ifndef LAPEL_SKETCH_GEOMETRY_H
#define LAPEL_SKETCH_GEOMETRY_H

#include <stdbool.h>

struct point {
	double x, y;
};

struct segment {
	struct point from, to;
};

struct box {
	double x, y, width, height; /* x and y of the upper left corner */
};

/* The box with `by` added (below 0: taken off) on every side. */
struct box box_grown(struct box box, double by);
struct box box_around(struct point centre, double width, double height);
struct point box_centre(struct box box);
/* With a little more on every side, so that it meets whatever the segment meets. */
struct box box_of_segment(struct segment segment);

/* The smallest box that holds both; the other one where one has neither width nor height. */
struct box box_union(struct box one, struct box other);

bool box_holds(struct box outer, struct box inner);

/* Touching edges do not count as meeting. */
bool box_meets_box(struct box one, struct box other);
/* Whether any of the segment lies in the box. */
bool box_meets_segment(struct box box, struct segment segment);
/* Whether any of the disc lies in the box. */
bool box_meets_disc(struct box box, struct point centre, double radius);
/* The point of the box (its edge or inside) that is nearest to `point`. */
struct point box_nearest(struct box box, struct point point);

/* Whether they have a point in common that is an end of neither. */
bool segments_cross(struct segment one, struct segment other);

double point_distance(struct point one, struct point other);
double segment_distance(struct segment segment, struct point point);
double segments_distance(struct segment one, struct segment other); /* 0 where they cross */
bool segments_near(struct segment one, struct segment other, double near);

#endif
