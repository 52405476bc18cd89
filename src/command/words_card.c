/* The card: all that may be said, on one page. */
#include "words_card.h"

#include "words_calls.h"

#include <cairo-pdf.h>
#include <stdio.h>
#include <string.h>

/* A4 (ISO 216: 210 x 297 mm) in points of 1/72 in. */
#define WIDTH_PT (210 / 25.4 * 72)
#define HEIGHT_PT (297 / 25.4 * 72)
#define MARGIN_PT 30.0
#define GUTTER_PT 16.0
#define COLUMNS 3
#define COLUMN_PT ((WIDTH_PT - 2 * MARGIN_PT - (COLUMNS - 1) * GUTTER_PT) / COLUMNS)
#define TITLE_PT 17.0
#define HEAD_PT 50.0 /* above the columns: the title, and how to read what is below */
#define LETTERS_MOST_PT 12.0
#define LETTERS_LEAST_PT 4.0

static const char title[] = "What may be said";
static const char reading[] =
	"WORDS IN CAPITALS stand for one of the list with that head, or for a "
	"number. What is in [brackets] may be left out.";

struct card {
	cairo_t *cairo;
	const struct vocabulary *vocabulary;
	double letters_pt;
	bool drawing; /* else only how far it would reach */
	int column;
	double y; /* the line on which the last letters stand */
};

static double
line_pt(const struct card *card)
{
	return 1.22 * card->letters_pt;
}

