#include "legend.h"

#include "marks.h"
#include "phrase.h"
#include "words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where the text starts, behind the number. */
#define INDENT (2 * PICTURE_MARK_RADIUS + 6)
/* Between two lines, so that the numbers' discs do not touch. */
#define LEADING 5.0

struct writer {
	struct picture *picture;
	const struct ruler *ruler;
	double top; /* of the next line */
	bool good;
};

static struct legend_line *
line_new(struct writer *writer)
{
	struct picture *picture = writer->picture;
	struct legend_line *larger =
		realloc(picture->lines, (size_t)(picture->line_count + 1) * sizeof *picture->lines);
	if (larger == NULL) {
		writer->good = false;
		return NULL;
	}
	picture->lines = larger;
	return memset(&larger[picture->line_count++], 0, sizeof *larger);
}

/* Writes the text, in as many lines as it takes, behind the number if that is not 0. */
static void
write_text(struct writer *writer, int number, bool hidden, bool note, const char *text)
{
	double indent = writer->picture->mark_count > 0 ? INDENT : 0;
	double width = PICTURE_WIDTH - 2 * PICTURE_MARGIN;
	double height = lettering_line(LETTERING_LEGEND);

	while (*text != '\0' && writer->good) {
		size_t fit = ruler_fit(writer->ruler, LETTERING_LEGEND, text, width - indent);
		struct legend_line *line = line_new(writer);
		if (line == NULL)
			return;
		line->number = number;
		line->hidden = hidden;
		line->note = note;
		memcpy(line->text, text, fit);
		line->box = (struct box){
			PICTURE_MARGIN, writer->top,
			indent + ruler_width(writer->ruler, LETTERING_LEGEND, line->text), height};
		writer->top += height + (number == 0 ? 1 : LEADING);
		number = 0;
		text += fit;
		text += strspn(text, " ");
	}
}

void
flaw_words(const struct picture *picture, const struct entry *entry, char *text, size_t size)
{
	static const char before[] = "flaw: ";
	const struct call *flaw = &entry->said;
	char written[FLAW_WORDS_MAX];
	const char *name;

	phrase_written(flaw, written, sizeof written);
	bool headed = strncmp(written, before, sizeof before - 1) == 0;
	snprintf(text, size, "%s", headed ? written + sizeof before - 1 : written);
	picture_shows(picture, entry, &name);
	const struct part *part = part_find(picture->sketch, name);
	if (part != NULL && part->way == PART_PAIR && flaw->side == SIDE_UNSAID)
		words_append(text, size, "(side not said)");
	if (name[0] == '\0' && flaw->side == SIDE_UNSAID && flaw->face == FACE_UNSAID)
		words_append(text, size, "(place not said)");
}

static void
write_flaws(struct writer *writer, const struct record *record)
{
	const struct picture *picture = writer->picture;
	int number = 0;
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		bool is_flaw = entry_is_flaw(entry);
		char text[FLAW_WORDS_MAX];
		const char *name;
		number += is_flaw;
		if (!entry->stands || entry->said.type != CALL_FLAW ||
		    !picture_shows(picture, entry, &name))
			continue;
		if (is_flaw) {
			flaw_words(picture, entry, text, sizeof text);
			write_text(writer, number, flaw_is_hidden(&entry->said, name), false, text);
		} else {
			write_text(writer, 0, false, false, "no flaws found");
		}
	}
}

/* The measures that have no line on the sketch, or whose label found no room. */
static void
write_unplaced(struct writer *writer)
{
	char text[64 + PICTURE_TAPES_MAX * (CALL_NAME_MAX + 48)] = "";
	for (int i = 0; i < writer->picture->tape_count; i++) {
		const struct picture_tape *tape = &writer->picture->tapes[i];
		char one[CALL_NAME_MAX + 64];
		if (tape->labelled)
			continue;
		snprintf(one, sizeof one, "%s%s%s%s", text[0] == '\0' ? "also: " : "",
			 tape->measure, tape->value[0] == '\0' ? "" : " ", tape->value);
		if (text[0] != '\0')
			strcat(text, ",");
		words_append(text, sizeof text, one);
	}
	write_text(writer, 0, false, false, text);
}

static bool
says_a_side(const struct picture *picture, const struct record *record)
{
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		const char *name;
		if (entry_is_flaw(entry) && entry->said.side != SIDE_UNSAID &&
		    picture_shows(picture, entry, &name))
			return true;
	}
	return false;
}

/* What the signs in the picture mean, of those that are in it. */
static void
write_notes(struct writer *writer, const struct record *record)
{
	const struct picture *picture = writer->picture;
	char text[256] = "";
	bool dashed = false, ring = false;

	for (int i = 0; i < picture->tape_count; i++)
		dashed = dashed || (picture->tapes[i].on_back && picture->tapes[i].labelled);
	for (int i = 0; i < picture->mark_count; i++)
		ring = ring || picture->marks[i].hidden;
	if (record != NULL && says_a_side(picture, record))
		words_append(text, sizeof text, "Left and right are the wearer's.");
	if (ring)
		words_append(text, sizeof text, "Ring: on the back or inside.");
	if (dashed)
		words_append(text, sizeof text, "Dashed: taken on the back.");
	write_text(writer, 0, false, true, text);
}

bool
legend_make(struct picture *picture, const struct record *record, const struct ruler *ruler,
	    double top, double *bottom)
{
	struct writer writer = {picture, ruler, top, true};
	if (record != NULL)
		write_flaws(&writer, record);
	write_unplaced(&writer);
	write_notes(&writer, record);
	*bottom = writer.top;
	return writer.good;
}
