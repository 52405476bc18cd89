#include "text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Room for `more` bytes and the final zero. */
static bool
make_room(struct text *text, size_t more)
{
	size_t wanted = text->length + more + 1;
	if (wanted <= text->room)
		return true;
	size_t room = text->room == 0 ? 256 : 2 * text->room;
	if (room < wanted)
		room = wanted;
	char *chars = realloc(text->chars, room);
	if (chars == NULL) {
		text->failed = true;
		return false;
	}
	text->chars = chars;
	text->room = room;
	return true;
}

void
text_add_bytes(struct text *text, const char *bytes, size_t count)
{
	if (!make_room(text, count))
		return;
	memcpy(text->chars + text->length, bytes, count);
	text->length += count;
	text->chars[text->length] = '\0';
}

void
text_add(struct text *text, const char *chars)
{
	text_add_bytes(text, chars, strlen(chars));
}

void
text_add_format(struct text *text, const char *format, ...)
{
	va_list arguments;
	va_start(arguments, format);
	int count = vsnprintf(NULL, 0, format, arguments);
	va_end(arguments);
	if (count < 0 || !make_room(text, (size_t)count))
		return;
	va_start(arguments, format);
	vsnprintf(text->chars + text->length, (size_t)count + 1, format, arguments);
	va_end(arguments);
	text->length += (size_t)count;
}

void
text_cut(struct text *text, size_t length)
{
	if (length >= text->length)
		return;
	text->length = length;
	text->chars[length] = '\0';
}

void
text_finish(struct text *text)
{
	free(text->chars);
	*text = (struct text){.chars = NULL};
}

const char *
text_chars(const struct text *text)
{
	return text->chars == NULL ? "" : text->chars;
}
