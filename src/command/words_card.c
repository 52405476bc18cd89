/* The card: all that may be said, on one page. */
#include "words_card.h"

#include <cairo-pdf.h>
#include <stdio.h>
#include <string.h>

/* A4 (ISO 216: 210 x 297 mm) in points of 1/72 in. */
#define WIDTH_PT (210 / 25.4 * 72)
#define HEIGHT_PT (297 / 25.4 * 72)
#define MARGIN_PT 34.0
#define GUTTER_PT 16.0
#define COLUMNS 3
#define COLUMN_PT ((WIDTH_PT - 2 * MARGIN_PT - (COLUMNS - 1) * GUTTER_PT) / COLUMNS)
#define LETTERS_MOST_PT 10.0
#define LETTERS_LEAST_PT 4.0

/* Words in capitals stand for one of a list, or for a number. */
static const struct {
	const char *head, *text;
} calls[] = {
	{"measures", "[left or right] MEASURE LENGTH [inches or centimetres]; MEASURE none"},
	{"lengths", "twenty one and a half; nine and three eighths; half an inch; ten point five"},
	{"flaws", "flaw [small or large] FLAW [LENGTH, or times NUMBER] [left or right] [front, "
		  "back, inside or "
		  "outside] [PART]; flaw none"},
	{"number, place", "item NUMBER; bin NUMBER"},
	{"facts", "kind KIND; maker MAKER; size TAG; colour COLOUR; cloth PERCENT FIBRE, and more; "
		  "pilling GRADE; colour change GRADE; weight WEIGHT; cost MONEY; price MONEY; "
		  "parcel PARCEL; route ROUTE; group GROUP; care CARE, and more"},
	{"children's sizes", "size six to seven years; size twelve months; size one sixteen "
			     "centimetres"},
	{"sets", "kind set, then part KIND before what is said of each of its pieces"},
	{"mending", "mending MEND [thirty minutes], and more, [materials MONEY]"},
	{"for every item", "keep bin NUMBER, keep maker MAKER and so on; keep nothing"},
	{"on no list", "maker other, flaw other and so on, then the word; maker spell hotel alfa "
		       "lima"},
	{"note", "note, then anything; the pedal ends it"},
	{"orders",
	 "next; previous; repeat; strike that; strike MEASURE; strike flaw PART; restore; read it "
	 "all; what is missing; where am I; open item NUMBER; set aside; these belong to item "
	 "NUMBER; ask me; stop asking; pause; resume; hand over to PERSON; help [measures, flaws, "
	 "parts, kinds or orders]"},
	{"corrections", "twenty one, no, twenty two; no, twenty two"},
	{"when asked", "first; second; yes; no; or say it again"},
	{"pedal", "tap: next. Twice: repeat. Half a second: strike that. Two seconds: pause or "
		  "resume"},
};

static const struct {
	const char *head;
	enum list list;
} lists[] = {
	{"KIND", LIST_KIND},	 {"MEASURE", LIST_MEASURE}, {"FLAW", LIST_FLAW},
	{"PART", LIST_PART},	 {"COLOUR", LIST_COLOUR},   {"FIBRE", LIST_FIBRE},
	{"TAG", LIST_TAG},	 {"MAKER", LIST_MAKER},	    {"ROUTE", LIST_ROUTE},
	{"PARCEL", LIST_PARCEL}, {"PERSON", LIST_PERSON},   {"BIN", LIST_BIN},
	{"GROUP", LIST_GROUP},	 {"CARE", LIST_CARE},	    {"MEND", LIST_MEND},
};

struct card {
	cairo_t *cairo;
	double letters_pt;
	bool drawing; /* else only how far it would reach */
	int column;
	double y;
};

static double
line_pt(const struct card *card)
{
	return 1.25 * card->letters_pt;
}

