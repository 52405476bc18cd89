/* The reader of the table of sketches: a row at a time, into the sketch that was begun last. */
#include "book.h"
#include "table.h"

#include <stdlib.h>
#include <string.h>

struct reader {
	struct sketch_book *book;
	struct table table;
	struct sketch *sketch;	  /* the one at hand, or NULL; moves when another is added */
	char like[CALL_NAME_MAX]; /* the kind that it is drawn like, or empty */
};

static bool
no_memory(struct reader *reader)
{
	return table_refuse(&reader->table, "there is no memory left for it");
}

/* The array with room for one more item of `size` bytes behind the `count` that it holds, all zero;
 * NULL, with the array as it was, when there is no memory. One by one: a book is read once. */
static void *
array_more(struct reader *reader, void *array, int count, size_t size)
{
	char *larger = realloc(array, (size_t)(count + 1) * size);
	if (larger == NULL)
		no_memory(reader);
	else
		memset(larger + (size_t)count * size, 0, size);
	return larger;
}

static struct stroke *
stroke_add(struct reader *reader, enum stroke_type type)
{
	struct sketch *sketch = reader->sketch;
	struct stroke *strokes =
		array_more(reader, sketch->strokes, sketch->stroke_count, sizeof *strokes);
	if (strokes == NULL)
		return NULL;
	sketch->strokes = strokes;
	strokes[sketch->stroke_count].type = type;
	return &strokes[sketch->stroke_count++];
}

static struct tape *
tape_add(struct reader *reader)
{
	struct sketch *sketch = reader->sketch;
	struct tape *tapes = array_more(reader, sketch->tapes, sketch->tape_count, sizeof *tapes);
	if (tapes == NULL)
		return NULL;
	sketch->tapes = tapes;
	return &tapes[sketch->tape_count++];
}

static struct part *
part_add(struct reader *reader)
{
	struct sketch *sketch = reader->sketch;
	struct part *parts = array_more(reader, sketch->parts, sketch->part_count, sizeof *parts);
	if (parts == NULL)
		return NULL;
	sketch->parts = parts;
	return &parts[sketch->part_count++];
}

static bool
name_keep(struct reader *reader, char *to, size_t size, const char *name)
{
	if (name[0] == '\0')
		return table_refuse(&reader->table, "a name is empty");
	if (strlen(name) >= size)
		return table_refuse(&reader->table, "\"%s\" is longer than %d letters", name,
				    (int)size - 1);
	strcpy(to, name);
	return true;
}

static bool
has_strokes(const struct sketch *sketch, enum stroke_type type)
{
	for (int i = 0; i < sketch->stroke_count; i++)
		if (sketch->strokes[i].type == type)
			return true;
	return false;
}

static bool
stroke_copy(struct reader *reader, const struct stroke *stroke)
{
	struct stroke *copy = stroke_add(reader, stroke->type);
	if (copy == NULL)
		return false;
	copy->button = stroke->button;
	return stroke->path.count == 0 || path_copy(&copy->path, &stroke->path) ||
	       no_memory(reader);
}

static bool
tape_copy(struct reader *reader, const struct tape *tape)
{
	struct tape *copy = tape_add(reader);
	if (copy == NULL)
		return false;
	*copy = *tape;
	return path_copy(&copy->path, &tape->path) || no_memory(reader);
}

static bool
part_copy(struct reader *reader, const struct part *part)
{
	struct part *copy = part_add(reader);
	if (copy == NULL)
		return false;
	*copy = *part;
	return true;
}

/* Ends the sketch at hand: it gets from the one that it is like all that it did not say itself. */
static bool
sketch_finish(struct reader *reader)
{
	struct sketch *sketch = reader->sketch;
	const struct sketch *like = sketch_find(reader->book, reader->like);
	bool good = true;
	bool own[STROKE_BUTTON + 1];

	if (sketch == NULL || like == NULL)
		return true;
	for (int type = STROKE_EDGE; type <= STROKE_BUTTON; type++)
		own[type] = has_strokes(sketch, (enum stroke_type)type);
	for (int i = 0; good && i < like->stroke_count; i++)
		if (!own[like->strokes[i].type])
			good = stroke_copy(reader, &like->strokes[i]);
	for (int i = 0; good && i < like->tape_count; i++)
		if (tape_find(sketch, like->tapes[i].measure) == NULL)
			good = tape_copy(reader, &like->tapes[i]);
	for (int i = 0; good && i < like->part_count; i++)
		if (part_find(sketch, like->parts[i].name) == NULL)
			good = part_copy(reader, &like->parts[i]);
	return good;
}

