/* A row of the user's table: words, {slots}, and [pieces that are left out when a slot in them is
 * empty]. */
#include "writeup_part.h"

#include <string.h>

/* The slot whose opening brace is at `at`; NULL when it is never closed. */
static const char *
slot_end(const char *at)
{
	const char *end = at + 1 + strcspn(at + 1, "{}[]");
	return *end == '}' ? end : NULL;
}

static bool
check_slot(const struct vocabulary *vocabulary, const char *at, bool in_text, struct problem *wrong)
{
	const char *end = slot_end(at);
	if (end == NULL)
		return problem_say(wrong, "a { has no } after it");
	size_t length = (size_t)(end - at - 1);
	if (slot_find(vocabulary, at + 1, length, in_text) >= 0)
		return true;
	if (slot_find(vocabulary, at + 1, length, true) >= 0)
		return problem_say(wrong, "{%.*s} can stand in a row of the text only", (int)length,
				   at + 1);
	return problem_say(wrong, "there is nothing to put for {%.*s}: see the head of the table",
			   (int)length, at + 1);
}

bool
pattern_check(const struct vocabulary *vocabulary, const char *pattern, bool in_text,
	      struct problem *wrong)
{
	bool in_piece = false;
	int slots = 0;

	for (const char *at = pattern; *at != '\0'; at++) {
		switch (*at) {
		case '{':
			if (!check_slot(vocabulary, at, in_text, wrong))
				return false;
			at = slot_end(at);
			slots++;
			break;
		case '}':
			return problem_say(wrong, "a } has no { before it");
		case '[':
			if (in_piece)
				return problem_say(wrong, "a [ stands inside another");
			in_piece = true;
			slots = 0;
			break;
		case ']':
			if (!in_piece)
				return problem_say(wrong, "a ] has no [ before it");
			if (slots == 0)
				return problem_say(wrong,
						   "between [ and ] is no slot such as {size}");
			in_piece = false;
			break;
		}
	}
	return !in_piece || problem_say(wrong, "a [ has no ] after it");
}

/* The same, once it was checked. */
bool
pattern_write(const char *pattern, const struct slots *slots, struct text *to)
{
	size_t row_start = to->length, piece_start = 0;
	bool in_piece = false, piece_lacks = false, row_lacks = false;
	int filled = 0, filled_before = 0, slot_count = 0;

	for (const char *at = pattern; *at != '\0'; at++) {
		if (*at == '[') {
			in_piece = true;
			piece_lacks = false;
			piece_start = to->length;
			filled_before = filled;
		} else if (*at == ']') {
			in_piece = false;
			if (piece_lacks) {
				text_cut(to, piece_start);
				filled = filled_before;
			}
		} else if (*at == '{') {
			const char *end = slot_end(at);
			size_t before = to->length;
			slot_write(slots,
				   slot_find(slots->vocabulary, at + 1, (size_t)(end - at - 1),
					     slots->title != NULL),
				   to);
			slot_count++;
			filled += to->length > before;
			if (to->length == before && in_piece)
				piece_lacks = true;
			else if (to->length == before)
				row_lacks = true;
			at = end;
		} else {
			text_add_bytes(to, at, 1);
		}
	}
	if (!row_lacks && (filled > 0 || slot_count == 0))
		return true;
	text_cut(to, row_start);
	return false;
}
