/* lapel export: records handed on. */
#include "command.h"
#include "export_folder.h"
#include "furnish.h"
#include "options.h"
#include "records.h"
#include "store.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char help[] =
	"lapel export: hand records on, as a table, as data or as text\n\n"
	"Usage: lapel export --db FILE --as csv|jsonld|text [OPTION...]\n\n"
	"  --db FILE          the records\n"
	"  --as csv           a row for each item, for spreadsheets (RFC 4180); lapel import reads "
	"it\n"
	"                     again\n"
	"  --as jsonld        schema.org products, in JSON-LD\n"
	"  --as text          write-ups: title, description, measures, as grammars/writeup.txt "
	"says\n"
	"  --items A-B        only the items of these numbers, both inclusive; A alone is one "
	"item\n"
	"  --route NAME       only the items that go there: the list for mending, for charity ...\n"
	"  --to DIR           a folder for each item in DIR, with its pictures; otherwise all "
	"items "
	"on\n"
	"                     standard output\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"A text cell that a spreadsheet could take for a formula begins with an apostrophe; so "
	"does "
	"one\n"
	"that began with one. Asking prices are worked out from the wanted price and the standing\n"
	"discount of the settings. The left and the right of a garment are its wearer's.\n";

struct options {
	const char *db, *route, *to, *settings;
	const struct export_form *form;
	bool some; /* only these numbers */
	struct store_numbers numbers;
};

struct exporting {
	const struct options *options;
	struct records records;
	struct export_with with;
	struct writeup_form *writeup_form;
	struct sketch_book *sketches;
	struct export_folder folder;
	struct store *store;
	struct text text;
	int64_t count; /* of items that were handed on */
	int64_t bad;   /* of items of which something is lacking */
};

static bool
open_folder(struct exporting *exporting, struct problem *problem)
{
	const struct options *options = exporting->options;
	if (options->to == NULL)
		return true;
	exporting->folder = (struct export_folder){.path = options->to,
						   .form = options->form,
						   .with = &exporting->with,
						   .sketches = exporting->sketches};
	return export_folder_open(&exporting->folder, problem);
}

static bool
open_all(struct exporting *exporting, struct problem *problem)
{
	const struct options *options = exporting->options;
	const struct vocabulary *vocabulary = exporting->records.vocabulary;
	if (options->route != NULL && vocabulary_find(vocabulary, LIST_ROUTE, options->route) < 0)
		return problem_say(problem, "\"%s\" is no route: routes.txt lists them",
				   options->route);
	if (!furnish_writeups(&exporting->records.folders, vocabulary, &exporting->writeup_form,
			      &exporting->sketches, problem))
		return false;
	exporting->with = (struct export_with){.rows = &exporting->records.rows,
					       .writeup_form = exporting->writeup_form};
	/* Reading must not make a database where a name was mistyped. */
	if (access(options->db, F_OK) != 0)
		return problem_say(problem, "%s cannot be read: %s", options->db, strerror(errno));
	exporting->store = store_open(options->db, problem);
	return exporting->store != NULL && open_folder(exporting, problem);
}

static void
close_all(struct exporting *exporting)
{
	store_close(exporting->store);
	export_folder_finish(&exporting->folder);
	export_with_finish(&exporting->with);
	sketch_book_destroy(exporting->sketches);
	writeup_form_destroy(exporting->writeup_form);
	text_finish(&exporting->text);
}

static bool
print_item(struct exporting *exporting, const struct record *record, struct problem *lacking,
	   struct problem *problem)
{
	static const char *const no_pictures[] = {NULL};
	const struct export_form *form = exporting->options->form;
	struct text *text = &exporting->text;

	text_cut(text, 0);
	if (exporting->count > 0)
		text_add(text, form->between);
	form->item(&exporting->with, record, false, no_pictures, text, lacking);
	if (text->failed)
		return problem_say(problem, "the memory is full");
	fwrite(text_chars(text), 1, text->length, stdout);
	return !ferror(stdout);
}

