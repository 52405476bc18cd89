/* lapel pace: how the work goes, by day. */
#include "pace.h"
#include "options.h"
#include "settings.h"

#include <langinfo.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char help[] =
	"lapel pace: items an hour, seconds a call, and how often was doubted, refused and "
	"struck\n\n"
	"Usage: lapel pace --db FILE [OPTION...]\n\n"
	"  --db FILE          the records\n"
	"  --who NAME         the figures of one person: your own, as [person] name in the "
	"settings\n"
	"                     says who you are; those of others only with [pace] others = yes.\n"
	"                     Without it, the figures of all together\n"
	"  --days N           the last N days on which somebody worked (14)\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"Two people are never set side by side. Watching people at work is regulated in many\n"
	"places: before you look at figures of somebody else's work, ask someone licensed to\n"
	"advise you.\n";

static const char caution[] =
	"\nThese are figures for finding what slows the work down: a word that is often doubted, "
	"a\n"
	"radio, a bad microphone. Watching people at work is regulated in many places.\n";

enum { CHART_WIDTH = 24, DAYS_USUAL = 14, DAYS_MAX = 3660 };

struct options {
	const char *db, *who, *settings;
	int days;
};

static double
items_an_hour(const struct pace_day *day)
{
	return day->worked_ms > 0 ? (double)day->items * 3600000 / (double)day->worked_ms : 0;
}

static double
share(int64_t part, int64_t whole)
{
	return whole > 0 ? 100.0 * (double)part / (double)whole : 0;
}

static void
print_bar(double value, double most)
{
	const char *block = strcmp(nl_langinfo(CODESET), "UTF-8") == 0 ? "\u2588" : "#";
	int length = most > 0 ? (int)(value / most * CHART_WIDTH + 0.5) : 0;
	for (int i = 0; i < length; i++)
		fputs(block, stdout);
}

static void
print_days(const struct pace_day *days, int count)
{
	double most = 0;
	for (int i = 0; i < count; i++)
		most = items_an_hour(&days[i]) > most ? items_an_hour(&days[i]) : most;
	puts("day          items    hours  items/hour  calls  s/call  doubted  refused  struck");
	for (int i = 0; i < count; i++) {
		const struct pace_day *day = &days[i];
		double calls = day->calls > 0 ? (double)day->calls : 1;
		printf("%s %7lld %8.1f %11.1f %6lld %7.1f %7.1f%% %7.1f%% %7lld  ", day->day,
		       (long long)day->items, (double)day->worked_ms / 3600000, items_an_hour(day),
		       (long long)day->calls, (double)day->worked_ms / 1000 / calls,
		       share(day->doubted, day->calls), share(day->refused, day->calls),
		       (long long)day->struck);
		print_bar(items_an_hour(day), most);
		putchar('\n');
	}
}

/* One's own figures are one's own; those of others are somebody's decision, made in the settings.
 */
static bool
may_see(const struct options *options, struct problem *problem)
{
	struct settings settings;
	if (!settings_read(&settings, options->settings, problem))
		return false;
	if (options->who == NULL || settings.pace_of_others ||
	    strcasecmp(options->who, settings.person) == 0)
		return true;
	return problem_say(
		problem,
		"figures of one person are for that person: if you are \"%.60s\", say so "
		"by [person] name in the settings; [pace] others = yes shows those of "
		"others, where watching people at work is allowed",
		options->who);
}

static int
print_pace(const struct options *options)
{
	struct problem problem = {""};
	struct pace_day *days;
	int count;
	if (!may_see(options, &problem) ||
	    !pace_read(options->db, options->who, &days, &count, &problem))
		return command_failed(&problem);
	int first = count > options->days ? count - options->days : 0;
	if (count == 0)
		puts(options->who == NULL ? "Nothing was dictated yet."
					  : "Nothing was dictated by this name.");
	else
		print_days(days + first, count - first);
	fputs(caution, stdout);
	free(days);
	return DONE;
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {.days = DAYS_USUAL};
	const char *days = NULL;
	const struct option_row rows[] = {{"db", &options.db, NULL},
					  {"who", &options.who, NULL},
					  {"days", &days, NULL},
					  {"settings", &options.settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (days != NULL) {
		char *end = NULL;
		options.days = (int)strtol(days, &end, 10);
		if (*end != '\0' || options.days < 1 || options.days > DAYS_MAX)
			return command_wrong_use(command,
						 "--days takes a number from 1 to %d, not \"%s\"",
						 DAYS_MAX, days);
	}
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.db == NULL)
		return command_wrong_use(command, "--db FILE is missing");
	return print_pace(&options);
}

const struct command command_pace = {"pace", "how the work goes, by day", help, run};
