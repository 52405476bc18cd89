#include "pieces.h"

#include "set_piece.h"

/* Adds the piece unless it is there; the count. */
static int
piece_add(int *pieces, int count, int piece)
{
	for (int i = 0; i < count; i++)
		if (pieces[i] == piece)
			return count;
	if (count < PIECES_MAX)
		pieces[count++] = piece;
	return count;
}

int
pieces_gather(const struct vocabulary *vocabulary, const struct record *record,
	      int pieces[PIECES_MAX + 1])
{
	const struct entry *said = record_slot(record, CALL_PART);
	bool of_none = false;
	int count = 0, piece;

	for (int i = 0; said != NULL && i < said->said.listed_count; i++) {
		piece = vocabulary_find(vocabulary, LIST_KIND, said->said.listed[i].name);
		if (piece >= 0)
			count = piece_add(pieces, count, piece);
	}
	for (int i = 0; i < record->entry_count; i++) {
		const struct call *call = &record->entries[i].said;
		const char *name = call->type == CALL_FLAW ? call->part : call->name;
		bool placed =
			call->type == CALL_MEASURE || (call->type == CALL_FLAW && !call->none);
		if (!record->entries[i].stands || !placed)
			continue;
		piece = piece_of(vocabulary, name, &name);
		of_none = of_none || piece < 0;
		if (piece >= 0)
			count = piece_add(pieces, count, piece);
	}
	if (of_none || count == 0)
		pieces[count++] = -1;
	return count;
}
