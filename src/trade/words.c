#include "words.h"

#include <stdio.h>
#include <string.h>

/* ASCII only: the grammars are, and the locale must not change what was said. */
static bool
parts_words(char letter)
{
	return letter != '\0' && strchr(" \t\r\n\v\f-,", letter) != NULL;
}

static char
lower_case(char letter)
{
	return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

bool
words_split(struct words *words, const char *text)
{
	words->count = 0;
	if (strlen(text) >= sizeof words->text)
		return false;
	int count = 0;
	bool inside = false;
	char *to = words->text;
	for (; *text != '\0'; text++, to++) {
		if (parts_words(*text)) {
			*to = '\0';
			inside = false;
			continue;
		}
		if (!inside) {
			if (count == WORDS_MAX)
				return false;
			words->word[count++] = to;
			inside = true;
		}
		*to = lower_case(*text);
	}
	*to = '\0';
	words->count = count;
	return true;
}

int
words_match(const struct words *words, int at, const char *phrase)
{
	int used = 0;
	while (*phrase != '\0') {
		size_t length = strcspn(phrase, " ");
		if (at < 0 || at + used >= words->count)
			return 0;
		const char *word = words->word[at + used];
		if (strlen(word) != length || memcmp(word, phrase, length) != 0)
			return 0;
		used++;
		phrase += length;
		if (*phrase == ' ')
			phrase++;
	}
	return used;
}

bool
words_is(const struct words *words, int at, const char *word)
{
	return at >= 0 && at < words->count && strcmp(words->word[at], word) == 0;
}

void
words_append(char *text, size_t size, const char *more)
{
	size_t length = strlen(text);
	if (*more != '\0' && length < size)
		snprintf(text + length, size - length, "%s%s", length > 0 ? " " : "", more);
}
