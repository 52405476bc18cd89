#include "pieces.h"

#include "set_piece.h"

#include <stdio.h>

bool
pieces_of_set(const struct vocabulary *vocabulary, const struct record *record)
{
	const struct entry *kind = record_slot(record, CALL_KIND);
	return kind != NULL &&
	       kind_is_set(vocabulary, vocabulary_find(vocabulary, LIST_KIND, kind->said.name));
}

static int
add_piece(const struct vocabulary *vocabulary, const char *kind, const char *name,
	  struct piece *pieces, int count)
{
	int at = vocabulary_find(vocabulary, LIST_KIND, kind);
	if (at < 0)
		return count;
	pieces[count] = (struct piece){vocabulary_term(vocabulary, LIST_KIND, at), name};
	return count + 1;
}

int
pieces_of(const struct vocabulary *vocabulary, const struct record *record,
	  struct piece pieces[CALL_LISTED_MAX])
{
	const struct entry *kind = record_slot(record, CALL_KIND);
	const struct entry *part = record_slot(record, CALL_PART);
	int count = 0;
	if (kind == NULL)
		return 0;
	if (!pieces_of_set(vocabulary, record))
		return add_piece(vocabulary, kind->said.name, "", pieces, 0);
	for (int i = 0; part != NULL && i < part->said.listed_count; i++) {
		const char *name = part->said.listed[i].name;
		count = add_piece(vocabulary, name, name, pieces, count);
	}
	return count;
}

void
pieces_put_under(const struct vocabulary *vocabulary, const char *beside, char *name, size_t size)
{
	const char *rest;
	char joined[CALL_NAME_MAX];
	int piece = piece_of(vocabulary, beside, &rest);
	if (piece >= 0 && piece_of(vocabulary, name, &rest) < 0 &&
	    piece_join(vocabulary_term(vocabulary, LIST_KIND, piece)->name, name, joined,
		       sizeof joined < size ? sizeof joined : size))
		snprintf(name, size, "%s", joined);
}