static void
set_letters(struct card *card, bool strong, double size_pt)
{
	cairo_select_font_face(card->cairo, "sans-serif", CAIRO_FONT_SLANT_NORMAL,
			       strong ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
	cairo_set_font_size(card->cairo, size_pt);
}

static double
column_left_pt(const struct card *card)
{
	return MARGIN_PT + card->column * (COLUMN_PT + GUTTER_PT);
}

static void
next_column(struct card *card)
{
	card->column++;
	card->y = MARGIN_PT + HEAD_PT;
}

static void
show_line(struct card *card, double indent_pt, const char *text)
{
	if (card->y + line_pt(card) > HEIGHT_PT - MARGIN_PT)
		next_column(card);
	card->y += line_pt(card);
	if (!card->drawing || card->column >= COLUMNS)
		return;
	cairo_move_to(card->cairo, column_left_pt(card) + indent_pt, card->y);
	cairo_show_text(card->cairo, text);
}

/* Words as they come, in lines as long as a column is wide; those after the first stand further
 * in. */
struct flow {
	struct card *card;
	char line[512];
	double indent_pt; /* of the line at hand */
	double next_indent_pt;
};

static void
flow_end(struct flow *flow)
{
	if (flow->line[0] != '\0')
		show_line(flow->card, flow->indent_pt, flow->line);
	flow->line[0] = '\0';
	flow->indent_pt = 0;
}

static void
flow_word(struct flow *flow, const char *word)
{
	char longer[sizeof flow->line];
	cairo_text_extents_t extents;
	snprintf(longer, sizeof longer, "%s%s%s", flow->line, flow->line[0] != '\0' ? " " : "",
		 word);
	cairo_text_extents(flow->card->cairo, longer, &extents);
	if (flow->line[0] != '\0' && extents.x_advance > COLUMN_PT - flow->indent_pt) {
		flow_end(flow);
		flow->indent_pt = flow->next_indent_pt;
		snprintf(longer, sizeof longer, "%s", word);
	}
	memcpy(flow->line, longer, sizeof longer);
}

/* Each way of saying begins a line of its own. */
static void
show_ways(struct card *card, const char *text)
{
	struct flow flow = {.card = card, .next_indent_pt = card->letters_pt};
	char word[128];
	int used;
	for (; sscanf(text, "%127s%n", word, &used) == 1; text += used) {
		size_t length = strlen(word);
		bool ends = word[length - 1] == ';';
		if (ends)
			word[length - 1] = '\0';
		flow_word(&flow, word);
		if (ends)
			flow_end(&flow);
	}
	flow_end(&flow);
}

static void
show_list(struct card *card, enum list list)
{
	struct flow flow = {.card = card};
	int count = vocabulary_count(card->vocabulary, list);
	for (int i = 0; i < count; i++) {
		char entry[160];
		snprintf(entry, sizeof entry, "%s%s",
			 vocabulary_term(card->vocabulary, list, i)->name,
			 i + 1 < count ? "," : "");
		flow_word(&flow, entry);
	}
	flow_end(&flow);
}

static void
show_head(struct card *card, const char *head)
{
	/* Not at the foot of a column, away from what it is the head of. */
	if (card->y + 3 * line_pt(card) > HEIGHT_PT - MARGIN_PT)
		next_column(card);
	if (card->y > MARGIN_PT + HEAD_PT)
		card->y += 0.5 * line_pt(card);
	set_letters(card, true, card->letters_pt);
	show_line(card, 0, head);
	set_letters(card, false, card->letters_pt);
}

/* A call with its ways of saying, or (no text) a list with its words. */
static void
show_block(struct card *card, const char *head, const char *text, enum list list)
{
	show_head(card, head);
	if (text != NULL)
		show_ways(card, text);
	else
		show_list(card, list);
}

/* In one column, if it is not longer than a column by itself. */
static void
show_block_whole(struct card *card, const char *head, const char *text, enum list list)
{
	struct card trial = *card;
	trial.drawing = false;
	show_block(&trial, head, text, list);
	if (trial.column > card->column) {
		struct card fresh = *card;
		fresh.drawing = false;
		next_column(&fresh);
		int column = fresh.column;
		show_block(&fresh, head, text, list);
		if (fresh.column == column)
			next_column(card);
	}
	show_block(card, head, text, list);
}

/* Whether all of it is on the page. */
static bool
show_all(struct card *card)
{
	int call_count, list_count;
	const struct call_words *calls = words_calls(&call_count);
	const struct list_words *lists = words_lists(&list_count);

	card->column = -1;
	next_column(card);
	for (int i = 0; i < call_count; i++)
		show_block_whole(card, calls[i].head, calls[i].text, LIST_COUNT);
	for (int i = 0; i < list_count; i++)
		if (vocabulary_count(card->vocabulary, lists[i].list) > 0)
			show_block_whole(card, lists[i].head, NULL, lists[i].list);
	return card->column < COLUMNS;
}

static void
show_title(struct card *card)
{
	set_letters(card, true, TITLE_PT);
	cairo_move_to(card->cairo, MARGIN_PT, MARGIN_PT + TITLE_PT);
	cairo_show_text(card->cairo, title);
	set_letters(card, false, 9);
	cairo_move_to(card->cairo, MARGIN_PT, MARGIN_PT + TITLE_PT + 15);
	cairo_show_text(card->cairo, reading);
}

/* In the largest letters in which it fits; false when it does not fit in the smallest. */
static bool
draw_card(cairo_t *cairo, const struct vocabulary *vocabulary)
{
	struct card card = {
		.cairo = cairo, .vocabulary = vocabulary, .letters_pt = LETTERS_MOST_PT};
	while (!show_all(&card) && card.letters_pt > LETTERS_LEAST_PT)
		card.letters_pt -= 0.1;
	bool fits = show_all(&card);
	show_title(&card);
	card.drawing = true;
	show_all(&card);
	cairo_show_page(cairo);
	return fits;
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
	cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
	cairo_t *cairo = cairo_create(surface);
	bool fits = draw_card(cairo, vocabulary);
	bool drawn = cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
	cairo_destroy(cairo);
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

void
words_card_print(const struct vocabulary *vocabulary, FILE *to)
{
	int call_count, list_count;
	const struct call_words *calls = words_calls(&call_count);
	const struct list_words *lists = words_lists(&list_count);

	fprintf(to, "%s\n\n", reading);
	for (int i = 0; i < call_count; i++)
		fprintf(to, "%s: %s\n", calls[i].head, calls[i].text);
	for (int i = 0; i < list_count; i++) {
		int count = vocabulary_count(vocabulary, lists[i].list);
		if (count > 0)
			fprintf(to, "\n%s:", lists[i].head);
		for (int k = 0; k < count; k++)
			fprintf(to, "%s %s", k > 0 ? "," : "",
				vocabulary_term(vocabulary, lists[i].list, k)->name);
		fprintf(to, count > 0 ? "\n" : "");
	}
}
