#include "writeup_form.h"

#include <ctype.h>
#include <string.h>

static const char separators[] = ",;:.";

/* The characters of UTF-8 text: all bytes but those that go on with one. */
static int
characters(const char *text)
{
	int count = 0;
	for (; *text != '\0'; text++)
		count += ((unsigned char)*text & 0xC0) != 0x80;
	return count;
}

/* Text that begins something has no comma in front, and a capital. */
static const char *
without_opening(const char *text)
{
	return text + strspn(text, " ,;:.");
}

static void
capitalise(struct text *text, size_t from)
{
	if (from < text->length)
		text->chars[from] = (char)toupper((unsigned char)text->chars[from]);
}

/* A row's words in *words, without blanks at the ends; false when it has none. */
static bool
row_words(const struct form_row *row, const struct slots *slots, struct text *words)
{
	text_cut(words, 0);
	if (!pattern_write(row->pattern, slots, words))
		return false;
	while (words->length > 0 && words->chars[words->length - 1] == ' ')
		text_cut(words, words->length - 1);
	return words->length > 0;
}

/* The rows come by how much they tell. One that does not fit is left out whole, and the next ones
 * are still tried. */
static void
write_title(const struct writeup_form *form, const struct slots *slots, struct text *words,
	    struct text *title)
{
	for (int i = 0; i < form->row_count; i++) {
		if (form->rows[i].section != FORM_TITLE || !row_words(&form->rows[i], slots, words))
			continue;
		const char *said = words->chars + strspn(words->chars, " ");
		size_t before = title->length;
		if (before == 0)
			said = without_opening(said);
		else if (strchr(separators, *said) == NULL)
			text_add(title, " ");
		text_add(title, said);
		if (characters(text_chars(title)) > form->title_limit)
			text_cut(title, before);
	}
	capitalise(title, 0);
}

static void
write_description(const struct writeup_form *form, const struct slots *slots, struct text *words,
		  struct text *description)
{
	for (int i = 0; i < form->row_count; i++) {
		if (form->rows[i].section != FORM_DESCRIPTION ||
		    !row_words(&form->rows[i], slots, words))
			continue;
		const char *said = without_opening(words->chars);
		if (*said == '\0')
			continue;
		if (description->length > 0)
			text_add(description, " ");
		size_t from = description->length;
		text_add(description, said);
		capitalise(description, from);
	}
}

/* An empty row of the table is an empty line, but never the first or last one, nor a second. */
static void
write_text(const struct writeup_form *form, const struct slots *slots, struct text *words,
	   struct text *text)
{
	bool blank_due = false;

	for (int i = 0; i < form->row_count; i++) {
		if (form->rows[i].section != FORM_TEXT)
			continue;
		if (form->rows[i].pattern[0] == '\0') {
			blank_due = true;
			continue;
		}
		if (!row_words(&form->rows[i], slots, words))
			continue;
		if (blank_due && text->length > 0)
			text_add(text, "\n");
		blank_due = false;
		text_add(text, words->chars);
		text_add(text, "\n");
	}
}

bool
writeup_write(const struct writeup_form *form, const struct vocabulary *vocabulary,
	      const struct record *record, const struct money *asking, struct writeup *writeup)
{
	struct slots slots = {
		.form = form, .vocabulary = vocabulary, .record = record, .asking = asking};
	struct text words = {.chars = NULL};

	text_cut(&writeup->title, 0);
	text_cut(&writeup->description, 0);
	text_cut(&writeup->text, 0);
	write_title(form, &slots, &words, &writeup->title);
	write_description(form, &slots, &words, &writeup->description);
	slots.title = text_chars(&writeup->title);
	slots.description = text_chars(&writeup->description);
	write_text(form, &slots, &words, &writeup->text);
	bool failed = words.failed || writeup->title.failed || writeup->description.failed ||
		      writeup->text.failed;
	text_finish(&words);
	return !failed;
}

void
writeup_finish(struct writeup *writeup)
{
	text_finish(&writeup->title);
	text_finish(&writeup->description);
	text_finish(&writeup->text);
}
