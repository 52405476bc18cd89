/* One call: the words that open it, and which reader reads the rest. */
#include "meaning_reader.h"
#include "set_piece.h"

#include <stdio.h>
#include <string.h>

/* What opens a call of each type, and what is read after it. */
static const struct opening {
	enum call_type type;
	const char *words;
	argument_reader *read;
	bool keepable; /* may stand after "keep" */
} openings[] = {
	{CALL_KIND, "kind", read_listed, true},
	{CALL_FLAW, "flaw", read_flaw, false},
	{CALL_ITEM, "item", read_label, false},
	{CALL_BIN, "bin", read_bin, true},
	{CALL_MAKER, "maker", read_maker, true},
	{CALL_SIZE, "size", read_size, true},
	{CALL_COLOUR, "colour", read_colour, true},
	{CALL_CLOTH, "cloth", read_cloth, true},
	{CALL_PILLING, "pilling", read_grade, true},
	{CALL_COLOUR_CHANGE, "colour change", read_grade, true},
	{CALL_WEIGHT, "weight", read_weight, true},
	{CALL_COST, "cost", read_money, true},
	{CALL_PRICE, "price", read_money, true},
	{CALL_PARCEL, "parcel", read_listed, true},
	{CALL_ROUTE, "route", read_listed, true},
	{CALL_GROUP, "group", read_listed, true},
	{CALL_CARE, "care", read_care, true},
	{CALL_MENDING, "mending", read_mending, false},
	{CALL_PART, "part", read_listed, false},
};

enum { OPENINGS = (int)(sizeof openings / sizeof openings[0]) };

int
read_length_or_none(const struct reader *reader, int at, int nth, struct call *call)
{
	enum length_unit unit = call->unit_said ? call->length.unit : reader->setting->unit;
	bool said = false;

	if (nth > 0)
		return 0;
	call->none = words_is(reader->words, at, "none");
	if (call->none)
		return 1;
	int used = length_read(reader->words, at, unit, &call->length, &said);
	call->has_length = used > 0;
	call->unit_said = call->unit_said || said;
	return used;
}

int
read_measure_name(const struct reader *reader, int at, char name[CALL_NAME_MAX])
{
	const struct vocabulary *vocabulary = reader->vocabulary;
	const struct words *words = reader->words;
	const char *piece = "", *side = "";
	int used = 0, more;

	int measure = vocabulary_match(vocabulary, LIST_MEASURE, words, at, &more);
	if (measure < 0) {
		int kind = vocabulary_match(vocabulary, LIST_KIND, words, at, &used);
		if (kind >= 0 && !kind_is_set(vocabulary, kind))
			piece = vocabulary_term(vocabulary, LIST_KIND, kind)->name;
		else
			used = 0;
		if (words_is(words, at + used, "left") || words_is(words, at + used, "right"))
			side = words->word[at + used++];
		measure = vocabulary_match(vocabulary, LIST_MEASURE, words, at + used, &more);
	}
	if (measure < 0)
		return 0;
	snprintf(name, CALL_NAME_MAX, "%s",
		 vocabulary_term(vocabulary, LIST_MEASURE, measure)->name);
	return piece_join(side, name, name, CALL_NAME_MAX) &&
			       piece_join(piece, name, name, CALL_NAME_MAX)
		       ? used + more
		       : 0;
}

static int
read_measure(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = read_measure_name(reader, at, call->name);
	if (used == 0)
		return 0;
	int further = read_length_or_none(reader, at + used, nth, call);
	return further > 0 ? used + further : 0;
}

/* A call that one of the openings opens; with `kept`, only one that may be kept. */
static int
read_opened(const struct reader *reader, int at, int nth, bool kept, struct call *call)
{
	for (int i = 0; i < OPENINGS; i++) {
		int used = words_match(reader->words, at, openings[i].words);
		if (used == 0 || (kept && !openings[i].keepable))
			continue;
		for (int way = 0;; way++) {
			struct call read = {.type = openings[i].type};
			int further = openings[i].read(reader, at + used, way, &read);
			if (further == 0 || (kept && read.other))
				break;
			if (nth-- == 0) {
				*call = read;
				return used + further;
			}
		}
	}
	return 0;
}

static int
read_kept(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = words_match(reader->words, at, "keep");
	if (used == 0)
		return 0;
	call->kept = CALL_KEEP;
	if (words_is(reader->words, at + used, "nothing"))
		return nth > 0 ? 0 : used + 1;
	int further = read_opened(reader, at + used, nth, true, call);
	call->kept = call->type;
	return further > 0 ? used + further : 0;
}

static int
read_note(const struct reader *reader, int at, int nth, struct call *call)
{
	return nth == 0 && words_is(reader->words, at, "note") ? 1 : 0;
}

static int
read_plain(const struct reader *reader, int at, int nth, struct call *call)
{
	return read_opened(reader, at, nth, false, call);
}

int
read_call(const struct reader *reader, int at, int nth, struct call *call)
{
	static const struct {
		argument_reader *read;
		enum call_type type;
	} families[] = {
		{read_plain, CALL_KIND}, /* sets the type itself */
		{read_measure, CALL_MEASURE}, {read_kept, CALL_KEEP},	  {read_note, CALL_NOTE},
		{read_order, CALL_ORDER},     {read_answer, CALL_ANSWER},
	};
	for (size_t i = 0; i < sizeof families / sizeof families[0]; i++) {
		for (int way = 0;; way++) {
			struct call read = {.type = families[i].type};
			int used = families[i].read(reader, at, way, &read);
			if (used == 0)
				break;
			if (nth-- == 0) {
				*call = read;
				if (families[i].type == CALL_KEEP)
					call->type = CALL_KEEP;
				return used;
			}
		}
	}
	return 0;
}

int
read_again(const struct reader *reader, int at, int nth, struct call *call)
{
	enum call_type type = call->type == CALL_KEEP ? call->kept : call->type;
	struct call read = {.type = type};
	int used = 0;

	if (type == CALL_FLAW)
		return read_flaw_again(reader, at, nth, call);
	if (type == CALL_MEASURE) {
		memcpy(read.name, call->name, sizeof read.name);
		read.unit_said = call->unit_said;
		read.length = call->length;
		used = read_length_or_none(reader, at, nth, &read);
	}
	for (int i = 0; i < OPENINGS; i++)
		if (openings[i].type == type)
			used = openings[i].read(reader, at, nth, &read);
	if (used == 0 || (call->type == CALL_KEEP && read.other))
		return 0;
	read.kept = call->kept;
	read.type = call->type;
	*call = read;
	return used;
}
