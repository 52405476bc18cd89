#include "export_folder.h"

#include <assert.h>
#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PICTURE_WIDTH_PX = 1080 };

static const struct {
	const char *file;
	enum sketch_form form;
} picture_files[] = {{"picture.svg", SKETCH_SVG}, {"picture.png", SKETCH_PNG}};

static_assert(sizeof picture_files / sizeof *picture_files == PICTURES, "a text for each");

static bool
make_folder(const char *path, struct problem *problem)
{
	struct stat status;
	if (mkdir(path, 0777) == 0 ||
	    (errno == EEXIST && stat(path, &status) == 0 && S_ISDIR(status.st_mode)))
		return true;
	return problem_say(problem, "the folder %s cannot be made: %s", path, strerror(errno));
}

/* Under another name first, so that nobody finds half a file. */
static bool
write_file(const char *path, const struct text *text, struct problem *problem)
{
	char part[PATH_MAX + 64];
	snprintf(part, sizeof part, "%s.part", path);
	FILE *file = fopen(part, "we");
	bool written =
		file != NULL && fwrite(text_chars(text), 1, text->length, file) == text->length;
	written = file != NULL && fclose(file) == 0 && written;
	if (written && rename(part, path) == 0)
		return true;
	problem_say(problem, "%s cannot be written: %s", path, strerror(errno));
	if (file != NULL)
		unlink(part);
	return false;
}

/* An item's number as the name of a folder: other letters than those of numbers and names could
 * go anywhere. */
static void
folder_name(const struct record *record, char *name, size_t size)
{
	const struct entry *number = record_slot(record, CALL_ITEM);
	if (number == NULL) {
		snprintf(name, size, "unnumbered-%lld", (long long)record->item);
		return;
	}
	snprintf(name, size, "%s", number->said.label);
	for (char *c = name; *c != '\0'; c++)
		if (!((*c >= '0' && *c <= '9') || (*c >= 'a' && *c <= 'z')))
			*c = '-';
}

static bool
take_picture(void *to, const void *bytes, size_t count)
{
	struct text *picture = to;
	text_add_bytes(picture, bytes, count);
	return !picture->failed;
}

/* Draws the pictures. A kind without a sketch, and an item without a kind, have none; the first is
 * told, once for each kind in turn. */
static bool
draw_pictures(struct export_folder *folder, const struct record *record)
{
	struct problem why = {""};
	const struct entry *kind = record_slot(record, CALL_KIND);
	bool drawn = kind != NULL && !kind->said.other;

	for (int i = 0; drawn && i < PICTURES; i++) {
		text_cut(&folder->pictures[i], 0);
		drawn = sketch_draw(folder->sketches, folder->with->rows->vocabulary, NULL, record,
				    picture_files[i].form, PICTURE_WIDTH_PX, picture_files[i].file,
				    take_picture, &folder->pictures[i], &why);
	}
	if (drawn || why.text[0] == '\0' || strcmp(folder->told, kind->said.name) == 0)
		return drawn;
	fprintf(stderr, "lapel: %s: no picture: %s\n", kind->said.name, why.text);
	snprintf(folder->told, sizeof folder->told, "%s", kind->said.name);
	return false;
}

static bool
write_pictures(struct export_folder *folder, const char *path, struct problem *problem)
{
	char file[PATH_MAX + 32];
	for (int i = 0; i < PICTURES; i++) {
		snprintf(file, sizeof file, "%s/%s", path, picture_files[i].file);
		if (!write_file(file, &folder->pictures[i], problem))
			return false;
	}
	return true;
}

bool
export_folder_open(struct export_folder *folder, struct problem *problem)
{
	return make_folder(folder->path, problem);
}

void
export_folder_finish(struct export_folder *folder)
{
	text_finish(&folder->text);
	for (int i = 0; i < PICTURES; i++)
		text_finish(&folder->pictures[i]);
}

bool
export_folder_item(struct export_folder *folder, const struct record *record,
		   struct problem *lacking, struct problem *problem)
{
	const char *names[PICTURES + 1] = {NULL};
	char name[64], path[PATH_MAX], file[PATH_MAX + 32];
	struct text *text = &folder->text;

	folder_name(record, name, sizeof name);
	if (snprintf(path, sizeof path, "%s/%s", folder->path, name) >= (int)sizeof path)
		return problem_say(problem, "the path %.100s... is too long", folder->path);
	bool pictured = draw_pictures(folder, record);
	for (int i = 0; pictured && i < PICTURES; i++)
		names[i] = picture_files[i].file;
	text_cut(text, 0);
	if (folder->form->head != NULL)
		folder->form->head(folder->with, text);
	folder->form->item(folder->with, record, true, names, text, lacking);
	if (text->failed)
		return problem_say(problem, "the memory is full");
	snprintf(file, sizeof file, "%s/%s", path, folder->form->file);
	return make_folder(path, problem) && write_file(file, text, problem) &&
	       (!pictured || write_pictures(folder, path, problem));
}
