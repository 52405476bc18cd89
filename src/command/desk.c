/* lapel desk: the pages for going through what was dictated. */
#include "desk.h"

#include "command.h"
#include "file_text.h"
#include "furnish.h"
#include "options.h"
#include "records.h"
#include "working_session.h"

#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static const char help[] =
	"lapel desk: go through what was dictated, in a browser\n\n"
	"Usage: lapel desk --db FILE [OPTION...]\n\n"
	"  --db FILE          the records; lapel listen may be writing to them\n"
	"  --port N           where to serve the pages; otherwise a free port is taken\n"
	"  --listen ADDRESS   127.0.0.1 unless told otherwise: only this machine. The pages are "
	"not\n"
	"                     encrypted; on another address whoever shares the network can read "
	"them\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"Prints one line, the address with its key, once it answers. Whoever has that address may\n"
	"read and correct the records; the key is a new one each time. It ends on Ctrl-C.\n"
	"Words that were on no list and are typed out at the desk are kept in the folder of\n"
	"[lists] learnt, and are known from the next session on.\n";

struct options {
	const char *db, *listen, *settings;
	int port;
};

/* All that the desk borrows. */
struct at_desk {
	struct records records;
	struct ranges ranges;
	struct writeup_form *writeup_form;
	struct sketch_book *sketches;
	char mark[40];
	struct desk *desk;
};

/* FNV-1a, 64 bits (the numbers are those of its authors' page, from memory): only to notice that
 * a list is another one. */
static uint64_t
mark_text(uint64_t mark, const char *text)
{
	for (; *text != '\0'; text++)
		mark = (mark ^ (unsigned char)*text) * UINT64_C(1099511628211);
	return mark;
}

/* The listing is worked out anew when what it depends on is not what it was. */
static bool
mark_lists(struct at_desk *at_desk, struct problem *problem)
{
	static const char *const files[] = {"kinds.txt",   "measures.txt", "ranges.txt",
					    "writeup.txt", "sketches.txt", "care.txt"};
	const struct settings *settings = &at_desk->records.settings;
	uint64_t mark = UINT64_C(14695981039346656037);
	char own[80];
	for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
		char *text = file_text_in(at_desk->records.folders.grammars, files[i], problem);
		if (text == NULL)
			return false;
		mark = mark_text(mark, text);
		free(text);
	}
	snprintf(own, sizeof own, "%d %s %d", settings->unit, settings->currency,
		 settings->discount);
	snprintf(at_desk->mark, sizeof at_desk->mark, LAPEL_VERSION " %016llx",
		 (unsigned long long)mark_text(mark, own));
	return true;
}

static bool
read_tables(struct at_desk *at_desk, struct problem *problem)
{
	const struct records *records = &at_desk->records;
	return furnish_writeups(&records->folders, records->vocabulary, &at_desk->writeup_form,
				&at_desk->sketches, problem) &&
	       working_session_ranges(&at_desk->ranges, records->folders.grammars, problem) &&
	       mark_lists(at_desk, problem);
}

static bool
open_desk(struct at_desk *at_desk, const struct options *options, struct problem *problem)
{
	/* Looking must not make a database where a name was mistyped. */
	if (access(options->db, F_OK) != 0)
		return problem_say(problem, "%s cannot be read: %s", options->db, strerror(errno));
	struct desk_setting setting = {.db = options->db,
				       .address = options->listen,
				       .port = options->port,
				       .learnt = at_desk->records.settings.learnt,
				       .lists_mark = at_desk->mark,
				       .vocabulary = at_desk->records.vocabulary,
				       .ranges = &at_desk->ranges,
				       .writeup_form = at_desk->writeup_form,
				       .sketches = at_desk->sketches,
				       .rows = &at_desk->records.rows};
	at_desk->desk = desk_open(&setting, problem);
	return at_desk->desk != NULL;
}

static volatile sig_atomic_t told_to_end;

static void
on_signal(int number)
{
	told_to_end = 1;
}

/* Until it is told to end. The signal is let in only while it waits, so that none comes between
 * looking and waiting. */
static void
serve(struct desk *desk)
{
	struct sigaction action = {.sa_handler = on_signal};
	sigset_t ends, waiting;
	sigemptyset(&ends);
	sigaddset(&ends, SIGTERM);
	sigaddset(&ends, SIGINT);
	sigprocmask(SIG_BLOCK, &ends, &waiting);
	sigdelset(&waiting, SIGTERM);
	sigdelset(&waiting, SIGINT);
	sigaction(SIGTERM, &action, NULL);
	sigaction(SIGINT, &action, NULL);
	puts(desk_address(desk));
	bool told = fflush(stdout) == 0;
	while (told && !told_to_end) {
		struct pollfd wait = {.fd = desk_fd(desk), .events = POLLIN};
		int wait_ms = desk_wait_ms(desk);
		struct timespec time = {wait_ms / 1000, (long)(wait_ms % 1000) * 1000000};
		ppoll(&wait, 1, &time, &waiting);
		desk_turn(desk);
	}
}

static int
sit_down(const struct options *options)
{
	struct problem problem = {""};
	struct at_desk *at_desk = calloc(1, sizeof *at_desk);
	if (at_desk == NULL) {
		problem_say(&problem, "the memory is full");
		return command_failed(&problem);
	}
	if (!records_open(&at_desk->records, options->settings, &problem)) {
		free(at_desk);
		return command_failed(&problem);
	}
	bool done = read_tables(at_desk, &problem) && open_desk(at_desk, options, &problem);
	if (done)
		serve(at_desk->desk);
	int status = done ? DONE : command_failed(&problem);
	desk_close(at_desk->desk);
	sketch_book_destroy(at_desk->sketches);
	writeup_form_destroy(at_desk->writeup_form);
	records_finish(&at_desk->records);
	free(at_desk);
	return status;
}

static bool
read_port(const char *text, int *port)
{
	char *end;
	long number = strtol(text, &end, 10);
	if (end == text || *end != '\0' || number < 0 || number > 65535)
		return false;
	*port = (int)number;
	return true;
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {.listen = "127.0.0.1"};
	const char *port = NULL;
	const struct option_row rows[] = {{"db", &options.db, NULL},
					  {"port", &port, NULL},
					  {"listen", &options.listen, NULL},
					  {"settings", &options.settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.db == NULL)
		return command_wrong_use(command, "--db FILE is missing");
	if (port != NULL && !read_port(port, &options.port))
		return command_wrong_use(command, "--port %s is no port: a number to 65535", port);
	return sit_down(&options);
}

const struct command command_desk = {"desk", "go through what was dictated, in a browser", help,
				     run};
