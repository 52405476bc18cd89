/* The forms in which records are handed on. */
#ifndef LAPEL_TRADE_EXPORT_FORM_H
#define LAPEL_TRADE_EXPORT_FORM_H

#include "csv_record.h"
#include "writeup.h"

/* What an item is put into a form with. */
struct export_with {
	const struct csv_record_setting *rows;
	const struct writeup_form *writeup_form;
	struct writeup writeup; /* the form's own, used again for each item */
};

struct export_form {
	const char *name; /* of --as */
	const char *file; /* in a folder of an item's own */
	/* Around and between items that stand in one text. */
	const char *opening, *between, *closing;
	/* Adds the line that stands before the first item; NULL: there is none. */
	void (*head)(const struct export_with *with, struct text *to);
	/* Adds the item. `alone`: in a text of its own, with the names of its pictures beside it
	 * (NULL-ended). What of it could not be put in is told in *lacking; the rest is there. */
	void (*item)(struct export_with *with, const struct record *record, bool alone,
		     const char *const *pictures, struct text *to, struct problem *lacking);
};

/* NULL when there is none of that name. */
const struct export_form *export_form_named(const char *name);

/* The asking price under the standing discount; NULL when no price was said. */
const struct money *export_asking(const struct csv_record_setting *rows,
				  const struct record *record, struct money *asking);

void export_with_finish(struct export_with *with);

#endif
