/* A line of a sketch: straight pieces and curves, one after the other. Inside sketch/.
 *
 * Written as the path data of SVG 1.1 (section 8.3), of which the absolute commands M, L, C and Z
 * are read: M x y begins, L x y goes straight, C x1 y1 x2 y2 x y curves (a cubic Bezier), Z closes.
 */
#ifndef LAPEL_SKETCH_PATH_H
#define LAPEL_SKETCH_PATH_H

#include "geometry.h"

enum { PATH_POINTS_MAX = 1024 };

struct curve {
	struct point from, from_handle, to_handle, to;
	bool straight;
};

struct path {
	struct curve *curves; /* owned */
	int count;
	bool closed;
};

/* Reads one path, up to the next M or the end of the text; *rest goes behind it. On failure the
 * path is empty, and *wrong says what is wrong with it, in words that fit after "the path". */
bool path_read(struct path *path, const char **rest, const char **wrong);

/* Reads "x y"; *rest goes behind it. */
bool path_point_read(struct point *point, const char **rest);

void path_free(struct path *path); /* leaves an empty path */

/* Each is false, with an empty path, when there is no memory. */
bool path_copy(struct path *copy, const struct path *path);
bool path_mirror(struct path *mirrored, const struct path *path); /* about x = 0 */
/* The path, and then back along its mirror image: closed. For one that begins and ends at x = 0. */
bool path_join_mirror(struct path *whole, const struct path *path);

struct point path_begin(const struct path *path);
struct point path_end(const struct path *path);

/* As straight segments: points, `most` at most; how many. Each curve becomes 12 segments. */
int path_flatten(const struct path *path, struct point *points, int most);

/* How far `point` lies from the path. */
double path_distance(const struct path *path, struct point point);

/* Whether `point` lies inside the closed path (or the open one closed by a straight line). */
bool path_holds(const struct path *path, struct point point);

#endif