/* An item of which something is lacking is told, and the others go on. */
static bool
on_item(void *user, const struct record *record, struct problem *problem)
{
	struct exporting *exporting = user;
	const struct options *options = exporting->options;
	const struct entry *route = record_slot(record, CALL_ROUTE);
	struct problem lacking = {""};

	if (options->route != NULL &&
	    (route == NULL || strcmp(route->said.name, options->route) != 0))
		return true;
	bool done = options->to != NULL
			    ? export_folder_item(&exporting->folder, record, &lacking, problem)
			    : print_item(exporting, record, &lacking, problem);
	exporting->count += done;
	if (lacking.text[0] != '\0') {
		exporting->bad++;
		command_failed(&lacking);
	}
	return done;
}

static bool
export_items(struct exporting *exporting, struct problem *problem)
{
	const struct options *options = exporting->options;
	const struct export_form *form = options->form;

	if (options->to == NULL) {
		text_add(&exporting->text, form->opening);
		if (form->head != NULL)
			form->head(&exporting->with, &exporting->text);
		fputs(text_chars(&exporting->text), stdout);
	}
	if (!store_each_item(exporting->store, options->some ? &options->numbers : NULL, on_item,
			     exporting, problem))
		return false;
	if (options->to == NULL)
		fputs(form->closing, stdout);
	return true;
}

static void
tell(const struct exporting *exporting)
{
	const struct options *options = exporting->options;
	if (options->to != NULL)
		fprintf(stderr, "lapel: %lld item%s in %s\n", (long long)exporting->count,
			exporting->count == 1 ? "" : "s", options->to);
	else if (exporting->count == 0)
		fprintf(stderr, "lapel: there is no such item\n");
}

static int
export_records(const struct options *options)
{
	struct problem problem = {""};
	struct exporting *exporting = calloc(1, sizeof *exporting);
	int status = DONE;

	if (exporting == NULL) {
		problem_say(&problem, "the memory is full");
		return command_failed(&problem);
	}
	exporting->options = options;
	if (!records_open(&exporting->records, options->settings, &problem)) {
		free(exporting);
		return command_failed(&problem);
	}
	if (!open_all(exporting, &problem) || !export_items(exporting, &problem))
		/* What could not be printed is told where all commands end. */
		status = ferror(stdout) ? DONE : command_failed(&problem);
	else
		tell(exporting);
	if (exporting->bad > 0)
		status = FAILED;
	close_all(exporting);
	records_finish(&exporting->records);
	free(exporting);
	return status;
}

/* Digits alone, as many as STORE_NUMBER_MAX has at the most. */
static bool
read_number(const char *text, size_t length, int64_t *number)
{
	if (length == 0 || length > 18 || strspn(text, "0123456789") < length)
		return false;
	*number = strtoll(text, NULL, 10);
	return true;
}

/* "482", or "480-495". */
static bool
read_numbers(const char *text, struct store_numbers *numbers)
{
	size_t length = strcspn(text, "-");
	const char *to = text[length] == '-' ? text + length + 1 : text;

	return read_number(text, length, &numbers->from) &&
	       read_number(to, strlen(to), &numbers->to) && numbers->from <= numbers->to;
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const char *as = NULL, *items = NULL;
	const struct option_row rows[] = {
		{"db", &options.db, NULL}, {"as", &as, NULL},
		{"items", &items, NULL},   {"route", &options.route, NULL},
		{"to", &options.to, NULL}, {"settings", &options.settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.db == NULL || as == NULL)
		return command_wrong_use(command, options.db == NULL
							  ? "--db FILE is missing"
							  : "--as csv, jsonld or text is missing");
	options.form = export_form_named(as);
	if (options.form == NULL)
		return command_wrong_use(command, "--as %s is none of csv, jsonld and text", as);
	options.some = items != NULL;
	if (options.some && !read_numbers(items, &options.numbers))
		return command_wrong_use(command,
					 "--items %s is no number, nor two as in 480-495, the "
					 "smaller one first",
					 items);
	return export_records(&options);
}

const struct command command_export = {"export", "hand records on: CSV, JSON-LD, write-ups", help,
				       run};
