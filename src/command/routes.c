/* lapel routes: for each route the list of what goes there, in the order in which it is fetched. */
#include "command.h"
#include "mending.h"
#include "options.h"
#include "phrase.h"
#include "records.h"
#include "store.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char help[] =
	"lapel routes: for each route the list of what goes there\n\n"
	"Usage: lapel routes --db FILE [OPTION...]\n\n"
	"  --db FILE          the records\n"
	"  --route NAME       only this list\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"The bins of a list stand in your walking order. With each item stands what is to be\n"
	"mended, how long that takes, and, where a price was said, what it leaves: the price less\n"
	"the materials and the time, at the hour of the settings.\n";

enum { LINE_MAX = 640, PHRASE_MAX = 512 };

struct listing_line {
	int route; /* an index into LIST_ROUTE; past its end: none was said */
	int bin;   /* in walking order */
	int64_t met;
	int minutes;
	char text[LINE_MAX];
};

struct listing {
	struct records records;
	struct store *store;
	int only; /* a route, or -1 */
	struct listing_line *lines;
	int64_t count, room;
};

static const struct call *
fact(const struct record *record, enum call_type type)
{
	const struct entry *entry = record_slot(record, type);
	return entry == NULL || entry->said.other ? NULL : &entry->said;
}

static void
add(char *text, const char *gap, const char *more)
{
	size_t used = strlen(text);
	snprintf(text + used, LINE_MAX - used, "%s%s", used > 0 ? gap : "", more);
}

/* "marlock" as Marlock: the text without the name of its type. */
static void
add_fact(const struct record *record, enum call_type type, const char *gap, char *text)
{
	char written[PHRASE_MAX];
	const struct call *said = fact(record, type);
	if (said == NULL)
		return;
	phrase_written(said, written, sizeof written);
	add(text, gap, written + strlen(call_type_name(type)) + 1);
}

static int
mending_text(const struct listing *listing, const struct record *record, char *text)
{
	const struct call *mending = fact(record, CALL_MENDING);
	struct money left;
	char part[PHRASE_MAX], amount[64];
	if (mending == NULL)
		return 0;
	add_fact(record, CALL_MENDING, ": ", text);
	int minutes = mending_minutes(mending);
	snprintf(part, sizeof part, "%d minutes in all", minutes);
	if (mending->listed_count > 1 && minutes > 0)
		add(text, "; ", part);
	if (!mending_left(record, listing->records.settings.mending_hour_minor, &left))
		return minutes;
	bool pays = left.minor > 0;
	left.minor = left.minor < 0 ? -left.minor : left.minor;
	money_format(left, amount, sizeof amount);
	snprintf(part, sizeof part, pays ? "leaves %s %s" : "not worth it: %s %s short", amount,
		 left.currency);
	add(text, "; ", part);
	return minutes;
}

static void
line_of(const struct listing *listing, const struct record *record, struct listing_line *line)
{
	const struct call *number = fact(record, CALL_ITEM);
	char part[PHRASE_MAX];
	line->text[0] = '\0';
	snprintf(part, sizeof part, "%-6s", number == NULL ? "-" : number->label);
	add(line->text, "", part);
	add_fact(record, CALL_BIN, "  bin ", line->text);
	if (record->state == ITEM_OPEN)
		add(line->text, "  ", "(still open)");
	else if (record->state == ITEM_SET_ASIDE)
		add(line->text, "  ", "(set aside)");
	add_fact(record, CALL_KIND, "  ", line->text);
	add_fact(record, CALL_MAKER, ", ", line->text);
	add_fact(record, CALL_SIZE, ", size ", line->text);
	add_fact(record, CALL_COLOUR, ", ", line->text);
	line->minutes = mending_text(listing, record, line->text);
}

static bool
make_room(struct listing *listing, struct problem *problem)
{
	if (listing->count < listing->room)
		return true;
	int64_t room = listing->room == 0 ? 256 : 2 * listing->room;
	struct listing_line *lines = realloc(listing->lines, (size_t)room * sizeof *lines);
	if (lines == NULL)
		return problem_say(problem, "the memory is full");
	listing->lines = lines;
	listing->room = room;
	return true;
}

