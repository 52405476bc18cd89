/* Cuts an utterance's words into calls, so that all words are used.
 *
 * A search in depth: at each place the ways of reading the next call are tried, longest first, and
 * one that gets nowhere is given up for the next ("flaw hole hem thirty one" is a hole, and a hem
 * of 31). What can follow depends only on the place, on how many calls there are and on the type of
 * the last one (which a "no" may correct), so each such case is tried once. */
#include "meaning.h"

#include "meaning_reader.h"

#include <string.h>

enum { LAST_KINDS = 2 * CALL_TYPES + 1 };

struct search {
	struct reader reader;
	struct meaning *meaning;
	bool bare_later; /* bare values after an order or an answer too, not only at the opening */
	bool failed[WORDS_MAX + 1][MEANING_CALLS_MAX + 1][LAST_KINDS];
};

static bool search_from(struct search *search, int at);

/* Whether a bare value may come after `last` (NULL: at the opening). After a call with a value of
 * its own it would be anybody's guess what it is the value of. */
static bool
bare_may_follow(const struct search *search, const struct call *last)
{
	return last == NULL ||
	       (search->bare_later && (last->type == CALL_ORDER || last->type == CALL_ANSWER));
}

static const struct call *
last_call(const struct meaning *meaning)
{
	return meaning->count == 0 ? NULL : &meaning->calls[meaning->count - 1];
}

static int
last_kind(const struct meaning *meaning)
{
	const struct call *last = last_call(meaning);
	if (last == NULL)
		return 2 * CALL_TYPES;
	return last->type == CALL_KEEP ? (int)CALL_TYPES + (int)last->kept : (int)last->type;
}

/* Goes on with `call` added; on failure it is taken away again. */
static bool
search_with(struct search *search, const struct call *call, int after)
{
	struct meaning *meaning = search->meaning;

	if (meaning->count == MEANING_CALLS_MAX)
		return false;
	meaning->calls[meaning->count++] = *call;
	if (search_from(search, after))
		return true;
	meaning->count--;
	return false;
}

/* Tries each way that `read` has of reading the words at `at`. `first` is where the words of the
 * call begin, which may be before. */
static bool
search_ways(struct search *search, argument_reader *read, const struct call *blank, int first,
	    int at)
{
	for (int nth = 0;; nth++) {
		struct call call = *blank;
		int used = read(&search->reader, at, nth, &call);
		if (used == 0)
			return false;
		call.correction = blank->correction;
		call.first_word = first;
		call.word_count = at + used - first;
		if (search_with(search, &call, at + used))
			return true;
	}
}

/* At a "no": what comes after it takes the place of the last call. */
static bool
search_correction(struct search *search, int at)
{
	struct meaning *meaning = search->meaning;
	const struct words *words = search->reader.words;
	bool has_last = meaning->count > 0;
	struct call last = {0};
	int after = at;

	while (words_is(words, after, "no"))
		after++;
	if (has_last)
		last = meaning->calls[--meaning->count];

	struct call again = last;
	again.correction = true;
	struct call other = {.correction = true};
	struct call bare = {.type = CALL_MEASURE, .correction = true};
	struct call no = {.type = CALL_ANSWER,
			  .correction = has_last,
			  .first_word = at,
			  .word_count = after - at};
	bool found;
	if (after == words->count)
		found = search_with(search, &no, after);
	else
		found = (has_last &&
			 search_ways(search, read_again, &again, last.first_word, after)) ||
			search_ways(search, read_call, &other, at, after) ||
			(bare_may_follow(search, has_last ? &last : NULL) &&
			 search_ways(search, read_length_or_none, &bare, at, after));
	if (!found && has_last)
		meaning->calls[meaning->count++] = last;
	return found;
}

static bool
search_from(struct search *search, int at)
{
	const struct words *words = search->reader.words;
	struct meaning *meaning = search->meaning;
	bool found;

	if (at == words->count)
		return meaning->count > 0;
	bool *failed = &search->failed[at][meaning->count][last_kind(meaning)];
	if (*failed)
		return false;
	if (words_is(words, at, "no")) {
		found = search_correction(search, at);
	} else {
		struct call blank = {0};
		struct call bare = {.type = CALL_MEASURE};
		found = search_ways(search, read_call, &blank, at, at) ||
			(bare_may_follow(search, last_call(meaning)) &&
			 search_ways(search, read_length_or_none, &bare, at, at));
	}
	*failed = !found;
	return found;
}

bool
meaning_read(const struct vocabulary *vocabulary, const struct meaning_setting *setting,
	     const struct words *words, struct meaning *meaning)
{
	struct search search = {
		.reader = {.vocabulary = vocabulary, .setting = setting, .words = words},
		.meaning = meaning,
	};

	memset(meaning, 0, sizeof *meaning);
	if (search_from(&search, 0))
		return true;
	memset(search.failed, 0, sizeof search.failed);
	search.bare_later = true;
	if (search_from(&search, 0))
		return true;
	memset(meaning, 0, sizeof *meaning);
	return false;
}

bool
meaning_same(const struct meaning *one, const struct meaning *other)
{
	if (one->count != other->count)
		return false;
	for (int i = 0; i < one->count; i++)
		if (!call_same(&one->calls[i], &other->calls[i]))
			return false;
	return true;
}