/* sketch | KIND | LIKE */
static bool
sketch_row(struct reader *reader, int which, bool qualified)
{
	struct sketch_book *book = reader->book;
	const char *kind = reader->table.columns[1], *like = reader->table.columns[2];

	if (!sketch_finish(reader))
		return false;
	if (sketch_find(book, kind) != NULL)
		return table_refuse(&reader->table, "there is a sketch of \"%s\" already", kind);
	if (like[0] != '\0' && sketch_find(book, like) == NULL)
		return table_refuse(&reader->table, "there is no sketch of \"%s\" above this line",
				    like);
	strcpy(reader->like, like); /* fits: it is the name of a sketch */
	struct sketch *sketches =
		array_more(reader, book->sketches, book->sketch_count, sizeof *sketches);
	if (sketches == NULL)
		return false;
	book->sketches = sketches;
	reader->sketch = &sketches[book->sketch_count++];
	return name_keep(reader, reader->sketch->kind, sizeof reader->sketch->kind, kind);
}

/* Half a line becomes a whole one: a shape that begins and ends in the middle is joined with its
 * mirror image, anything else gets a mirror image of its own. Owns *path. */
static bool
half_keep(struct reader *reader, enum stroke_type type, struct path *path)
{
	bool shape = type == STROKE_EDGE || type == STROKE_INSIDE;
	struct stroke *stroke = stroke_add(reader, type);
	if (stroke == NULL) {
		path_free(path);
		return false;
	}
	if (shape && path_begin(path).x == 0 && path_end(path).x == 0) {
		bool good = path_join_mirror(&stroke->path, path);
		path_free(path);
		return good || no_memory(reader);
	}
	stroke->path = *path;
	struct stroke *other = stroke_add(reader, type);
	if (other == NULL)
		return false;
	/* Adding it may have moved the first. */
	return path_mirror(&other->path, &other[-1].path) || no_memory(reader);
}

/* edge, inside, seam, stitch [once] | PATHS */
static bool
line_row(struct reader *reader, int which, bool once)
{
	const char *rest = reader->table.columns[1], *wrong;
	do {
		struct path path;
		if (!path_read(&path, &rest, &wrong))
			return table_refuse(&reader->table, "the path %s", wrong);
		if (!once) {
			if (!half_keep(reader, (enum stroke_type)which, &path))
				return false;
			continue;
		}
		struct stroke *stroke = stroke_add(reader, (enum stroke_type)which);
		if (stroke == NULL) {
			path_free(&path);
			return false;
		}
		stroke->path = path;
	} while (*rest != '\0');
	return true;
}

/* button | X Y, X Y */
static bool
button_row(struct reader *reader, int which, bool qualified)
{
	const char *rest = reader->table.columns[1];
	do {
		struct stroke *stroke = stroke_add(reader, STROKE_BUTTON);
		if (stroke == NULL)
			return false;
		if (!path_point_read(&stroke->button, &rest))
			return table_refuse(&reader->table, "a button wants two numbers");
		rest += strspn(rest, " ,");
	} while (*rest != '\0');
	return true;
}

/* tape [back] | MEASURE | PATH */
static bool
tape_row(struct reader *reader, int which, bool on_back)
{
	struct sketch *sketch = reader->sketch;
	const char *measure = reader->table.columns[1];
	const char *rest = reader->table.columns[2], *wrong;

	if (tape_find(sketch, measure) != NULL)
		return table_refuse(&reader->table, "there is a tape for \"%s\" already", measure);
	struct tape *tape = tape_add(reader);
	if (tape == NULL)
		return false;
	tape->on_back = on_back;
	if (!name_keep(reader, tape->measure, sizeof tape->measure, measure))
		return false;
	if (!path_read(&tape->path, &rest, &wrong))
		return table_refuse(&reader->table, "the path %s", wrong);
	return *rest == '\0' || table_refuse(&reader->table, "a tape is one path only");
}

/* "pocket 6 10" */
static bool
part_read(struct reader *reader, struct part *part, char *text)
{
	size_t length = strcspn(text, "-0123456789");
	const char *place = text + length;
	if (!path_point_read(&part->at, &place) || place[strspn(place, " ")] != '\0')
		return table_refuse(&reader->table, "\"%s\" has to be a part and two numbers",
				    text);
	while (length > 0 && text[length - 1] == ' ')
		length--;
	text[length] = '\0';
	return name_keep(reader, part->name, sizeof part->name, text);
}

