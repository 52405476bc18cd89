/* What may stand in a slot of the user's table, and how it is filled from the record. */
#include "writeup_form.h"

#include "phrase.h"
#include "reading_order.h"
#include "set_piece.h"

#include <stdio.h>
#include <string.h>

enum { WRITTEN_MAX = 512 };

void
write_value(const struct call *call, struct text *to)
{
	char written[WRITTEN_MAX];
	size_t name = strlen(call_type_name(call->type));

	phrase_written(call, written, sizeof written);
	if (strlen(written) > name)
		text_add(to, written + name + strspn(written + name, ": "));
}

/* The ends of the scales: 5 is best (ISO 105-A02, colour change: 5 is no change; ISO 12945-4 and
 * ASTM D3512, pilling: from memory). Between them the number is said, since their words differ. */
void
write_grade_words(const struct call *call, struct text *to)
{
	if (call->grade_halves == 10) {
		text_add(to, "none");
	} else if (call->grade_halves == 2) {
		text_add(to, "severe");
	} else {
		text_add(to, "grade ");
		write_value(call, to);
		text_add(to, ", where 5 is none and 1 is severe");
	}
}

void
write_care(const struct vocabulary *vocabulary, const struct call *call, struct text *to)
{
	for (int i = 0; i < call->listed_count; i++) {
		const char *name = call->listed[i].name;
		int care = vocabulary_find(vocabulary, LIST_CARE, name);
		const char *words =
			care < 0 ? "" : vocabulary_term(vocabulary, LIST_CARE, care)->text;
		text_add(to, i == 0 ? "" : "; ");
		text_add(to, words[0] == '\0' ? name : words);
	}
}

/* A writer gets the entry that stands in the slot of its type; NULL where none does. */
typedef void slot_writer(const struct slots *slots, const struct entry *entry, struct text *to);

static void
fill_value(const struct slots *slots, const struct entry *entry, struct text *to)
{
	size_t before = to->length;
	if (entry == NULL || entry->said.other)
		return;
	write_value(&entry->said, to);
	const char *written = form_spelling(slots->form, text_chars(to) + before);
	if (written == NULL)
		return;
	text_cut(to, before);
	text_add(to, written);
}

static void
fill_grade(const struct slots *slots, const struct entry *entry, struct text *to)
{
	if (entry != NULL)
		write_grade_words(&entry->said, to);
}

/* A tag of figures wants a word to say what they are: "size 12"; other tags are words. */
static void
fill_size(const struct slots *slots, const struct entry *entry, struct text *to)
{
	if (entry == NULL || entry->said.other)
		return;
	if (strpbrk(entry->said.name, "0123456789") != NULL)
		text_add(to, "size ");
	text_add(to, entry->said.name);
}

static void
fill_care(const struct slots *slots, const struct entry *entry, struct text *to)
{
	if (entry != NULL)
		write_care(slots->vocabulary, &entry->said, to);
}

/* The pieces of a set: "jacket, waistcoat and trousers". */
static void
fill_parts(const struct slots *slots, const struct entry *entry, struct text *to)
{
	int count = entry == NULL ? 0 : entry->said.listed_count;
	for (int i = 0; i < count; i++)
		text_add_format(to, "%s%s",
				i == 0		 ? ""
				: i == count - 1 ? " and "
						 : ", ",
				entry->said.listed[i].name);
}

static void
fill_state(const struct slots *slots, const struct entry *entry, struct text *to)
{
	switch (slots->record->state) {
	case ITEM_OPEN:
		text_add(to, "still open");
		break;
	case ITEM_SET_ASIDE:
		text_add(to, "set aside");
		break;
	case ITEM_DONE:
		break;
	}
}

/* Measures, and the piece of a set that they are missing of. `before` is where the list began. */
static void
add_missing(const struct slots *slots, const int *missing, int count, const char *piece,
	    size_t before, struct text *to)
{
	for (int i = 0; i < count; i++) {
		if (to->length > before)
			text_add(to, ", ");
		text_add_format(to, "%s%s", piece, piece[0] != '\0' ? " " : "");
		text_add(to, vocabulary_term(slots->vocabulary, LIST_MEASURE, missing[i])->name);
	}
}

static void
fill_missing(const struct slots *slots, const struct entry *entry, struct text *to)
{
	const struct entry *part = record_slot(slots->record, CALL_PART);
	int pieces = part == NULL ? 0 : part->said.listed_count;
	int missing[TERM_MEASURES_MAX];
	size_t before = to->length;
	if (pieces == 0)
		add_missing(slots, missing,
			    record_missing(slots->record, slots->vocabulary, missing), "", before,
			    to);
	for (int i = 0; i < pieces; i++) {
		const char *piece = part->said.listed[i].name;
		add_missing(slots, missing,
			    record_missing_of(slots->record, slots->vocabulary, piece, missing),
			    piece, before, to);
	}
}

