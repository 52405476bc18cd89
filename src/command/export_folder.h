/* A folder for each item, with its pictures. */
#ifndef LAPEL_COMMAND_EXPORT_FOLDER_H
#define LAPEL_COMMAND_EXPORT_FOLDER_H

#include "export_form.h"
#include "sketch.h"

enum { PICTURES = 2 };

struct export_folder {
	const char *path; /* the folders are made in it; it is made if it is not there */
	const struct export_form *form;
	struct export_with *with;
	const struct sketch_book *sketches;
	/* Its own. */
	struct text text, pictures[PICTURES];
	char told[CALL_NAME_MAX]; /* the kind of which it was last told that it has no picture */
};

bool export_folder_open(struct export_folder *folder, struct problem *problem);
void export_folder_finish(struct export_folder *folder);

/* Writes PATH/NUMBER/ (an item without a number: PATH/unnumbered-ROW/): the form's file, and, where
 * the kind has a sketch, picture.svg and picture.png. Files that are there are replaced, each whole
 * or not at all. False when one could not be written. What of the item could not be put into the
 * form is told in *lacking. */
bool export_folder_item(struct export_folder *folder, const struct record *record,
			struct problem *lacking, struct problem *problem);

#endif
