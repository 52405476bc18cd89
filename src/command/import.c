/* lapel import: a table's rows as records. All of them, or none: a table of which half the rows are
 * in could not be imported again, since their numbers are taken. */
#include "command.h"
#include "options.h"
#include "phrase.h"
#include "records.h"
#include "store.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const char help[] =
	"lapel import: read records from a table that lapel export wrote, or one like it\n\n"
	"Usage: lapel import FILE.csv --db FILE [OPTION...]\n\n"
	"  --db FILE          the records that the rows are added to; made if it is not there\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"The first row names the columns: those of lapel export --as csv, in any order, and any "
	"of\n"
	"them may be left out. Each further row becomes an item, as if it had been typed at the\n"
	"desk; what it says is held against the lists. If a row is wrong, nothing is imported, "
	"and\n"
	"the line is said. Some 2000 rows a second are written; meanwhile no session can write, "
	"so\n"
	"import a large table when nobody dictates.\n";

enum { BLOCK_BYTES = 64 * 1024, WRONG_ROWS_TOLD = 20 };

struct importing {
	const char *path;
	struct records records;
	FILE *file;
	struct csv_reader reader;
	struct csv_record_columns columns;
	char block[BLOCK_BYTES];
	size_t block_count, block_used;
	struct store *store;
	uint64_t token;
	int64_t items;
	int wrong_rows;
	struct problem wrong[WRONG_ROWS_TOLD];
	struct record read;    /* from the row */
	struct record written; /* to the store */
};

/* To be done with each row: false when it is wrong. */
typedef bool row_function(struct importing *importing, struct problem *problem);

static bool
at_line(const struct importing *importing, const char *what, struct problem *problem)
{
	return problem_say(problem, "%s, line %lld: %s", importing->path,
			   (long long)importing->reader.line, what);
}

/* The next row into the reader: CSV_ROW, CSV_MORE when there is none, CSV_WRONG. */
static enum csv_result
next_row(struct importing *importing)
{
	enum csv_result result = CSV_MORE;
	size_t used;
	while (result == CSV_MORE) {
		if (importing->block_used == importing->block_count) {
			importing->block_count =
				fread(importing->block, 1, BLOCK_BYTES, importing->file);
			importing->block_used = 0;
			if (importing->block_count == 0)
				return csv_read_end(&importing->reader);
		}
		result = csv_read(&importing->reader, importing->block + importing->block_used,
				  importing->block_count - importing->block_used, &used);
		importing->block_used += used;
	}
	return result;
}

static bool
read_heading(struct importing *importing, struct problem *problem)
{
	struct problem wrong = {""};
	enum csv_result result = next_row(importing);
	if (ferror(importing->file))
		return problem_say(problem, "%s cannot be read: %s", importing->path,
				   strerror(errno));
	if (result == CSV_MORE)
		return problem_say(problem, "%s is empty: its first row has to name the columns",
				   importing->path);
	if (result == CSV_WRONG)
		return at_line(importing, importing->reader.wrong, problem);
	return csv_record_columns(&importing->records.rows, &importing->reader, &importing->columns,
				  &wrong) ||
	       at_line(importing, wrong.text, problem);
}

static void
note_wrong_row(struct importing *importing, const char *what)
{
	if (importing->wrong_rows < WRONG_ROWS_TOLD)
		at_line(importing, what, &importing->wrong[importing->wrong_rows]);
	importing->wrong_rows++;
}

static bool
is_blank(const struct csv_reader *row)
{
	return row->count == 1 && csv_cell(row, 0)[0] == '\0';
}

/* From the start of the file to its end, `each` row. Wrong rows are noted; false when the file
 * cannot be read. */
static bool
read_rows(struct importing *importing, row_function *each, struct problem *problem)
{
	enum csv_result result;
	if (fseek(importing->file, 0, SEEK_SET) != 0)
		return problem_say(problem, "%s cannot be read twice over: save it as a file",
				   importing->path);
	importing->block_count = importing->block_used = 0;
	csv_reader_finish(&importing->reader);
	csv_reader_start(&importing->reader);
	if (!read_heading(importing, problem))
		return false;
	while ((result = next_row(importing)) == CSV_ROW) {
		struct problem wrong = {""};
		if (!is_blank(&importing->reader) && !each(importing, &wrong))
			note_wrong_row(importing, wrong.text);
	}
	if (ferror(importing->file))
		return problem_say(problem, "%s cannot be read: %s", importing->path,
				   strerror(errno));
	if (result == CSV_WRONG)
		note_wrong_row(importing, importing->reader.wrong);
	return true;
}

static bool
check_row(struct importing *importing, struct problem *problem)
{
	return csv_record_read(&importing->records.rows, &importing->columns, &importing->reader,
			       &importing->read, problem);
}

