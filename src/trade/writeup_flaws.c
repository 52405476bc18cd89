/* Flaws in plain words. */
#include "writeup_part.h"

#include "length_convert.h"

void
write_both_units(struct length length, struct text *to)
{
	enum length_unit other = length.unit == LENGTH_INCH ? LENGTH_CENTIMETRE : LENGTH_INCH;
	char said[32], converted[32];

	length_value(length, said, sizeof said);
	length_value(length_converted(length, other), converted, sizeof converted);
	text_add_format(to, "%s %s (%s %s)", said, length_unit_name(length.unit), converted,
			length_unit_name(other));
}

/* " at the left back pocket, on the inside", " on the left front", " on the left side". */
static void
write_place(const struct call *flaw, struct text *to)
{
	bool hidden = flaw->face == FACE_INSIDE || flaw->face == FACE_OUTSIDE;
	const char *side = side_name(flaw->side);
	const char *face = face_name(flaw->face);

	if (flaw->part[0] != '\0') {
		text_add(to, " at the ");
		if (side != NULL)
			text_add_format(to, "%s ", side);
		if (face != NULL && !hidden)
			text_add_format(to, "%s ", face);
		text_add(to, flaw->part);
		if (hidden)
			text_add_format(to, ", on the %s", face);
	} else if (face != NULL) {
		text_add_format(to, " on the %s%s%s", side != NULL ? side : "",
				side != NULL ? " " : "", face);
	} else if (side != NULL) {
		text_add_format(to, " on the %s side", side);
	}
}

void
write_flaw_words(const struct call *flaw, struct text *to)
{
	const char *size = flaw_size_name(flaw->size);

	if (size != NULL)
		text_add_format(to, "%s ", size);
	text_add(to, flaw->other ? "other flaw" : flaw->name);
	if (flaw->count > 0)
		text_add_format(to, " (%d of them)", flaw->count);
	if (flaw->has_length) {
		text_add(to, " of ");
		write_both_units(flaw->length, to);
	}
	write_place(flaw, to);
}

void
write_flaws(const struct record *record, struct text *to)
{
	bool sided = false;
	int count = 0;

	for (int i = 0; i < record->entry_count; i++) {
		const struct entry *entry = &record->entries[i];
		if (!entry->stands || entry->said.type != CALL_FLAW)
			continue;
		if (entry->said.none) {
			text_add(to, "No flaws found.");
			return;
		}
		text_add(to, count++ == 0 ? "Flaws: " : "; ");
		write_flaw_words(&entry->said, to);
		sided = sided || entry->said.side != SIDE_UNSAID;
	}
	if (count > 0)
		text_add(to, ".");
	if (sided)
		text_add(to, " Left and right are the wearer's.");
}
