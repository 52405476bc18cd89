/* Pictures laid out for the tests, and what holds of every one of them. */
#ifndef LAPEL_TESTS_SKETCH_SCENE_H
#define LAPEL_TESTS_SKETCH_SCENE_H

#include "garment.h"

#include "picture.h"

/* What all tests of pictures stand on; the record is a test's own to fill. */
extern struct vocabulary *vocabulary;
extern struct sketch_book *book;
extern struct ruler *ruler;
extern struct record record;
extern struct problem problem;
extern char at_hand[256]; /* which picture is looked at, for saying so */

bool scene_open(void);
void scene_close(void);

/* The picture of the kind (NULL: the record's), which the caller destroys. */
struct picture *lay_out(const char *kind, const struct record *of);

/* Of a set with all its pieces. Labels and marks lie inside the picture, and none over another one,
 * a leader or a measured line; the list lies below. */
void check_picture(const struct picture *picture);

/* How many labels lie over a line of the outline. */
int labels_over_the_outline(const struct picture *picture);

/* Six flaws here and there in `record`: other ones for each `turn`. */
void say_six_flaws(const struct sketch *sketch, int turn);

/* A wide value and a narrow one, in turn. */
void say_value(const char *measure, int turn);

/* The lines of the list, each ended by a stroke; until the next call. */
const char *list_of(const struct picture *picture);

#endif