static void
set_letters(struct card *card, bool strong, double size_pt)
{
	cairo_select_font_face(card->cairo, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
			       strong ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
	cairo_set_font_size(card->cairo, size_pt);
}

static void
show_line(struct card *card, const char *text)
{
	if (card->y + line_pt(card) > HEIGHT_PT - MARGIN_PT) {
		card->column++;
		card->y = MARGIN_PT + 2 * LETTERS_MOST_PT;
	}
	card->y += line_pt(card);
	if (!card->drawing || card->column >= COLUMNS)
		return;
	cairo_move_to(card->cairo, MARGIN_PT + card->column * (COLUMN_PT + GUTTER_PT), card->y);
	cairo_show_text(card->cairo, text);
}

/* Adds a word to the line; the line goes out first when the two do not fit in a column. */
static void
add_word(struct card *card, char *line, size_t size, const char *word)
{
	char longer[512];
	cairo_text_extents_t extents;
	snprintf(longer, sizeof longer, "%s%s%s", line, line[0] != '\0' ? " " : "", word);
	cairo_text_extents(card->cairo, longer, &extents);
	if (line[0] != '\0' && extents.x_advance > COLUMN_PT) {
		show_line(card, line);
		snprintf(line, size, "%s", word);
	} else {
		snprintf(line, size, "%s", longer);
	}
}

static void
show_text(struct card *card, const char *text)
{
	char line[512] = "", word[128];
	int used;
	for (; sscanf(text, "%127s%n", word, &used) == 1; text += used)
		add_word(card, line, sizeof line, word);
	if (line[0] != '\0')
		show_line(card, line);
}

static void
show_head(struct card *card, const char *head)
{
	card->y += 0.4 * line_pt(card);
	set_letters(card, true, card->letters_pt);
	show_line(card, head);
	set_letters(card, false, card->letters_pt);
}

static void
show_list(struct card *card, const struct vocabulary *vocabulary, enum list list)
{
	char line[512] = "", entry[160];
	int count = vocabulary_count(vocabulary, list);
	for (int i = 0; i < count; i++) {
		snprintf(entry, sizeof entry, "%s%s", vocabulary_term(vocabulary, list, i)->name,
			 i + 1 < count ? "," : "");
		add_word(card, line, sizeof line, entry);
	}
	if (line[0] != '\0')
		show_line(card, line);
}

/* Whether all of it is on the page. */
static bool
show_all(struct card *card, const struct vocabulary *vocabulary)
{
	card->column = 0;
	card->y = MARGIN_PT + 2 * LETTERS_MOST_PT;
	for (size_t i = 0; i < sizeof calls / sizeof *calls; i++) {
		show_head(card, calls[i].head);
		show_text(card, calls[i].text);
	}
	for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
		if (vocabulary_count(vocabulary, lists[i].list) == 0)
			continue;
		show_head(card, lists[i].head);
		show_list(card, vocabulary, lists[i].list);
	}
	return card->column < COLUMNS;
}

bool
words_card(const struct vocabulary *vocabulary, const char *path, struct problem *problem)
{
	/* The file is tried first: cairo would only say that something could not be written. */
	FILE *file = fopen(path, "wbe");
	if (file == NULL || fclose(file) != 0)
		return problem_say(problem, "%s: cannot be written", path);
	cairo_surface_t *surface = cairo_pdf_surface_create(path, WIDTH_PT, HEIGHT_PT);
	/* A day that does not pass: the same lists give the same bytes. */
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
				       "2000-01-01T00:00:00Z");
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, "What may be said");
	struct card card = {.cairo = cairo_create(surface), .letters_pt = LETTERS_MOST_PT};
	while (!show_all(&card, vocabulary) && card.letters_pt > LETTERS_LEAST_PT)
		card.letters_pt -= 0.1;
	bool fits = show_all(&card, vocabulary);
	set_letters(&card, true, 1.6 * LETTERS_MOST_PT);
	cairo_move_to(card.cairo, MARGIN_PT, MARGIN_PT + LETTERS_MOST_PT);
	cairo_show_text(card.cairo, "What may be said");
	card.drawing = true;
	show_all(&card, vocabulary);
	cairo_show_page(card.cairo);
	bool drawn = cairo_status(card.cairo) == CAIRO_STATUS_SUCCESS;
	cairo_destroy(card.cairo);
	cairo_surface_finish(surface);
	drawn = drawn && cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS;
	cairo_surface_destroy(surface);
	if (!drawn)
		return problem_say(problem, "%s: cannot be written: is the disk full?", path);
	if (!fits)
		return problem_say(problem,
				   "%s: the lists are too long for one page that can be read; it "
				   "ends where the page does",
				   path);
	return true;
}
