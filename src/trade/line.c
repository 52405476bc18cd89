#include "line.h"

#include "words.h"

#include <stdio.h>
#include <string.h>

struct line
line_start(char *text, size_t size)
{
	text[0] = '\0';
	return (struct line){.text = text, .size = size};
}

void
line_join(struct line *line, const char *words)
{
	size_t length = strlen(line->text);
	snprintf(line->text + length, line->size - length, "%s", words);
}

void
line_add(struct line *line, const char *words)
{
	if (words != NULL)
		words_append(line->text, line->size, words);
}