/* Stores one call of the item under way; what it does to the item stands in *write already. */
static bool
store_call(struct importing *importing, struct write *write, struct problem *problem)
{
	struct written stored;
	write->token = ++importing->token;
	write->item = importing->written.item;
	write->source = SOURCE_DESK;
	write->verdict = VERDICT_TAKEN;
	write->confidence = 1;
	write->has_call = true;
	write->record = &importing->written;
	phrase_call(&write->said, PHRASE_FULL, write->text, sizeof write->text);
	store_write(importing->store, write, NULL, &stored);
	if (!stored.stored)
		return problem_say(problem, "%s", stored.why_not);
	if (write->has_deed)
		record_stored(&importing->written, stored.call, stored.first_entry);
	importing->written.item = stored.item;
	return true;
}

static bool
store_entry(struct importing *importing, const struct entry *entry, struct problem *problem)
{
	struct write write = {.said = entry->said, .has_deed = true};
	write.change = importing->written.item == 0 ? ITEM_OPENED : ITEM_UNCHANGED;
	return record_write(&importing->written, &entry->said, entry->confirmed, &write.deed) &&
	       store_call(importing, &write, problem);
}

static bool
close_item(struct importing *importing, struct problem *problem)
{
	struct write write = {.said = {.type = CALL_ORDER}};
	switch (importing->read.state) {
	case ITEM_OPEN:
		return true;
	case ITEM_DONE:
		write.said.order = ORDER_NEXT;
		write.change = ITEM_CLOSED;
		break;
	case ITEM_SET_ASIDE:
		write.said.order = ORDER_SET_ASIDE;
		write.change = ITEM_PUT_ASIDE;
		break;
	}
	return store_call(importing, &write, problem);
}

/* Nothing more is written once one row was not; the transaction may be gone. */
static bool
write_row(struct importing *importing, struct problem *problem)
{
	if (importing->wrong_rows > 0)
		return true;
	if (!check_row(importing, problem))
		return false;
	if (record_empty(&importing->read))
		return true;
	record_init(&importing->written);
	for (int i = 0; i < importing->read.entry_count; i++)
		if (!store_entry(importing, &importing->read.entries[i], problem))
			return false;
	importing->items++;
	return close_item(importing, problem);
}

/* One sentence for each wrong row; the last one says that nothing came of it. */
static int
tell_wrong_rows(const struct importing *importing)
{
	int told =
		importing->wrong_rows < WRONG_ROWS_TOLD ? importing->wrong_rows : WRONG_ROWS_TOLD;
	for (int i = 0; i + 1 < told; i++)
		fprintf(stderr, "lapel: %s\n", importing->wrong[i].text);
	fprintf(stderr, "lapel: %s; ", importing->wrong[told - 1].text);
	if (importing->wrong_rows > told)
		fprintf(stderr, "and %d rows more; ", importing->wrong_rows - told);
	fprintf(stderr, "nothing was imported\n");
	return FAILED;
}

static bool
write_rows(struct importing *importing, const char *db, struct problem *problem)
{
	importing->store = store_open(db, problem);
	if (importing->store == NULL || !store_begin_together(importing->store, problem))
		return false;
	bool done =
		store_begin_session(importing->store, (int64_t)time(NULL) * 1000, NULL, problem) &&
		read_rows(importing, write_row, problem);
	bool keep = done && importing->wrong_rows == 0;
	return store_end_together(importing->store, keep, problem) && done;
}

/* Twice through the file: first to look at all of it, so that the records are locked no longer than
 * it takes to write, and not at all for a file that is wrong. */
static int
import_file(struct importing *importing, const char *db)
{
	struct problem problem = {""};
	importing->file = fopen(importing->path, "re");
	if (importing->file == NULL) {
		problem_say(&problem, "%s cannot be opened: %s", importing->path, strerror(errno));
		return command_failed(&problem);
	}
	if (!read_rows(importing, check_row, &problem))
		return command_failed(&problem);
	if (importing->wrong_rows > 0)
		return tell_wrong_rows(importing);
	if (!write_rows(importing, db, &problem))
		return command_failed(&problem);
	if (importing->wrong_rows > 0)
		return tell_wrong_rows(importing);
	fprintf(stderr, "lapel: %lld item%s imported from %s\n", (long long)importing->items,
		importing->items == 1 ? "" : "s", importing->path);
	return DONE;
}

static int
import_records(const char *path, const char *db, const char *settings)
{
	struct problem problem = {""};
	struct importing *importing = calloc(1, sizeof *importing);
	if (importing == NULL) {
		problem_say(&problem, "the memory is full");
		return command_failed(&problem);
	}
	importing->path = path;
	if (!records_open(&importing->records, settings, &problem)) {
		free(importing);
		return command_failed(&problem);
	}
	int status = import_file(importing, db);
	if (importing->file != NULL)
		fclose(importing->file);
	csv_reader_finish(&importing->reader);
	store_close(importing->store);
	records_finish(&importing->records);
	free(importing);
	return status;
}

static int
run(const struct command *command, int count, char **argument)
{
	const char *db = NULL, *settings = NULL;
	const struct option_row rows[] = {{"db", &db, NULL}, {"settings", &settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count - 1)
		return command_wrong_use(command, rest == count ? "no table was named"
								: "one table at a time");
	if (db == NULL)
		return command_wrong_use(command, "--db FILE is missing");
	return import_records(argument[rest], db, settings);
}

const struct command command_import = {"import", "read records from a table", help, run};
