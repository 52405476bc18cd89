#include "path.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CURVES_MAX = 40, CURVE_STEPS = 12 };

/* Blanks and commas part numbers, as in SVG. */
static void
skip_blanks(const char **rest)
{
	*rest += strspn(*rest, " \t,");
}

/* "12", "-3.5": not strtod, which would read another number in another locale. */
static bool
number_read(double *number, const char **rest)
{
	skip_blanks(rest);
	const char *c = *rest;
	bool minus = *c == '-';
	double value = 0, place = 1;
	int digits = 0;

	for (c += minus; *c >= '0' && *c <= '9'; c++, digits++)
		value = 10 * value + (*c - '0');
	if (*c == '.')
		for (c++; *c >= '0' && *c <= '9'; c++, digits++)
			value += (*c - '0') * (place /= 10);
	if (digits == 0 || digits > 6)
		return false;
	*number = minus ? -value : value;
	*rest = c;
	return true;
}

bool
path_point_read(struct point *point, const char **rest)
{
	return number_read(&point->x, rest) && number_read(&point->y, rest);
}

static struct curve
curve_straight(struct point from, struct point to)
{
	return (struct curve){from, from, to, to, true};
}

/* One command behind the M, whose letter was read. */
static bool
command_read(char letter, struct curve *curve, struct point from, struct point begin,
	     const char **rest)
{
	struct point to;
	curve->from = from;
	switch (letter) {
	case 'L':
		if (!path_point_read(&to, rest))
			return false;
		*curve = curve_straight(from, to);
		return true;
	case 'C':
		return path_point_read(&curve->from_handle, rest) &&
		       path_point_read(&curve->to_handle, rest) &&
		       path_point_read(&curve->to, rest);
	case 'Z':
		*curve = curve_straight(from, begin);
		return true;
	}
	return false;
}

static bool
curves_keep(struct path *path, const struct curve *curves, int count)
{
	path->curves = malloc((size_t)count * sizeof *curves);
	if (path->curves == NULL)
		return false;
	memcpy(path->curves, curves, (size_t)count * sizeof *curves);
	path->count = count;
	return true;
}

bool
path_read(struct path *path, const char **rest, const char **wrong)
{
	struct curve curves[CURVES_MAX] = {0};
	struct point begin, at;
	int count = 0;

	*path = (struct path){0};
	skip_blanks(rest);
	*wrong = "has to begin with M and two numbers";
	if (**rest != 'M')
		return false;
	++*rest;
	if (!path_point_read(&begin, rest))
		return false;
	at = begin;
	for (skip_blanks(rest); **rest != '\0' && **rest != 'M' && !path->closed;
	     skip_blanks(rest)) {
		char letter = *(*rest)++;
		*wrong = "has too many pieces";
		if (count == CURVES_MAX)
			return false;
		*wrong = "has something else in it than M x y, L x y, C x y x y x y and Z";
		if (!command_read(letter, &curves[count], at, begin, rest))
			return false;
		at = curves[count++].to;
		path->closed = letter == 'Z';
	}
	*wrong = "goes nowhere";
	if (count == 0)
		return false;
	*wrong = "did not fit into memory";
	return curves_keep(path, curves, count);
}

void
path_free(struct path *path)
{
	free(path->curves);
	*path = (struct path){0};
}

bool
path_copy(struct path *copy, const struct path *path)
{
	*copy = (struct path){.closed = path->closed};
	return curves_keep(copy, path->curves, path->count);
}

static struct point
mirrored_point(struct point point)
{
	return (struct point){-point.x, point.y};
}

bool
path_mirror(struct path *mirrored, const struct path *path)
{
	if (!path_copy(mirrored, path))
		return false;
	for (int i = 0; i < mirrored->count; i++) {
		struct curve *curve = &mirrored->curves[i];
		curve->from = mirrored_point(curve->from);
		curve->from_handle = mirrored_point(curve->from_handle);
		curve->to_handle = mirrored_point(curve->to_handle);
		curve->to = mirrored_point(curve->to);
	}
	return true;
}

bool
path_join_mirror(struct path *whole, const struct path *path)
{
	int count = path->count;
	*whole = (struct path){0};
	struct curve *curves = malloc(2 * (size_t)count * sizeof *curves);
	if (curves == NULL)
		return false;
	for (int i = 0; i < count; i++) {
		const struct curve *back = &path->curves[count - 1 - i];
		curves[i] = path->curves[i];
		curves[count + i] =
			(struct curve){mirrored_point(back->to), mirrored_point(back->to_handle),
				       mirrored_point(back->from_handle),
				       mirrored_point(back->from), back->straight};
	}
	*whole = (struct path){curves, 2 * count, true};
	return true;
}

struct point
path_begin(const struct path *path)
{
	return path->curves[0].from;
}

struct point
path_end(const struct path *path)
{
	return path->curves[path->count - 1].to;
}

/* The point of the cubic Bezier at `share` (0 to 1) of its parameter. */
static struct point
curve_point(const struct curve *curve, double share)
{
	double rest = 1 - share;
	double a = rest * rest * rest, b = 3 * rest * rest * share;
	double c = 3 * rest * share * share, d = share * share * share;
	return (struct point){a * curve->from.x + b * curve->from_handle.x +
				      c * curve->to_handle.x + d * curve->to.x,
			      a * curve->from.y + b * curve->from_handle.y +
				      c * curve->to_handle.y + d * curve->to.y};
}

int
path_flatten(const struct path *path, struct point *points, int most)
{
	int count = 0;
	if (path->count > 0 && most > 0)
		points[count++] = path_begin(path);
	for (int i = 0; i < path->count; i++) {
		const struct curve *curve = &path->curves[i];
		int steps = curve->straight ? 1 : CURVE_STEPS;
		for (int step = 1; step <= steps && count < most; step++)
			points[count++] = curve_point(curve, (double)step / steps);
	}
	return count;
}

double
path_distance(const struct path *path, struct point point)
{
	struct point points[PATH_POINTS_MAX];
	int count = path_flatten(path, points, PATH_POINTS_MAX);
	double nearest = HUGE_VAL;
	for (int i = 1; i < count; i++)
		nearest = fmin(nearest,
			       segment_distance((struct segment){points[i - 1], points[i]}, point));
	return nearest;
}

/* By how often a line to the right crosses the path: Shimrat, Algorithm 112, 1962. */
bool
path_holds(const struct path *path, struct point point)
{
	struct point points[PATH_POINTS_MAX];
	int count = path_flatten(path, points, PATH_POINTS_MAX);
	bool inside = false;
	for (int i = 0, before = count - 1; i < count; before = i++) {
		struct point one = points[i], other = points[before];
		if ((one.y > point.y) != (other.y > point.y) &&
		    point.x < one.x + (other.x - one.x) * (point.y - one.y) / (other.y - one.y))
			inside = !inside;
	}
	return inside;
}
