/* Flaws and the places where they are. */
#include "meaning_reader.h"
#include "number.h"
#include "set_piece.h"

#include <stdio.h>
#include <string.h>

enum { PART_ROOM = sizeof(((struct call *)0)->part) };

/* A part of the list; of a set's piece too: "trousers knee", or the piece alone. */
static int
match_part(const struct reader *reader, int at, char name[PART_ROOM])
{
	const struct vocabulary *vocabulary = reader->vocabulary;
	char rest[PART_ROOM];
	int used, more;

	name[0] = '\0';
	int part = vocabulary_match(vocabulary, LIST_PART, reader->words, at, &used);
	if (part >= 0) {
		snprintf(name, PART_ROOM, "%s", vocabulary_term(vocabulary, LIST_PART, part)->name);
		return used;
	}
	int kind = vocabulary_match(vocabulary, LIST_KIND, reader->words, at, &used);
	if (kind < 0 || kind_is_set(vocabulary, kind))
		return 0;
	more = vocabulary_match(vocabulary, LIST_PART, reader->words, at + used, &more) >= 0
		       ? match_part(reader, at + used, rest)
		       : 0;
	return piece_join(vocabulary_term(vocabulary, LIST_KIND, kind)->name, more > 0 ? rest : "",
			  name, PART_ROOM)
		       ? used + more
		       : 0;
}

/* The nth way of reading a face and a part; nothing is the last way of all, and returns 0.
 * "front hem" is the face and the part; "front" alone is a part, "inside" alone a face. A part of
 * several words may begin with what else is a face. */
static int
read_face_and_part(const struct reader *reader, int at, int nth, struct call *call)
{
	const struct words *words = reader->words;
	enum face face = at < words->count ? face_parse(words->word[at]) : FACE_UNSAID;
	char name[PART_ROOM];

	int used = match_part(reader, at, name);
	if (used > (face == FACE_UNSAID ? 0 : 1) && nth-- == 0) {
		memcpy(call->part, name, sizeof name);
		return used;
	}
	if (face == FACE_UNSAID)
		return 0;
	used = match_part(reader, at + 1, name);
	if (used > 0 && face_parse(name) == FACE_UNSAID && nth-- == 0) {
		memcpy(call->part, name, sizeof name);
		call->face = face;
		return 1 + used;
	}
	if (nth > 0)
		return 0;
	if (face == FACE_FRONT || face == FACE_BACK)
		snprintf(call->part, sizeof call->part, "%s", face_name(face));
	else
		call->face = face;
	return 1;
}

int
read_place(const struct reader *reader, int at, int nth, struct call *call)
{
	const struct words *words = reader->words;
	enum side side = at < words->count ? side_parse(words->word[at]) : SIDE_UNSAID;
	int used = side == SIDE_UNSAID ? 0 : 1;

	for (int i = 0;; i++) {
		struct call place = {0};
		int further = read_face_and_part(reader, at + used, i, &place);
		if (further == 0 && used == 0)
			return 0;
		if (i == nth) {
			call->side = side;
			call->face = place.face;
			memcpy(call->part, place.part, sizeof call->part);
			return used + further;
		}
		if (further == 0)
			return 0;
	}
}

/* A length, if one stands here, in the unit that was said before, if one was. */
static int
read_flaw_length(const struct reader *reader, int at, struct call *call)
{
	enum length_unit unit = call->unit_said ? call->length.unit : reader->setting->unit;
	struct length length;
	bool said = false;
	int used = length_read(reader->words, at, unit, &length, &said);
	if (used > 0) {
		call->has_length = true;
		call->length = length;
		call->unit_said = call->unit_said || said;
	}
	return used;
}

/* "times four", how many of them there are. */
static int
read_count(const struct reader *reader, int at, struct call *call)
{
	int count;
	int used = words_is(reader->words, at, "times")
			   ? number_below_hundred(reader->words, at + 1, &count)
			   : 0;
	if (used == 0 || count < 2)
		return 0;
	call->count = count;
	return 1 + used;
}

int
read_then_place(const struct reader *reader, int at, int used, int nth, struct call *call)
{
	int place = read_place(reader, at + used, nth, call);
	if (place > 0)
		return used + place;
	if (used == 0 ||
	    (nth > 0 && read_place(reader, at + used, nth - 1, &(struct call){0}) == 0))
		return 0;
	return used;
}

int
read_flaw(const struct reader *reader, int at, int nth, struct call *call)
{
	const struct words *words = reader->words;
	int name_used, used = 0;

	if (words_is(words, at, "none")) {
		call->none = true;
		return nth > 0 ? 0 : 1;
	}
	if (at < words->count)
		call->size = flaw_size_parse(words->word[at]);
	used += call->size == SIZE_UNSAID ? 0 : 1;
	int flaw = vocabulary_match(reader->vocabulary, LIST_FLAW, words, at + used, &name_used);
	if (flaw >= 0) {
		const struct term *term = vocabulary_term(reader->vocabulary, LIST_FLAW, flaw);
		snprintf(call->name, sizeof call->name, "%s", term->name);
	} else if (words_is(words, at + used, "other")) {
		call->other = true;
		name_used = 1;
	} else {
		return 0;
	}
	used += name_used;
	used += read_count(reader, at + used, call);
	used += read_flaw_length(reader, at + used, call);
	return read_then_place(reader, at, used, nth, call);
}

/* "flaw stain left cuff no right cuff": what is said again, length or place, takes the place of
 * what was said; or the whole flaw is said again. */
int
read_flaw_again(const struct reader *reader, int at, int nth, struct call *call)
{
	struct call whole = {
		.type = CALL_FLAW, .unit_said = call->unit_said, .length = call->length};
	int used = read_flaw(reader, at, nth, &whole);
	if (used > 0) {
		*call = whole;
		return used;
	}
	if (call->none || read_flaw(reader, at, 0, &(struct call){.type = CALL_FLAW}) > 0)
		return 0;
	used = read_count(reader, at, call);
	used += read_flaw_length(reader, at + used, call);
	return read_then_place(reader, at, used, nth, call);
}