static bool
on_item(void *user, const struct record *record, struct problem *problem)
{
	struct listing *listing = user;
	const struct vocabulary *vocabulary = listing->records.vocabulary;
	const struct call *route = fact(record, CALL_ROUTE), *bin = fact(record, CALL_BIN);
	int none = vocabulary_count(vocabulary, LIST_ROUTE);
	int to = route == NULL ? none : vocabulary_find(vocabulary, LIST_ROUTE, route->name);
	if (record_empty(record) || (listing->only >= 0 && to != listing->only))
		return true;
	if (!make_room(listing, problem))
		return false;
	struct listing_line *line = &listing->lines[listing->count];
	int place = bin == NULL ? -1 : vocabulary_find(vocabulary, LIST_BIN, bin->label);
	line->route = to < 0 ? none : to;
	line->bin = place < 0 ? vocabulary_count(vocabulary, LIST_BIN) : place;
	line->met = listing->count++;
	line_of(listing, record, line);
	return true;
}

static int
by_route_and_bin(const void *one, const void *other)
{
	const struct listing_line *first = one, *second = other;
	if (first->route != second->route)
		return first->route - second->route;
	if (first->bin != second->bin)
		return first->bin - second->bin;
	return (first->met > second->met) - (first->met < second->met);
}

static void
print_heading(const struct listing *listing, int64_t from)
{
	const struct vocabulary *vocabulary = listing->records.vocabulary;
	int route = listing->lines[from].route, minutes = 0;
	int64_t items = 0;
	for (int64_t i = from; i < listing->count && listing->lines[i].route == route; i++) {
		items++;
		minutes += listing->lines[i].minutes;
	}
	printf("%s%s: %lld item%s", from == 0 ? "" : "\n",
	       route == vocabulary_count(vocabulary, LIST_ROUTE)
		       ? "without a route"
		       : vocabulary_term(vocabulary, LIST_ROUTE, route)->name,
	       (long long)items, items == 1 ? "" : "s");
	if (minutes > 0)
		printf(", %d minutes", minutes);
	printf("\n");
}

static bool
print_lists(struct listing *listing, const char *db, struct problem *problem)
{
	/* Reading must not make a database where a name was mistyped. */
	if (access(db, F_OK) != 0)
		return problem_say(problem, "%s cannot be read: %s", db, strerror(errno));
	listing->store = store_open(db, problem);
	if (listing->store == NULL ||
	    !store_each_item(listing->store, NULL, on_item, listing, problem))
		return false;
	if (listing->count > 0)
		qsort(listing->lines, (size_t)listing->count, sizeof *listing->lines,
		      by_route_and_bin);
	for (int64_t i = 0; i < listing->count; i++) {
		if (i == 0 || listing->lines[i].route != listing->lines[i - 1].route)
			print_heading(listing, i);
		printf("  %s\n", listing->lines[i].text);
	}
	return true;
}

static int
run(const struct command *command, int count, char **argument)
{
	const char *db = NULL, *route = NULL, *settings = NULL;
	const struct option_row rows[] = {
		{"db", &db, NULL}, {"route", &route, NULL}, {"settings", &settings, NULL}};
	struct listing listing = {.only = -1};
	struct problem problem = {""};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (db == NULL)
		return command_wrong_use(command, "--db FILE is missing");
	if (!records_open(&listing.records, settings, &problem))
		return command_failed(&problem);
	if (route != NULL)
		listing.only = vocabulary_find(listing.records.vocabulary, LIST_ROUTE, route);
	if (route != NULL && listing.only < 0)
		problem_say(&problem, "\"%s\" is no route: routes.txt lists them", route);
	else
		print_lists(&listing, db, &problem);
	status = problem.text[0] == '\0' ? DONE : command_failed(&problem);
	store_close(listing.store);
	records_finish(&listing.records);
	free(listing.lines);
	return status;
}

const struct command command_routes = {"routes", "for each route the list of what goes there", help,
				       run};
