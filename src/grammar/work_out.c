#include "work_out.h"

#include <flite/flite.h>
#include <stdio.h>
#include <string.h>

/* In flite's library, but in none of its headers. */
cst_lexicon *cmu_lex_init(void);

enum { LETTERS_MAX = 63, PHONE_MAX = 8 };

static char
lower_case(char letter)
{
	return (char)(letter >= 'A' && letter <= 'Z' ? letter - 'A' + 'a' : letter);
}

static bool
check_letters(const char *word, struct problem *problem)
{
	int letters = 0;
	for (const char *c = word; *c != '\0'; c++) {
		char letter = lower_case(*c);
		if (letter >= '0' && letter <= '9')
			return problem_say(
				problem,
				"\"%.80s\" has digits in it, and how they are said is not "
				"known: write it out in words, or give its sounds in a "
				"dictionary file",
				word);
		if (letter >= 'a' && letter <= 'z')
			letters++;
		else if (letter != '-' && letter != '\'')
			return problem_say(
				problem,
				"\"%.80s\" is spelled with more than the letters a to z: "
				"spell it as it sounds, or give its sounds in a dictionary "
				"file",
				word);
	}
	if (letters == 0)
		return problem_say(problem, "\"%.80s\" has no letters, so it cannot be said", word);
	if (letters > LETTERS_MAX)
		return problem_say(problem, "\"%.20s...\" is longer than %d letters", word,
				   LETTERS_MAX);
	return true;
}

/* flite's phone in the recogniser's way: no stress digit, "ax" is AH, upper case; and none for
 * silence. */
static void
add_phone(const char *flite_phone, char phones[WORKED_OUT_MAX])
{
	char phone[PHONE_MAX] = "";
	size_t length = 0;

	for (const char *c = flite_phone; *c != '\0' && length + 1 < sizeof phone; c++)
		if (*c < '0' || *c > '9')
			phone[length++] = (char)(*c >= 'a' && *c <= 'z' ? *c - 'a' + 'A' : *c);
	phone[length] = '\0';
	if (strcmp(phone, "AX") == 0)
		strcpy(phone, "AH");
	if (length == 0 || strcmp(phone, "PAU") == 0 ||
	    strlen(phones) + length + 2 > WORKED_OUT_MAX)
		return;
	if (phones[0] != '\0')
		strcat(phones, " ");
	strcat(phones, phone);
}

/* One part of letters; in the lexicon it is looked for with its apostrophes too. */
static void
add_part(const cst_lexicon *lexicon, const char *with_apostrophes, const char *letters,
	 char phones[WORKED_OUT_MAX])
{
	const char *part =
		in_lex(lexicon, with_apostrophes, NULL, NULL) ? with_apostrophes : letters;
	cst_val *found = lex_lookup(lexicon, part, NULL, NULL);
	for (const cst_val *at = found; at != NULL; at = val_cdr(at))
		add_phone(val_string(val_car(at)), phones);
	delete_val(found);
}

bool
work_out_phones(const char *word, char phones[WORKED_OUT_MAX], struct problem *problem)
{
	char part[2 * LETTERS_MAX + 2], letters[LETTERS_MAX + 1];
	size_t part_length = 0, letter_count = 0;

	phones[0] = '\0';
	if (!check_letters(word, problem))
		return false;
	const cst_lexicon *lexicon = cmu_lex_init();
	for (const char *c = word;; c++) {
		char letter = lower_case(*c);
		if (letter == '-' || letter == '\0') {
			part[part_length] = letters[letter_count] = '\0';
			if (letter_count > 0)
				add_part(lexicon, part, letters, phones);
			part_length = letter_count = 0;
			if (letter == '\0')
				break;
			continue;
		}
		if (part_length + 1 < sizeof part)
			part[part_length++] = letter;
		if (letter != '\'')
			letters[letter_count++] = letter;
	}
	return phones[0] != '\0' ||
	       problem_say(problem,
			   "how \"%.80s\" is said cannot be worked out: give its sounds in a "
			   "dictionary file",
			   word);
}
