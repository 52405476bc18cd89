#include "book.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void
sketch_free(struct sketch *sketch)
{
	for (int i = 0; i < sketch->stroke_count; i++)
		path_free(&sketch->strokes[i].path);
	for (int i = 0; i < sketch->tape_count; i++)
		path_free(&sketch->tapes[i].path);
	free(sketch->strokes);
	free(sketch->tapes);
	free(sketch->parts);
}

void
sketch_book_destroy(struct sketch_book *book)
{
	if (book == NULL)
		return;
	for (int i = 0; i < book->sketch_count; i++)
		sketch_free(&book->sketches[i]);
	free(book->sketches);
	free(book->hows);
	free(book);
}

const struct sketch *
sketch_find(const struct sketch_book *book, const char *kind)
{
	for (int i = 0; i < book->sketch_count; i++)
		if (strcmp(book->sketches[i].kind, kind) == 0)
			return &book->sketches[i];
	return NULL;
}

const struct part *
part_find(const struct sketch *sketch, const char *name)
{
	for (int i = 0; i < sketch->part_count; i++)
		if (strcmp(sketch->parts[i].name, name) == 0)
			return &sketch->parts[i];
	return NULL;
}

const struct tape *
tape_find(const struct sketch *sketch, const char *measure)
{
	for (int i = 0; i < sketch->tape_count; i++)
		if (strcmp(sketch->tapes[i].measure, measure) == 0)
			return &sketch->tapes[i];
	return NULL;
}

double
sketch_edge_distance(const struct sketch *sketch, struct point point)
{
	double nearest = HUGE_VAL;
	for (int i = 0; i < sketch->stroke_count; i++)
		if (sketch->strokes[i].type == STROKE_EDGE)
			nearest = fmin(nearest, path_distance(&sketch->strokes[i].path, point));
	return nearest;
}

const char *
measure_without_side(const char *measure, enum side *side)
{
	static const enum side sides[] = {SIDE_LEFT, SIDE_RIGHT};
	for (size_t i = 0; i < sizeof sides / sizeof sides[0]; i++) {
		size_t length = strlen(side_name(sides[i]));
		*side = sides[i];
		if (strncmp(measure, side_name(sides[i]), length) == 0 && measure[length] == ' ')
			return measure + length + 1;
	}
	*side = SIDE_UNSAID;
	return measure;
}

static const char *
how_of(const struct sketch_book *book, const char *measure, const char *kind)
{
	const char *any = NULL;
	for (int i = 0; i < book->how_count; i++) {
		const struct how *how = &book->hows[i];
		if (strcmp(how->measure, measure) != 0)
			continue;
		if (kind != NULL && strcmp(how->kind, kind) == 0)
			return how->text;
		if (how->kind[0] == '\0')
			any = how->text;
	}
	return any;
}

const char *
sketch_how(const struct sketch_book *book, const char *measure, const char *kind)
{
	enum side side;
	const char *how = how_of(book, measure, kind);
	return how != NULL ? how : how_of(book, measure_without_side(measure, &side), kind);
}