/* pair, across, once | PART X Y, PART X Y */
static bool
part_row(struct reader *reader, int which, bool qualified)
{
	char *rest = reader->table.columns[1];
	while (rest != NULL) {
		struct part part = {.way = (enum part_way)which};
		char *text = rest + strspn(rest, " ");
		rest = strchr(rest, ',');
		if (rest != NULL)
			*rest++ = '\0';
		if (!part_read(reader, &part, text))
			return false;
		if (part_find(reader->sketch, part.name) != NULL)
			return table_refuse(&reader->table, "the part \"%s\" has a place already",
					    part.name);
		struct part *added = part_add(reader);
		if (added == NULL)
			return false;
		*added = part;
	}
	return true;
}

static bool
how_keep(struct reader *reader, const char *kind)
{
	struct sketch_book *book = reader->book;
	const char *measure = reader->table.columns[1], *text = reader->table.columns[3];

	for (int i = 0; i < book->how_count; i++)
		if (strcmp(book->hows[i].measure, measure) == 0 &&
		    strcmp(book->hows[i].kind, kind) == 0)
			return table_refuse(&reader->table, "how \"%s\" is taken is said already",
					    measure);
	struct how *hows = array_more(reader, book->hows, book->how_count, sizeof *hows);
	if (hows == NULL)
		return false;
	book->hows = hows;
	struct how *how = &hows[book->how_count++];
	return name_keep(reader, how->measure, sizeof how->measure, measure) &&
	       (kind[0] == '\0' || name_keep(reader, how->kind, sizeof how->kind, kind)) &&
	       name_keep(reader, how->text, sizeof how->text, text);
}

/* how | MEASURE | KIND, KIND | TEXT */
static bool
how_row(struct reader *reader, int which, bool qualified)
{
	char *kinds = reader->table.columns[2];
	do {
		char *kind = kinds + strspn(kinds, " ");
		char *comma = strchr(kind, ',');
		kinds = comma == NULL ? NULL : comma + 1;
		if (comma != NULL)
			*comma = '\0';
		if (!how_keep(reader, kind))
			return false;
	} while (kinds != NULL);
	return true;
}

static const struct row {
	const char *word;
	const char *qualifier; /* a word that may follow it, or NULL */
	int columns;	       /* at most; of a line that belongs to a sketch, exactly */
	bool of_sketch;	       /* belongs to the sketch at hand */
	bool (*read)(struct reader *reader, int which, bool qualified);
	int which; /* enum stroke_type or enum part_way */
} ROWS[] = {
	{"sketch", NULL, 3, false, sketch_row, 0},
	{"edge", "once", 2, true, line_row, STROKE_EDGE},
	{"inside", "once", 2, true, line_row, STROKE_INSIDE},
	{"seam", "once", 2, true, line_row, STROKE_SEAM},
	{"stitch", "once", 2, true, line_row, STROKE_STITCH},
	{"button", NULL, 2, true, button_row, 0},
	{"tape", "back", 3, true, tape_row, 0},
	{"pair", NULL, 2, true, part_row, PART_PAIR},
	{"across", NULL, 2, true, part_row, PART_ACROSS},
	{"once", NULL, 2, true, part_row, PART_ONCE},
	{"how", NULL, 4, false, how_row, 0},
};

static bool
row_read(struct reader *reader)
{
	const char *word = reader->table.columns[0];
	size_t length = strcspn(word, " ");
	const char *qualifier = word[length] == ' ' ? word + length + 1 : NULL;

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct row *row = &ROWS[i];
		if (strncmp(row->word, word, length) != 0 || row->word[length] != '\0')
			continue;
		if (qualifier != NULL &&
		    (row->qualifier == NULL || strcmp(row->qualifier, qualifier) != 0))
			break;
		if (row->of_sketch && reader->sketch == NULL)
			return table_refuse(&reader->table,
					    "\"%s\" comes before the first \"sketch | KIND\"",
					    word);
		if (reader->table.count > row->columns ||
		    (row->of_sketch && reader->table.count < row->columns))
			return table_refuse(&reader->table, "\"%s\" has to have %d columns", word,
					    row->columns);
		return row->read(reader, row->which, qualifier != NULL);
	}
	return table_refuse(&reader->table,
			    "\"%s\" has to be sketch, edge, inside, seam, stitch, button, tape, "
			    "pair, across, once or how",
			    word);
}

struct sketch_book *
sketch_book_read(const char *file, const char *text, struct problem *problem)
{
	struct reader reader = {.book = calloc(1, sizeof *reader.book)};
	bool good = true;

	if (reader.book == NULL) {
		problem_say(problem, "%s: there is no memory left to read it", file);
		return NULL;
	}
	table_start(&reader.table, file, text, problem);
	while (good && table_next(&reader.table))
		good = row_read(&reader);
	if (good && !reader.table.failed && sketch_finish(&reader))
		return reader.book;
	sketch_book_destroy(reader.book);
	return NULL;
}
