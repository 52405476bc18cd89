/* The sheet that shows where each measure is taken: kind after kind, in columns on A4. */
#include "draw.h"
#include "output.h"

#include <cairo-pdf.h>
#include <math.h>
#include <string.h>

/* A4 (ISO 216: 210 x 297 mm) in points of 1/72 in, and one unit of a picture on it: two columns of
 * pictures, a gap between them and a margin around. */
#define PAGE_WIDTH_PT (210 / 25.4 * 72)
#define PAGE_HEIGHT_PT (297 / 25.4 * 72)
#define UNIT_PT 0.7
#define MARGIN 44.0
#define GAP (PAGE_WIDTH_PT / UNIT_PT - 2 * MARGIN - 2 * PICTURE_WIDTH)
#define BOTTOM (PAGE_HEIGHT_PT / UNIT_PT - MARGIN)
/* Below a kind. */
#define BELOW 30.0
/* Between lines of text. */
#define LEADING 1.0
/* The second line of a caption starts further in. */
#define INDENT 12.0

static const char TITLE[] = "Where to measure";
static const char INTRODUCTION[] =
	"Lay the garment flat, face up and fastened, smoothed but not stretched. Left and right "
	"are "
	"the wearer's. Dashed lines are taken on the back. What stands in bold is asked for; the "
	"rest helps a buyer. Widths are taken flat, from edge to edge, and are not doubled.";

struct sheet {
	const struct sketch_book *book;
	const struct vocabulary *vocabulary;
	const struct ruler *ruler;
	cairo_t *cairo;
	double top; /* of the columns on this page */
	double y;
	int column;	/* 0 or 1 */
	bool measuring; /* only goes down as far as what would be written */
};

static double
column_left(const struct sheet *sheet)
{
	return MARGIN + sheet->column * (PICTURE_WIDTH + GAP);
}

/* Goes to the next column or page where less than `height` is left in this one. */
static void
make_room(struct sheet *sheet, double height)
{
	if (sheet->measuring || sheet->y + height <= BOTTOM || sheet->y == sheet->top)
		return;
	if (sheet->column == 1) {
		cairo_show_page(sheet->cairo);
		sheet->top = MARGIN;
	}
	sheet->column = 1 - sheet->column;
	sheet->y = sheet->top;
}

static void
write_at(struct sheet *sheet, enum lettering lettering, double left, const char *text)
{
	if (!sheet->measuring)
		text_draw(sheet->cairo, lettering,
			  (struct point){left, sheet->y + lettering_base(lettering)}, text);
}

/* A line of the text at the height in hand; *text goes on to what is left of it. */
static void
write_line(struct sheet *sheet, enum lettering lettering, double left, double width,
	   const char **text)
{
	char line[LINE_TEXT_MAX];
	size_t fit = ruler_fit(sheet->ruler, lettering, *text, width);
	memcpy(line, *text, fit);
	line[fit] = '\0';
	*text += fit;
	*text += strspn(*text, " ");
	write_at(sheet, lettering, left, line);
	sheet->y += lettering_line(lettering) + LEADING;
}

/* "chest   straight across at the bottom of the armholes": the name, and how behind it. */
static void
write_caption(struct sheet *sheet, const char *kind, const char *measure, bool wanted)
{
	enum lettering name = wanted ? LETTERING_STRONG : LETTERING_CAPTION;
	const char *how = sketch_how(sheet->book, measure, kind);
	double line = lettering_line(LETTERING_CAPTION) + LEADING;
	double indent = ruler_width(sheet->ruler, name, measure) + 8;

	make_room(sheet, line);
	write_at(sheet, name, column_left(sheet), measure);
	if (how == NULL)
		how = "";
	do {
		make_room(sheet, line);
		write_line(sheet, LETTERING_CAPTION, column_left(sheet) + indent,
			   PICTURE_WIDTH - indent, &how);
		indent = INDENT;
	} while (*how != '\0');
}

