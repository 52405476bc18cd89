/* Records for tests, as they come of what is dictated. */
#ifndef LAPEL_TESTS_TRADE_DICTATION_H
#define LAPEL_TESTS_TRADE_DICTATION_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "lists.h"
#include "meaning.h"
#include "record.h"

#include <string.h>

/* Writes an utterance's calls down, one after another; inches and dollars where none are said. */
static void
dictate_as(struct record *record, const struct vocabulary *vocabulary, const char *said,
	   bool confirmed)
{
	static const struct meaning_setting setting = {LENGTH_INCH, "USD"};
	struct words words;
	struct meaning meaning;
	struct deed deed;

	assert_true(words_split(&words, said));
	if (!meaning_read(vocabulary, &setting, &words, &meaning))
		fail_msg("\"%s\" is no call", said);
	for (int i = 0; i < meaning.count; i++)
		assert_true(record_write(record, &meaning.calls[i], confirmed, &deed));
}

static void
dictate(struct record *record, const struct vocabulary *vocabulary, const char *said)
{
	dictate_as(record, vocabulary, said, false);
}

/* A new record of several utterances, parted by full stops. Closed, as after "next". */
static void
dictate_item(struct record *record, const struct vocabulary *vocabulary, const char *said)
{
	char copy[2048];
	assert_true(strlen(said) < sizeof copy);
	strcpy(copy, said);
	record_init(record);
	for (char *rest = copy, *utterance; (utterance = strsep(&rest, ".")) != NULL;)
		if (utterance[strspn(utterance, " ")] != '\0')
			dictate(record, vocabulary, utterance);
	record->state = ITEM_DONE;
}

#endif
