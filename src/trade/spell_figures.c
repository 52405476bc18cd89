#include "spell_figures.h"

#include "label.h"
#include "length.h"
#include "words.h"

#include <stdio.h>
#include <string.h>

enum { SPOKEN_MAX = 256 };

struct spelling {
	struct words words; /* of the text, figures and all */
	char *to;
	size_t size;
	bool full;
};

static void
add(struct spelling *spelling, const char *words)
{
	spelling->full =
		spelling->full || strlen(spelling->to) + strlen(words) + 2 > spelling->size;
	if (!spelling->full)
		words_append(spelling->to, spelling->size, words);
}

static bool
has_digit(const char *word)
{
	return word[0] >= '0' && word[0] <= '9';
}

/* A length with its unit behind: how many words of the text it took. */
static int
spell_length(struct spelling *spelling, int at)
{
	const struct words *words = &spelling->words;
	struct length length;
	enum length_unit unit;
	char value[64], said[SPOKEN_MAX];
	int used = at + 1 < words->count && has_digit(words->word[at + 1]) ? 2 : 1;

	if (at + used >= words->count || !length_unit_parse(words->word[at + used], &unit))
		return 0;
	snprintf(value, sizeof value, "%.24s %.24s", words->word[at],
		 used == 2 ? words->word[at + 1] : "");
	if (!length_parse(value, unit, &length))
		return 0;
	length_say(length, said, sizeof said);
	add(spelling, said);
	add(spelling, length_unit_say(length));
	return used + 1;
}

/* Figures alone are said as a label, which serves for percent, grades and sizes too. */
static void
spell_word(struct spelling *spelling, const char *word)
{
	char said[SPOKEN_MAX];
	if (strcmp(word, "%") == 0) {
		add(spelling, "percent");
	} else if (has_digit(word)) {
		label_say(word, said, sizeof said);
		add(spelling, said);
	} else {
		add(spelling, word);
	}
}

/* "60%" as two words. */
static bool
part_signs(const char *text, char *parted, size_t size)
{
	size_t length = 0;
	for (; *text != '\0'; text++) {
		if (length + 4 > size)
			return false;
		if (*text == '%')
			parted[length++] = ' ';
		parted[length++] = *text;
		if (*text == '%')
			parted[length++] = ' ';
	}
	parted[length] = '\0';
	return true;
}

bool
spell_figures(const char *text, char *words, size_t size)
{
	struct spelling spelling = {.to = words, .size = size};
	char parted[WORDS_TEXT_MAX];

	words[0] = '\0';
	if (!part_signs(text, parted, sizeof parted) || !words_split(&spelling.words, parted))
		return false;
	for (int at = 0, used; at < spelling.words.count; at += used) {
		const char *word = spelling.words.word[at];
		used = has_digit(word) ? spell_length(&spelling, at) : 0;
		if (used == 0) {
			spell_word(&spelling, word);
			used = 1;
		}
	}
	return !spelling.full;
}
