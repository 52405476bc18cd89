/* Text made fit for flite, which reads ASCII, does not stop at long words and takes more than its
 * share of time over them. Pure. */
#ifndef LAPEL_VOICE_PLAIN_TEXT_H
#define LAPEL_VOICE_PLAIN_TEXT_H

#include <stddef.h>

enum {
	PLAIN_TEXT_WORD_MAX = 40,  /* bytes; a longer word is cut */
	PLAIN_TEXT_PIECE_MAX = 300 /* bytes */
};

/* The text in printable ASCII, its words parted by single spaces: letters of western Europe without
 * their marks, typographic apostrophes as plain ones, all else that is not ASCII (broken UTF-8 too)
 * as a space. The caller frees it. NULL when memory ran out. */
char *plain_text(const char *text);

/* How many bytes of plain text are said in one go: all of it when it is short, otherwise up to the
 * end of a sentence, or else of a word, within PLAIN_TEXT_PIECE_MAX. 0 at the end of the text. */
size_t plain_text_piece(const char *plain);

#endif
