/* A picture in words, for those who do not see it. Inside sketch/. */
#ifndef LAPEL_SKETCH_DESCRIBE_H
#define LAPEL_SKETCH_DESCRIBE_H

#include "picture.h"
#include "text.h"

/* Adds "Sketch: blazer, item 482"; without a record "Where to measure: blazer". */
void describe_title(const struct picture *picture, const struct record *record, struct text *to);

/* Adds all that the picture tells, in sentences: the measures with their values, and the flaws with
 * their numbers. Without a record (NULL), the names of the measures. */
void describe_picture(const struct picture *picture, const struct record *record, struct text *to);

#endif
