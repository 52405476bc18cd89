/* Finding lines of the listing: the queue, and what is looked for. */
#include "review_inside.h"
#include "review_listing.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

enum { SEARCH_WORDS_MAX = 12, SEARCH_TEXT_MAX = 600 };

#define LINE_COLUMNS                                                                  \
	"listing.item, number, bin, kind, maker, route, state, day, title, urgency, " \
	"matters"

static const char *
column(sqlite3_stmt *row, int index)
{
	return (const char *)sqlite3_column_text(row, index);
}

static bool
visit_lines(sqlite3_stmt *row, listing_visitor *visit, void *user, int *count)
{
	*count = 0;
	if (row == NULL)
		return false;
	while (sqlite3_step(row) == SQLITE_ROW) {
		struct listing line = {.item = sqlite3_column_int64(row, 0),
				       .number = column(row, 1),
				       .bin = column(row, 2),
				       .kind = column(row, 3),
				       .maker = column(row, 4),
				       .route = column(row, 5),
				       .state = column(row, 6),
				       .day = column(row, 7),
				       .title = column(row, 8),
				       .urgency = sqlite3_column_int(row, 9),
				       .matters = column(row, 10)};
		(*count)++;
		if (!visit(user, &line))
			break;
	}
	return connection_end(row);
}

bool
listing_queue(struct review *review, const struct listing_queue *queue, listing_visitor *visit,
	      void *user)
{
	static const char all[] = "SELECT " LINE_COLUMNS " FROM listing"
				  " WHERE (urgency, item) > (?1, ?2) AND urgency <= ?3"
				  " ORDER BY urgency, item LIMIT ?4";
	static const char of_day[] = "SELECT " LINE_COLUMNS " FROM listing"
				     " WHERE day = ?5 AND (urgency, item) > (?1, ?2)"
				     " AND urgency <= ?3 ORDER BY urgency, item LIMIT ?4";
	bool some = queue->urgency > 0;
	int from = some && queue->after_urgency < queue->urgency ? queue->urgency
								 : queue->after_urgency;
	int64_t after = from == queue->after_urgency ? queue->after_item : 0;
	int count;
	const struct value values[] = {value_integer(from), value_integer(after),
				       value_integer(some ? queue->urgency : LISTING_QUEUE_LAST),
				       value_integer(queue->most), value_text(queue->day)};
	return visit_lines(queue->day == NULL ? review_start(review, all, values, 4)
					      : review_start(review, of_day, values, 5),
			   visit, user, &count);
}

bool
listing_counts(struct review *review, const char *day, int64_t *counts, int most)
{
	static const char all[] = "SELECT urgency, count(*) FROM listing GROUP BY urgency";
	static const char of_day[] =
		"SELECT urgency, count(*) FROM listing WHERE day = ? GROUP BY urgency";
	sqlite3_stmt *row = day == NULL ? review_start(review, all, NO_VALUES)
					: review_start(review, of_day, VALUES(value_text(day)));
	memset(counts, 0, sizeof *counts * (size_t)(most + 1));
	if (row == NULL)
		return false;
	while (sqlite3_step(row) == SQLITE_ROW) {
		int urgency = sqlite3_column_int(row, 0);
		if (urgency >= 0 && urgency <= most)
			counts[urgency] = sqlite3_column_int64(row, 1);
	}
	return connection_end(row);
}

bool
listing_line(struct review *review, int64_t item, listing_visitor *visit, void *user)
{
	static const char sql[] = "SELECT " LINE_COLUMNS " FROM listing WHERE item = ?";
	int count;
	return visit_lines(review_start(review, sql, VALUES(value_integer(item))), visit, user,
			   &count) &&
	       count == 1;
}

/* Words as FTS5 wants them: each in quotes, so that nothing in it is an operator, and as the
 * beginning of a word. Empty when there are none. */
