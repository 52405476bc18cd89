/* What a sketch book holds, for the files of sketch/. Inside sketch/. */
#ifndef LAPEL_SKETCH_BOOK_H
#define LAPEL_SKETCH_BOOK_H

#include "call.h"
#include "path.h"
#include "sketch.h"

/* In the order in which they are drawn. */
enum stroke_type {
	STROKE_EDGE,   /* the outline: filled, and drawn again with a thick line on top of all */
	STROKE_INSIDE, /* what is seen of the inside, such as the back of a neck: filled darker */
	STROKE_STITCH, /* stitching: dashed */
	STROKE_SEAM,   /* seams, folds and edges that lie on the garment */
	STROKE_BUTTON
};

struct stroke {
	enum stroke_type type;
	struct path path;
	struct point button; /* of a STROKE_BUTTON, which has no path */
};

/* Where the tape lies for a measure: from its path's first point to its last. */
struct tape {
	char measure[CALL_NAME_MAX];
	bool on_back;
	struct path path;
};

enum part_way {
	PART_PAIR,   /* one on each side */
	PART_ACROSS, /* reaches from side to side: in the middle, if no side was said */
	PART_ONCE    /* there once, whatever side is said */
};

struct part {
	char name[sizeof(((struct call *)0)->part)];
	enum part_way way;
	struct point at; /* of a pair, and of what reaches across: the wearer's left one */
};

struct sketch {
	char kind[CALL_NAME_MAX];
	struct stroke *strokes;
	struct tape *tapes;
	struct part *parts;
	int stroke_count, tape_count, part_count;
};

struct how {
	char measure[CALL_NAME_MAX];
	char kind[CALL_NAME_MAX]; /* empty: any that has no row of its own */
	char text[200];
};

struct sketch_book {
	struct sketch *sketches;
	struct how *hows;
	int sketch_count, how_count;
};

/* NULL when there is none. */
const struct sketch *sketch_find(const struct sketch_book *book, const char *kind);
const struct part *part_find(const struct sketch *sketch, const char *name);
const struct tape *tape_find(const struct sketch *sketch, const char *measure);

/* "left sleeve" as "sleeve", with the side; any other measure as it is. */
const char *measure_without_side(const char *measure, enum side *side);

/* How far the point lies from the nearest line of the outline, in centimetres. */
double sketch_edge_distance(const struct sketch *sketch, struct point point);

#endif
