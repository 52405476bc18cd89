/* Pictures of garments: a flat sketch of each kind with the measured lines on it and the flaws at
 * their places, and the sheet that shows where each measure is taken.
 *
 * The sketches are a table of the user's, grammars/sketches.txt, whose head says how it is written:
 * a kind that is added to the lists gets its sketch there, without code. A garment lies face up and
 * fastened, so the wearer's left is at the viewer's right. Lines and places are in centimetres of a
 * middle-sized garment, from the middle of it, downward. */
#ifndef LAPEL_SKETCH_SKETCH_H
#define LAPEL_SKETCH_SKETCH_H

#include "problem.h"
#include "record.h"
#include "vocabulary.h"

#include <stddef.h>

struct sketch_book; /* opaque; owns the sketches of all kinds */

/* Reads a table's text; `file` names it in what is said of a fault. NULL, with what is wrong in
 * which line, when it is not written as its head says, or a kind, tape or part is given twice.
 * Names are not held against the lists: a sketch of a kind that is not on them does nothing. */
struct sketch_book *sketch_book_read(const char *file, const char *text, struct problem *problem);
void sketch_book_destroy(struct sketch_book *book); /* NULL is allowed */

/* How the measure is taken on this kind (NULL: any), in a sentence without a full stop; NULL when
 * the book does not say. "left sleeve" is taken as "sleeve" is. Borrowed from the book. */
const char *sketch_how(const struct sketch_book *book, const char *measure, const char *kind);

enum sketch_form { SKETCH_SVG, SKETCH_PNG };

/* Takes the next bytes of a picture; false when it cannot, and then no more come. */
typedef bool sketch_writer(void *to, const void *bytes, size_t count);

enum { SKETCH_WIDTH_MIN = 180, SKETCH_WIDTH_MAX = 8192 };

/* Draws a garment, `width_px` wide (SKETCH_WIDTH_MIN to SKETCH_WIDTH_MAX), as high as it takes.
 *
 * With a record: its standing readings beside the lines in which they were measured, and its flaws,
 * numbered, at their part and side, with a list below. What has no place on the sketch is told in
 * the list, so that nothing of the record is missing. Without one (NULL): all measures of the kind
 * by their names. `kind` is a name of LIST_KIND; NULL takes the record's.
 *
 * The same record gives the same bytes. False, with the problem, when the kind is unknown or has no
 * sketch, when there is no memory, or when `write` would take no more (then in words that speak of
 * `name`, the place that it writes to). */
bool sketch_draw(const struct sketch_book *book, const struct vocabulary *vocabulary,
		 const char *kind, const struct record *record, enum sketch_form form, int width_px,
		 const char *name, sketch_writer *write, void *to, struct problem *problem);

/* The same into a file, in the place of what was there; of a picture that fails there is no file.
 */
bool sketch_draw_file(const struct sketch_book *book, const struct vocabulary *vocabulary,
		      const char *kind, const struct record *record, enum sketch_form form,
		      int width_px, const char *path, struct problem *problem);

/* The sheet, as PDF on A4: every kind of the list that has measures, with all of them, where each
 * is taken and how. A kind without a sketch is told in words. The same lists give the same bytes.
 */
bool sketch_sheet(const struct sketch_book *book, const struct vocabulary *vocabulary,
		  const char *name, sketch_writer *write, void *to, struct problem *problem);
bool sketch_sheet_file(const struct sketch_book *book, const struct vocabulary *vocabulary,
		       const char *path, struct problem *problem);

#endif
