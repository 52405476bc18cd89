#include "describe.h"

#include "legend.h"
#include "marks.h"

void
describe_title(const struct picture *picture, const struct record *record, struct text *to)
{
	const struct entry *number = record == NULL ? NULL : record_slot(record, CALL_ITEM);
	text_add(to, record == NULL ? "Where to measure: " : "Sketch: ");
	text_add(to, picture->sketch->kind);
	if (number != NULL)
		text_add_format(to, ", item %s", number->said.label);
}

static void
describe_measures(const struct picture *picture, struct text *to)
{
	for (int i = 0; i < picture->tape_count; i++) {
		const struct picture_tape *tape = &picture->tapes[i];
		text_add(to, i == 0 ? "Measures: " : "; ");
		text_add(to, tape->measure);
		if (tape->value[0] != '\0')
			text_add_format(to, " %s", tape->value);
	}
	if (picture->tape_count > 0)
		text_add(to, ".");
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
		flaw_words(picture->sketch, &entry->said, words, sizeof words);
		if (number == 0)
			text_add(to, to->length > 0 ? " Flaws: " : "Flaws: ");
		text_add_format(to, "%s%d %s", number == 0 ? "" : "; ", number + 1, words);
		number++;
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
