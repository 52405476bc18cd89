/* A text cut into words, for the readers of numbers and of calls. */
#ifndef LAPEL_TRADE_WORDS_H
#define LAPEL_TRADE_WORDS_H

#include <stdbool.h>
#include <stddef.h>

enum { WORDS_MAX = 96, WORDS_TEXT_MAX = 1024 };

struct words {
	char text[WORDS_TEXT_MAX];
	const char *word[WORDS_MAX]; /* into text: a struct words is not copied by assignment */
	int count;
};

/* Cuts `text` at white space; letters become lower case; hyphens and commas part words too
 * ("twenty-one" is two words). False, with no words, when it is too long. */
bool words_split(struct words *words, const char *text);

/* How many words from `at` on are exactly the words of `phrase` (single spaces): all of the
 * phrase's, or 0 when it does not stand there. */
int words_match(const struct words *words, int at, const char *phrase);

/* Whether the word at `at` is `word`; false past the end. */
bool words_is(const struct words *words, int at, const char *word);

/* The other way: adds `more` to the words already in `text` (of `size` bytes), a space between. An
 * empty `more` adds nothing; what does not fit is left out. */
void words_append(char *text, size_t size, const char *more);

#endif