static void
search_text(const char *words, char text[SEARCH_TEXT_MAX])
{
	size_t length = 0;
	int count = 0;
	text[0] = '\0';
	while (words != NULL && *words != '\0' && count < SEARCH_WORDS_MAX) {
		size_t word = 0;
		while (isalnum((unsigned char)words[word]) || (unsigned char)words[word] >= 0x80)
			word++;
		if (word > 0 && length + word + 8 < SEARCH_TEXT_MAX) {
			length += (size_t)snprintf(text + length, SEARCH_TEXT_MAX - length,
						   "%s\"%.*s\"*", count > 0 ? " " : "", (int)word,
						   words);
			count++;
		}
		words += word > 0 ? word : 1;
	}
}

/* A condition with one value; both are of the search under way. */
struct search {
	char sql[1200];
	struct value values[16];
	int count;
};

static void
want(struct search *search, const char *condition, struct value value)
{
	size_t length = strlen(search->sql);
	snprintf(search->sql + length, sizeof search->sql - length, "%s %s",
		 search->count == 0 ? " WHERE" : " AND", condition);
	search->values[search->count++] = value;
}

static void
want_text(struct search *search, const char *condition, const char *text)
{
	if (text != NULL && text[0] != '\0')
		want(search, condition, value_text(text));
}

bool
listing_search(struct review *review, const struct listing_wanted *wanted, listing_visitor *visit,
	       void *user)
{
	char words[SEARCH_TEXT_MAX];
	struct search search = {.count = 0};
	sqlite3_stmt *row = NULL;
	int count;
	search_text(wanted->words, words);
	bool by_words = words[0] != '\0';
	const char *item = by_words ? "listing_words.rowid" : "listing.item";
	char below[64], above[64], order[100];

	snprintf(search.sql, sizeof search.sql, "SELECT " LINE_COLUMNS " FROM %s",
		 by_words ? "listing_words CROSS JOIN listing ON listing.item ="
			    " listing_words.rowid"
			  : "listing");
	snprintf(below, sizeof below, "%s < ?", item);
	snprintf(above, sizeof above, "%s > ?", item);
	snprintf(order, sizeof order, " ORDER BY %s%s LIMIT %d", item,
		 wanted->rising ? "" : " DESC", wanted->most);
	if (by_words)
		want(&search, "listing_words MATCH ?", value_text(words));
	want_text(&search, "number = ?", wanted->number);
	want_text(&search, "bin = ?", wanted->bin);
	want_text(&search, "kind = ?", wanted->kind);
	want_text(&search, "maker = ?", wanted->maker);
	want_text(&search, "route = ?", wanted->route);
	want_text(&search, "state = ?", wanted->state);
	want_text(&search, "day >= ?", wanted->from);
	want_text(&search, "day <= ?", wanted->to);
	if (wanted->before > 0)
		want(&search, below, value_integer(wanted->before));
	if (wanted->after > 0)
		want(&search, above, value_integer(wanted->after));
	size_t length = strlen(search.sql);
	snprintf(search.sql + length, sizeof search.sql - length, "%s", order);

	bool found =
		sqlite3_prepare_v2(review->database, search.sql, -1, &row, NULL) == SQLITE_OK &&
		connection_bind(row, search.values, search.count) &&
		visit_lines(row, visit, user, &count);
	sqlite3_finalize(row);
	return found;
}

bool
listing_tally(struct review *review, bool routes, review_tally_visitor *visit, void *user)
{
	static const char of_routes[] = "SELECT route, count(*) FROM listing"
					" WHERE route IS NOT NULL GROUP BY route";
	static const char of_states[] = "SELECT state, count(*) FROM listing GROUP BY state";
	sqlite3_stmt *row = review_start(review, routes ? of_routes : of_states, NO_VALUES);
	if (row == NULL)
		return false;
	while (sqlite3_step(row) == SQLITE_ROW)
		if (!visit(user, column(row, 0), sqlite3_column_int64(row, 1)))
			break;
	return connection_end(row);
}
