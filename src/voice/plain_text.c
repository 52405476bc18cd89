#include "plain_text.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { LETTERS_FROM = 0xc0, LETTERS_TO = 0xff, MARKS_FROM = 0x300, MARKS_TO = 0x36f };

/* U+00C0 to U+00FF as they are written where there is no other way. */
static const char *const letters[] = {
	"A", "A", "A", "A", "A", "A", "Ae", "C", "E", "E", "E", "E", "I", "I", "I",  "I",
	"D", "N", "O", "O", "O", "O", "O",  " ", "O", "U", "U", "U", "U", "Y", "Th", "ss",
	"a", "a", "a", "a", "a", "a", "ae", "c", "e", "e", "e", "e", "i", "i", "i",  "i",
	"d", "n", "o", "o", "o", "o", "o",  " ", "o", "u", "u", "u", "u", "y", "th", "y"};
_Static_assert(sizeof letters / sizeof *letters == LETTERS_TO - LETTERS_FROM + 1, "all letters");

/* Reads one character; a byte that cannot stand there is U+FFFD. Returns how many bytes it has. */
static int
utf8_read(const char *text, uint32_t *character)
{
	const unsigned char *byte = (const unsigned char *)text;
	int more = *byte < 0x80 ? 0 : *byte < 0xc2 ? -1 : *byte < 0xe0 ? 1 : *byte < 0xf0 ? 2 : 3;
	*character = more <= 0 ? *byte : *byte & (0x3fu >> more);
	if (more < 0 || *byte > 0xf4) {
		*character = 0xfffd;
		return 1;
	}
	for (int i = 1; i <= more; i++) {
		if ((byte[i] & 0xc0) != 0x80) {
			*character = 0xfffd;
			return 1;
		}
		*character = *character << 6 | (byte[i] & 0x3f);
	}
	return more + 1;
}

static const char *
plain_character(uint32_t character, char ascii[2])
{
	if (character > ' ' && character < 0x7f) {
		ascii[0] = (char)character;
		ascii[1] = '\0';
		return ascii;
	}
	if (character >= LETTERS_FROM && character <= LETTERS_TO)
		return letters[character - LETTERS_FROM];
	if (character >= MARKS_FROM && character <= MARKS_TO)
		return ""; /* a mark on the letter before it */
	if (character == 0x2018 || character == 0x2019)
		return "'";
	return " ";
}

char *
plain_text(const char *text)
{
	/* No character grows longer in ASCII than it is in UTF-8; a cut word grows by its cuts. */
	char *plain = malloc(strlen(text) * 2 + 1);
	if (plain == NULL)
		return NULL;
	size_t length = 0, word = 0;
	uint32_t character;
	while (*text != '\0') {
		char ascii[2];
		text += utf8_read(text, &character);
		for (const char *add = plain_character(character, ascii); *add != '\0'; add++) {
			if (*add == ' ' || word == PLAIN_TEXT_WORD_MAX) {
				if (length > 0 && plain[length - 1] != ' ')
					plain[length++] = ' ';
				word = 0;
			}
			if (*add != ' ') {
				plain[length++] = *add;
				word++;
			}
		}
	}
	if (length > 0 && plain[length - 1] == ' ')
		length--;
	plain[length] = '\0';
	return plain;
}

size_t
plain_text_piece(const char *plain)
{
	size_t length = strlen(plain), sentence = 0, word = 0;
	if (length <= PLAIN_TEXT_PIECE_MAX)
		return length;
	for (size_t i = 1; i <= PLAIN_TEXT_PIECE_MAX; i++) {
		if (plain[i] != ' ')
			continue;
		word = i + 1;
		if (strchr(".?!;:", plain[i - 1]) != NULL)
			sentence = i + 1;
	}
	/* Plain text has no word that long, but any text will do. */
	return sentence > 0 ? sentence : word > 0 ? word : PLAIN_TEXT_PIECE_MAX;
}
