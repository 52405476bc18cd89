/* Where the labels of the measured lines lie. Inside sketch/. */
#ifndef LAPEL_SKETCH_LABELS_H
#define LAPEL_SKETCH_LABELS_H

#include "obstacles.h"

/* Gives every measured line a place for its label: beside the line, or further off with a leader.
 * No label lies over another, a mark or a measured line; as few as can be over the outline. Where
 * there is no such place, `labelled` stays false. The same picture gives the same places. False
 * when there is no memory. */
bool labels_place(struct picture *picture, const struct obstacles *obstacles,
		  const struct ruler *ruler);

#endif