static void
fill_price(const struct slots *slots, const struct entry *entry, struct text *to)
{
	char amount[32];
	if (slots->asking == NULL)
		return;
	money_format(*slots->asking, amount, sizeof amount);
	text_add_format(to, "%s %s", amount, slots->asking->currency);
}

static void
fill_flaws(const struct slots *slots, const struct entry *entry, struct text *to)
{
	write_flaws(slots->record, to);
}

static void
fill_measures(const struct slots *slots, const struct entry *entry, struct text *to)
{
	write_measures(slots->record, slots->vocabulary, to);
}

/* How each measure was taken, a line each: of a set, as on the kind that its piece is. */
static void
fill_how(const struct slots *slots, const struct entry *entry, struct text *to)
{
	const struct entry *kind = record_slot(slots->record, CALL_KIND);
	const struct entry *readings[RECORD_ENTRIES_MAX];
	int count = reading_order(slots->record, slots->vocabulary, readings);
	size_t before = to->length;

	for (int i = 0; i < count && slots->form->how != NULL; i++) {
		const struct call *said = &readings[i]->said;
		const char *measure, *on = kind == NULL ? NULL : kind->said.name;
		int piece = piece_of(slots->vocabulary, said->name, &measure);
		if (piece >= 0)
			on = vocabulary_term(slots->vocabulary, LIST_KIND, piece)->name;
		const char *how = slots->form->how(slots->form->how_from, measure, on);
		if (how != NULL && !said->none)
			text_add_format(to, "%s%s: %s", to->length > before ? "\n" : "", said->name,
					how);
	}
}

static void
fill_title(const struct slots *slots, const struct entry *entry, struct text *to)
{
	text_add(to, slots->title);
}

static void
fill_description(const struct slots *slots, const struct entry *entry, struct text *to)
{
	text_add(to, slots->description);
}

static const struct {
	const char *name;
	slot_writer *write;
	enum call_type type; /* CALL_TYPES: of no entry */
	bool in_text_only;
} known[] = {
	{"number", fill_value, CALL_ITEM, false},
	{"bin", fill_value, CALL_BIN, false},
	{"kind", fill_value, CALL_KIND, false},
	{"maker", fill_value, CALL_MAKER, false},
	{"size", fill_size, CALL_SIZE, false},
	{"colour", fill_value, CALL_COLOUR, false},
	{"cloth", fill_value, CALL_CLOTH, false},
	{"pilling", fill_grade, CALL_PILLING, false},
	{"colour change", fill_grade, CALL_COLOUR_CHANGE, false},
	{"weight", fill_value, CALL_WEIGHT, false},
	{"parcel", fill_value, CALL_PARCEL, false},
	{"route", fill_value, CALL_ROUTE, false},
	{"group", fill_value, CALL_GROUP, false},
	{"care", fill_care, CALL_CARE, false},
	{"mending", fill_value, CALL_MENDING, false},
	{"parts", fill_parts, CALL_PART, false},
	{"price", fill_price, CALL_TYPES, false},
	{"flaws", fill_flaws, CALL_TYPES, false},
	{"state", fill_state, CALL_TYPES, false},
	{"missing", fill_missing, CALL_TYPES, false},
	{"how", fill_how, CALL_TYPES, true},
	{"measures", fill_measures, CALL_TYPES, true},
	{"title", fill_title, CALL_TYPES, true},
	{"description", fill_description, CALL_TYPES, true},
};

enum { KNOWN = sizeof known / sizeof *known };

int
slot_find(const struct vocabulary *vocabulary, const char *name, size_t length, bool in_text)
{
	char measure[CALL_NAME_MAX];

	for (int i = 0; i < KNOWN; i++)
		if (strlen(known[i].name) == length && memcmp(known[i].name, name, length) == 0)
			return in_text || !known[i].in_text_only ? i : -1;
	if (length >= sizeof measure)
		return -1;
	snprintf(measure, sizeof measure, "%.*s", (int)length, name);
	int index = vocabulary_find(vocabulary, LIST_MEASURE, measure);
	return index < 0 ? -1 : KNOWN + index;
}

void
slot_write(const struct slots *slots, int slot, struct text *to)
{
	if (slot < KNOWN) {
		enum call_type type = known[slot].type;
		const struct entry *entry =
			type == CALL_TYPES ? NULL : record_slot(slots->record, type);
		known[slot].write(slots, entry, to);
		return;
	}
	const struct term *measure = vocabulary_term(slots->vocabulary, LIST_MEASURE, slot - KNOWN);
	const struct entry *reading = record_reading(slots->record, measure->name);
	if (reading != NULL && reading->said.has_length)
		write_both_units(reading->said.length, to);
}
