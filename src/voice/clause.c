#include "clause.h"

#include <string.h>

static const struct {
	char mark;
	int pause_ms;
} marks[] = {{',', 100}, {';', 150}, {':', 120}, {'.', 180}, {'?', 180}, {'!', 180}};

static int
mark_pause_ms(char mark)
{
	for (size_t i = 0; i < sizeof marks / sizeof *marks; i++)
		if (marks[i].mark == mark)
			return marks[i].pause_ms;
	return 0;
}

size_t
clause_length(const char *text)
{
	size_t blank = 0; /* the end of the last word that fits */
	for (size_t at = 0; text[at] != '\0'; at++) {
		if (text[at] != ' ')
			continue;
		size_t next = at + strspn(text + at, " ");
		if (at > CLAUSE_MAX && blank > 0)
			return blank;
		blank = next;
		if (at >= CLAUSE_MIN && mark_pause_ms(text[at - 1]) > 0)
			return next;
		at = next - 1;
	}
	size_t length = strlen(text);
	return length > CLAUSE_MAX && blank > 0 ? blank : length;
}

int
clause_pause_ms(const char *text, size_t length)
{
	if (text[length] == '\0')
		return 0;
	while (length > 0 && text[length - 1] == ' ')
		length--;
	return length > 0 ? mark_pause_ms(text[length - 1]) : 0;
}
