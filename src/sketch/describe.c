#include "describe.h"

#include "legend.h"
#include "marks.h"

void
describe_title(const struct picture *picture, const struct record *record, struct text *to)
{
	const struct entry *number = record == NULL ? NULL : record_slot(record, CALL_ITEM);
	text_add(to, record == NULL ? "Where to measure: " : "Sketch: ");
	text_add(to, picture->kind);
	if (number != NULL)
		text_add_format(to, ", item %s", number->said.label);
}

static void
describe_measures(const struct picture *picture, struct text *to)
{
	size_t before = to->length;
	for (; picture != NULL; picture = picture->below) {
		const char *piece = picture_heading(picture);
		for (int i = 0; i < picture->tape_count; i++) {
			const struct picture_tape *tape = &picture->tapes[i];
			text_add(to, to->length == before ? "Measures: " : "; ");
			text_add_format(to, "%s%s%s", piece == NULL ? "" : piece,
					piece == NULL ? "" : " ", tape->measure);
			if (tape->value[0] != '\0')
				text_add_format(to, " %s", tape->value);
		}
	}
	if (to->length > before)
		text_add(to, ".");
}

/* The picture, it or one below, that shows the entry; NULL when none does. */
static const struct picture *
shown_by(const struct picture *picture, const struct entry *entry)
{
	const char *name;
	while (picture != NULL && !picture_shows(picture, entry, &name))
		picture = picture->below;
	return picture;
}

static void
describe_flaws(const struct picture *picture, const struct record *record, struct text *to)
{
	int number = 0;
	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		char words[FLAW_WORDS_MAX];
		if (entry->stands && entry->said.type == CALL_FLAW && entry->said.none)
			text_add(to, to->length > 0 ? " No flaws found." : "No flaws found.");
		if (!entry_is_flaw(entry))
			continue;
		number++;
		const struct picture *shower = shown_by(picture, entry);
		if (shower == NULL)
			continue;
		flaw_words(shower, entry, words, sizeof words);
		if (number == 1)
			text_add(to, to->length > 0 ? " Flaws: " : "Flaws: ");
		text_add_format(to, "%s%d %s", number == 1 ? "" : "; ", number, words);
	}
	if (number > 0)
		text_add(to, ".");
}

void
describe_picture(const struct picture *picture, const struct record *record, struct text *to)
{
	describe_measures(picture, to);
	if (record != NULL)
		describe_flaws(picture, record, to);
}