static void
write_kind(struct sheet *sheet, const struct term *kind, const struct picture *picture)
{
	const char *none = "There is no sketch of it.", *name = kind->name;

	write_line(sheet, LETTERING_TITLE, column_left(sheet), PICTURE_WIDTH, &name);
	sheet->y += 5;
	if (picture == NULL) {
		write_line(sheet, LETTERING_CAPTION, column_left(sheet), PICTURE_WIDTH, &none);
	} else if (!sheet->measuring) {
		cairo_save(sheet->cairo);
		cairo_translate(sheet->cairo, column_left(sheet), sheet->y);
		picture_draw(picture, sheet->ruler, sheet->cairo);
		cairo_restore(sheet->cairo);
	}
	if (picture != NULL)
		sheet->y += picture->height + 4;
	for (int i = 0; i < kind->wanted_count + kind->helpful_count; i++) {
		bool wanted = i < kind->wanted_count;
		int index = wanted ? kind->wanted[i] : kind->helpful[i - kind->wanted_count];
		write_caption(sheet, kind->name,
			      vocabulary_term(sheet->vocabulary, LIST_MEASURE, index)->name,
			      wanted);
	}
}

/* The kind in one piece, if a column is high enough. */
static void
write_kind_whole(struct sheet *sheet, const struct term *kind, const struct picture *picture)
{
	double before = sheet->y;
	sheet->measuring = true;
	write_kind(sheet, kind, picture);
	sheet->measuring = false;
	double height = sheet->y - before;
	sheet->y = before;
	make_room(sheet, height);
	write_kind(sheet, kind, picture);
	sheet->y += BELOW;
}

static void
write_introduction(struct sheet *sheet)
{
	const char *title = TITLE, *text = INTRODUCTION;
	double width = 2 * PICTURE_WIDTH + GAP;
	write_line(sheet, LETTERING_TITLE, MARGIN, width, &title);
	sheet->y += 4;
	while (*text != '\0')
		write_line(sheet, LETTERING_CAPTION, MARGIN, width, &text);
	sheet->top = sheet->y += 16;
}

static bool
sheet_write(struct sheet *sheet, struct problem *problem)
{
	int count = vocabulary_count(sheet->vocabulary, LIST_KIND);

	write_introduction(sheet);
	for (int i = 0; i < count; i++) {
		const struct term *kind = vocabulary_term(sheet->vocabulary, LIST_KIND, i);
		struct picture *picture = NULL;
		/* Of a set the pieces are measured, each as the kind that it is. */
		if (kind->wanted_count + kind->helpful_count == 0)
			continue;
		if (sketch_find(sheet->book, kind->name) != NULL) {
			picture = picture_create(sheet->book, sheet->vocabulary, kind->name, NULL,
						 sheet->ruler, problem);
			if (picture == NULL)
				return false;
		}
		write_kind_whole(sheet, kind, picture);
		picture_destroy(picture);
	}
	cairo_show_page(sheet->cairo);
	return true;
}

/* All of the sheet into `output`, which the caller frees in any case. */
static bool
sheet_draw(const struct sketch_book *book, const struct vocabulary *vocabulary,
	   struct output *output, struct problem *problem)
{
	struct ruler *ruler = ruler_create();
	if (ruler == NULL)
		return problem_say(problem, "there is no memory left for the sheet");
	cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
		output_take, output, PAGE_WIDTH_PT, PAGE_HEIGHT_PT);
	/* A day that does not pass: the same lists give the same bytes. */
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
				       "2000-01-01T00:00:00Z");
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, TITLE);
	struct sheet sheet = {.book = book,
			      .vocabulary = vocabulary,
			      .ruler = ruler,
			      .cairo = cairo_create(surface),
			      .top = MARGIN,
			      .y = MARGIN};
	cairo_scale(sheet.cairo, UNIT_PT, UNIT_PT);
	bool good =
		sheet_write(&sheet, problem) && cairo_went_well(cairo_status(sheet.cairo), problem);
	cairo_destroy(sheet.cairo);
	cairo_surface_finish(surface);
	good = good && cairo_went_well(cairo_surface_status(surface), problem);
	cairo_surface_destroy(surface);
	ruler_destroy(ruler);
	return good;
}

bool
sketch_sheet(const struct sketch_book *book, const struct vocabulary *vocabulary, const char *name,
	     sketch_writer *write, void *to, struct problem *problem)
{
	struct output output = {0};
	bool good = sheet_draw(book, vocabulary, &output, problem) &&
		    output_pass(&output, name, write, to, problem);
	output_free(&output);
	return good;
}

bool
sketch_sheet_file(const struct sketch_book *book, const struct vocabulary *vocabulary,
		  const char *path, struct problem *problem)
{
	struct output output = {0};
	bool good = sheet_draw(book, vocabulary, &output, problem) &&
		    output_save(&output, path, problem);
	output_free(&output);
	return good;
}
