#include "set_piece.h"

#include "call.h"

#include <stdio.h>
#include <string.h>

bool
kind_is_set(const struct vocabulary *vocabulary, int kind)
{
	return kind >= 0 && vocabulary_term(vocabulary, LIST_KIND, kind)->set;
}

int
piece_of(const struct vocabulary *vocabulary, const char *name, const char **rest)
{
	size_t longest = 0;
	int piece = -1;

	*rest = name;
	if (vocabulary_find(vocabulary, LIST_MEASURE, name) >= 0 ||
	    vocabulary_find(vocabulary, LIST_PART, name) >= 0)
		return -1;
	for (int i = 0; i < vocabulary_count(vocabulary, LIST_KIND); i++) {
		const char *kind = vocabulary_term(vocabulary, LIST_KIND, i)->name;
		size_t length = strlen(kind);
		if (length <= longest || strncmp(name, kind, length) != 0 ||
		    (name[length] != ' ' && name[length] != '\0'))
			continue;
		longest = length;
		piece = i;
		*rest = name + length + strspn(name + length, " ");
	}
	return piece;
}

bool
piece_join(const char *piece, const char *name, char *joined, size_t size)
{
	char whole[2 * CALL_NAME_MAX];
	bool both = piece[0] != '\0' && name[0] != '\0';
	int length = snprintf(whole, sizeof whole, "%s%s%s", piece, both ? " " : "", name);
	snprintf(joined, size, "%s", whole);
	return (size_t)length < size && (size_t)length < sizeof whole;
}
