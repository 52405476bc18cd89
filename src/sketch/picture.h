/* A picture laid out: where everything in it lies, as numbers. Inside sketch/.
 *
 * It is PICTURE_WIDTH units wide whatever the width in pixels, with y downward from its upper edge;
 * a drawing in another width is only scaled, and so what is legible in one is in every larger one.
 * What holds of every picture: all boxes and marks lie inside it, and no label, mark or line of the
 * list lies over another one or over a measured line. */
#ifndef LAPEL_SKETCH_PICTURE_H
#define LAPEL_SKETCH_PICTURE_H

#include "book.h"
#include "lettering.h"

enum {
	PICTURE_WIDTH = 360,
	PICTURE_TAPES_MAX = 2 * TERM_MEASURES_MAX,
	PICTURE_TAPE_POINTS_MAX = 128,
	PICTURE_MARKS_MAX = 2 * RECORD_ENTRIES_MAX
};

/* Not drawn: PICTURE_MARGIN around all. PICTURE_MARK_RADIUS is the disc of a mark. */
#define PICTURE_MARGIN 6.0
#define PICTURE_MARK_RADIUS 8.5

/* A measured line with its label. */
struct picture_tape {
	const char *measure; /* borrowed from the vocabulary or the record */
	char value[48];	     /* "21 1/2 in"; empty without a record */
	bool wanted;	     /* the kind calls for it; otherwise it only helps */
	bool on_back;
	int point_count;
	struct point points[PICTURE_TAPE_POINTS_MAX];
	bool labelled;	  /* there was room for the label; otherwise it is in the list */
	struct box label; /* the name above the value, both in the middle */
	bool has_leader;  /* a thin line from the label to the measured line */
	struct segment leader;
};

struct picture_mark {
	int number;	     /* of the flaw, from 1 */
	bool hidden;	     /* on the back or the inside */
	struct point centre; /* of the disc */
	struct point place;  /* of the part */
	bool has_leader;     /* the disc had to move away from its place */
	struct segment leader;
};

/* A line of the list below the sketch. */
struct legend_line {
	int number; /* of the flaw, before the text; 0: none, or its text goes on */
	bool hidden;
	bool note; /* what the picture means, not what was found */
	char text[LINE_TEXT_MAX];
	struct box box; /* with the number */
};

struct picture {
	const struct vocabulary *vocabulary; /* borrowed */
	const struct sketch *sketch;	     /* borrowed from the book */
	const char *kind;		     /* of the whole item; borrowed from the vocabulary */
	bool of_set;
	int piece; /* of a set: the kind (an index into LIST_KIND) of the piece that is shown; -1:
		      what is of no piece */
	struct picture *below; /* of a set: the next of its pieces, with which the item goes on, or
				  NULL; owned */
	double height;	       /* without those below */
	double scale;	       /* units a centimetre of the sketch */
	struct point origin;   /* where the sketch's (0, 0) lies */
	struct box garment;
	int tape_count, mark_count, line_count;
	struct picture_tape tapes[PICTURE_TAPES_MAX];
	struct picture_mark marks[PICTURE_MARKS_MAX];
	struct legend_line *lines; /* owned */
};

/* As sketch_draw, which see for `kind` and `record`; NULL with the problem. Of a set each piece has
 * a picture of its own, one below another; its flaws keep the numbers that they have in the record.
 * The record has to stay as long as the picture. */
struct picture *picture_create(const struct sketch_book *book, const struct vocabulary *vocabulary,
			       const char *kind, const struct record *record,
			       const struct ruler *ruler, struct problem *problem);
void picture_destroy(struct picture *picture); /* NULL is allowed */

/* With all that are below. */
double picture_whole_height(const struct picture *picture);

/* The piece's name above its picture; NULL when it has none. */
const char *picture_heading(const struct picture *picture);

/* Whether the entry, a measure or a flaw, is of the piece that the picture shows, and what the
 * measure or the flaw's part is called on that: "chest" for "jacket chest". That there are no
 * flaws is shown by the last of the pictures. */
bool picture_shows(const struct picture *picture, const struct entry *entry, const char **name);

/* A point of the sketch, in centimetres, as a point of the picture. */
struct point picture_point(const struct picture *picture, struct point point);

/* The two lines of a label's text start here; the value's is of use only when there is one. */
struct point picture_name_start(const struct picture_tape *tape, const struct ruler *ruler);
struct point picture_value_start(const struct picture_tape *tape, const struct ruler *ruler);

#endif
