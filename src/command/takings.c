/* lapel takings: what the wanted prices leave in hand, by item and by day. */
#include "command.h"
#include "file_text.h"
#include "mending.h"
#include "options.h"
#include "postage.h"
#include "records.h"
#include "store.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const char help[] =
	"lapel takings: what is left in hand, by item and by day\n\n"
	"Usage: lapel takings --db FILE [OPTION...]\n\n"
	"  --db FILE          the records\n"
	"  --by item|day      a row for each item that has a price, or for each day on which "
	"items\n"
	"                     were closed and each currency; item unless said\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"The table is CSV (RFC 4180). What is left is the wanted price, less the fee of the\n"
	"settings, the cost, the mending (its materials, and its time at the settings' hour), and\n"
	"the postage of grammars/postage.txt where the price has it in it. What is not known is\n"
	"counted as nothing, and the column \"unknown\" names it. Days are this machine's.\n";

enum { DAY_MAX = 16, AMOUNT_MAX = 32 };

/* The items of one day that are in one currency. */
struct day {
	char date[DAY_MAX]; /* "2026-11-25"; empty: not closed yet */
	struct takings takings;
	int64_t mending_minor;
};

struct taking {
	struct records records;
	struct postage postage;
	struct store *store;
	struct csv_rows rows;
	bool by_day;
	struct day *days; /* in the order in which they were met */
	int day_count, day_room;
};

static bool
read_postage(struct taking *taking, struct problem *problem)
{
	const struct settings *settings = &taking->records.settings;
	char *text = file_text_in(taking->records.folders.grammars, "postage.txt", problem);
	bool good = text != NULL && postage_read(&taking->postage, taking->records.vocabulary,
						 settings->currency, "postage.txt", text, problem);
	free(text);
	return good;
}

static void
date_of(struct store *store, int64_t item, char date[DAY_MAX])
{
	struct tm day;
	int64_t closed_unix_ms = store_closed_at(store, item);
	time_t seconds = (time_t)(closed_unix_ms / 1000);
	date[0] = '\0';
	if (closed_unix_ms != 0 && localtime_r(&seconds, &day) != NULL)
		strftime(date, DAY_MAX, "%Y-%m-%d", &day);
}

static const struct call *
fact(const struct record *record, enum call_type type)
{
	const struct entry *entry = record_slot(record, type);
	return entry == NULL || entry->said.other ? NULL : &entry->said;
}

/* What the postage bears on the sum; NULL where that is not known. */
static const struct money *
postage_of(const struct taking *taking, const struct record *record, struct money *due)
{
	const struct call *weight = fact(record, CALL_WEIGHT);
	const struct call *parcel = fact(record, CALL_PARCEL);
	enum postage_due known = postage_for(&taking->postage, weight == NULL ? 0 : weight->grams,
					     parcel == NULL ? NULL : parcel->name, due);
	return known == POSTAGE_DUE ? due : NULL;
}

/* What the mending costs; 0 where none was said, or it is in another currency. */
static int64_t
mending_of(const struct taking *taking, const struct record *record)
{
	struct money left;
	const struct call *price = fact(record, CALL_PRICE);
	if (!mending_left(record, taking->records.settings.mending_hour_minor, &left))
		return 0;
	return price->money.minor - left.minor;
}

static void
add_amount(struct taking *taking, int64_t minor, const char *currency)
{
	char amount[AMOUNT_MAX + 1];
	struct money money = {minor < 0 ? -minor : minor, ""};
	memcpy(money.currency, currency, sizeof money.currency);
	amount[0] = '-';
	money_format(money, amount + 1, AMOUNT_MAX);
	csv_add_number(&taking->rows, minor < 0 ? amount : amount + 1);
}

static void
add_sums(struct taking *taking, const struct day *day)
{
	const struct takings *sum = &day->takings;
	csv_add_text(&taking->rows, sum->currency);
	add_amount(taking, sum->paid_minor, sum->currency);
	add_amount(taking, sum->fee_minor, sum->currency);
	add_amount(taking, sum->cost_minor, sum->currency);
	add_amount(taking, sum->postage_minor, sum->currency);
	add_amount(taking, day->mending_minor, sum->currency);
	add_amount(taking, sum->left_minor - day->mending_minor, sum->currency);
}

static void
print_rows(struct taking *taking)
{
	fwrite(text_chars(&taking->rows.text), 1, taking->rows.text.length, stdout);
	text_cut(&taking->rows.text, 0);
}

static void
print_heading(struct taking *taking)
{
	static const char *const by_item[] = {"day", "number", "kind", NULL};
	static const char *const by_day[] = {"day", "items", NULL};
	static const char *const sums[] = {"currency", "price",	  "fee",  "cost",
					   "postage",  "mending", "left", "unknown"};
	for (const char *const *name = taking->by_day ? by_day : by_item; *name != NULL; name++)
		csv_add_text(&taking->rows, *name);
	for (size_t i = 0; i < sizeof sums / sizeof *sums; i++)
		csv_add_text(&taking->rows, sums[i]);
	csv_end_row(&taking->rows);
	print_rows(taking);
}

