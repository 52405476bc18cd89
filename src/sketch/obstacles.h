/* What a label or a mark should not lie over: the lines of the sketch. Inside sketch/. */
#ifndef LAPEL_SKETCH_OBSTACLES_H
#define LAPEL_SKETCH_OBSTACLES_H

#include "picture.h"

enum { SEGMENTS_GROUP = 16 };

/* Neighbours lie close together, so that most of them are ruled out a group at a time. */
struct segments {
	struct segment *items; /* owned */
	struct box *groups;    /* owned; what each SEGMENTS_GROUP items in turn lie in */
	int count, room;
};

struct obstacles {
	struct box area;	 /* where there may be anything at all */
	struct segments edges;	 /* of the outline */
	struct segments details; /* seams, stitching, buttons */
};

/* False when there is no memory; to be freed all the same. */
bool obstacles_gather(struct obstacles *obstacles, const struct picture *picture);
void obstacles_free(struct obstacles *obstacles);

/* How many of the segments lie in the box or (line) cross the segment. */
int segments_in_box(const struct segments *segments, struct box box);
int segments_crossed(const struct segments *segments, struct segment segment);

/* How many pieces of measured lines lie in the box, or come nearer than `near` to the segment;
 * `but` is the index of a tape that does not count, or -1. */
int tapes_in_box(const struct picture *picture, struct box box, int but);
int tapes_near(const struct picture *picture, struct segment segment, double near, int but);
/* How far the nearest measured line is from the point; HUGE_VAL when there is none. */
double tapes_distance(const struct picture *picture, struct point point);

#endif
