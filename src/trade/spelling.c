#include "spelling.h"

#include "number.h"

static const char *const letters[] = {
	"alfa",	   "bravo", "charlie", "delta",	 "echo",     "foxtrot", "golf",	  "hotel",  "india",
	"juliett", "kilo",  "lima",    "mike",	 "november", "oscar",	"papa",	  "quebec", "romeo",
	"sierra",  "tango", "uniform", "victor", "whiskey",  "xray",	"yankee", "zulu",
};

enum { LETTERS = sizeof letters / sizeof *letters };

/* As they are written elsewhere. */
static const struct {
	const char *words;
	char letter;
} others[] = {{"alpha", 'a'}, {"juliet", 'j'}, {"whisky", 'w'}, {"x ray", 'x'}};

/* One letter or digit; how many words it took. */
static int
read_one(const struct words *words, int at, char *letter)
{
	int digit, used;
	for (int i = 0; i < LETTERS; i++) {
		*letter = (char)('a' + i);
		if (words_is(words, at, letters[i]))
			return 1;
	}
	for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
		*letter = others[i].letter;
		used = words_match(words, at, others[i].words);
		if (used > 0)
			return used;
	}
	used = number_digit(words, at, false, &digit);
	*letter = used > 0 ? (char)('0' + digit) : '\0';
	return used;
}

int
spelling_read(const struct words *words, int at, char *name, size_t size)
{
	size_t length = 0;
	int used = 0, one;
	char letter;
	while ((one = read_one(words, at + used, &letter)) > 0) {
		if (length + 1 >= size)
			return 0;
		name[length++] = letter;
		used += one;
	}
	if (length > 0)
		name[length] = '\0';
	return used;
}

void
spelling_say(const char *name, char *text, size_t size)
{
	char digit[16];
	text[0] = '\0';
	for (; *name != '\0'; name++) {
		if (*name >= 'a' && *name <= 'z')
			words_append(text, size, letters[*name - 'a']);
		if (*name < '0' || *name > '9')
			continue;
		number_say(*name - '0', digit, sizeof digit);
		words_append(text, size, digit);
	}
}