static void
print_item(struct taking *taking, const struct record *record, const struct day *day)
{
	const struct call *number = fact(record, CALL_ITEM);
	const struct call *kind = fact(record, CALL_KIND);
	const struct takings *sum = &day->takings;
	csv_add_text(&taking->rows, day->date);
	csv_add_text(&taking->rows, number == NULL ? "" : number->label);
	csv_add_text(&taking->rows, kind == NULL ? "" : kind->name);
	add_sums(taking, day);
	csv_add_text(&taking->rows, sum->without_cost && sum->without_postage ? "cost, postage"
				    : sum->without_cost			      ? "cost"
				    : sum->without_postage		      ? "postage"
									      : "");
	csv_end_row(&taking->rows);
	print_rows(taking);
}

static void
print_day(struct taking *taking, const struct day *day)
{
	char count[64];
	const struct takings *sum = &day->takings;
	csv_add_text(&taking->rows, day->date);
	snprintf(count, sizeof count, "%lld", (long long)sum->items);
	csv_add_number(&taking->rows, count);
	add_sums(taking, day);
	count[0] = '\0';
	if (sum->without_cost > 0)
		snprintf(count, sizeof count, "cost of %lld", (long long)sum->without_cost);
	size_t used = strlen(count);
	if (sum->without_postage > 0)
		snprintf(count + used, sizeof count - used, "%spostage of %lld",
			 used > 0 ? ", " : "", (long long)sum->without_postage);
	csv_add_text(&taking->rows, count);
	csv_end_row(&taking->rows);
	print_rows(taking);
}

static bool
add_to_day(struct taking *taking, const struct day *item, struct problem *problem)
{
	int i = 0;
	while (i < taking->day_count &&
	       (strcmp(taking->days[i].date, item->date) != 0 ||
		strcmp(taking->days[i].takings.currency, item->takings.currency) != 0))
		i++;
	if (i < taking->day_count) {
		taking->days[i].mending_minor += item->mending_minor;
		return takings_add(&taking->days[i].takings, &item->takings) ||
		       problem_say(problem, "the sums of %s are too large", item->date);
	}
	if (taking->day_count == taking->day_room) {
		int room = taking->day_room == 0 ? 64 : 2 * taking->day_room;
		struct day *days = realloc(taking->days, (size_t)room * sizeof *days);
		if (days == NULL)
			return problem_say(problem, "the memory is full");
		taking->days = days;
		taking->day_room = room;
	}
	taking->days[taking->day_count++] = *item;
	return true;
}

/* An item without a price, or with a cost in another currency, has no taking. */
static bool
on_item(void *user, const struct record *record, struct problem *problem)
{
	struct taking *taking = user;
	const struct call *price = fact(record, CALL_PRICE);
	const struct call *cost = fact(record, CALL_COST);
	struct money due;
	struct day item = {.mending_minor = 0};
	if (price == NULL || !takings_of(&taking->records.settings.terms, price->money,
					 cost == NULL ? NULL : &cost->money,
					 postage_of(taking, record, &due), &item.takings))
		return true;
	item.mending_minor = mending_of(taking, record);
	date_of(taking->store, record->item, item.date);
	if (taking->by_day)
		return add_to_day(taking, &item, problem);
	print_item(taking, record, &item);
	return !ferror(stdout);
}

static int
by_date(const void *one, const void *other)
{
	const struct day *first = one, *second = other;
	int order = strcmp(first->date, second->date);
	return order != 0 ? order : strcmp(first->takings.currency, second->takings.currency);
}

static bool
print_takings(struct taking *taking, const char *db, struct problem *problem)
{
	/* Reading must not make a database where a name was mistyped. */
	if (access(db, F_OK) != 0)
		return problem_say(problem, "%s cannot be read: %s", db, strerror(errno));
	taking->store = store_open(db, problem);
	if (taking->store == NULL || !read_postage(taking, problem))
		return false;
	print_heading(taking);
	if (!store_each_item(taking->store, NULL, on_item, taking, problem))
		return false;
	if (taking->day_count > 0)
		qsort(taking->days, (size_t)taking->day_count, sizeof *taking->days, by_date);
	for (int i = 0; i < taking->day_count; i++)
		print_day(taking, &taking->days[i]);
	return true;
}

static int
run(const struct command *command, int count, char **argument)
{
	const char *db = NULL, *by = NULL, *settings = NULL;
	const struct option_row rows[] = {
		{"db", &db, NULL}, {"by", &by, NULL}, {"settings", &settings, NULL}};
	struct problem problem = {""};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (db == NULL)
		return command_wrong_use(command, "--db FILE is missing");
	if (by != NULL && strcmp(by, "item") != 0 && strcmp(by, "day") != 0)
		return command_wrong_use(command, "--by %s is neither item nor day", by);

	struct taking taking = {.by_day = by != NULL && strcmp(by, "day") == 0};
	if (!records_open(&taking.records, settings, &problem))
		return command_failed(&problem);
	status = print_takings(&taking, db, &problem) || ferror(stdout) ? DONE
									: command_failed(&problem);
	store_close(taking.store);
	records_finish(&taking.records);
	text_finish(&taking.rows.text);
	free(taking.days);
	return status;
}

const struct command command_takings = {"takings", "what is left in hand, by item and by day", help,
					run};
