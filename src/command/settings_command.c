/* lapel settings: every setting, its value, and where it came from. */
#include "options.h"
#include "settings.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char help[] =
	"lapel settings: every setting, its value, and where it came from\n\n"
	"Usage: lapel settings [OPTION...]\n\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"The user's settings are in $XDG_CONFIG_HOME/lapel/lapel.ini or, without that,\n"
	"~/.config/lapel/lapel.ini. What is printed is such a file: it can be saved and edited.\n";

enum { PLACE_MAX = 2 * SETTING_TEXT_MAX };

struct origin {
	const char *file; /* NULL: there is none */
	char place[SETTING_TEXT_MAX];
};

static void
print_unit(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->unit == LENGTH_INCH ? "in" : "cm");
}

static void
print_currency(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->currency);
}

static void
print_discount(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%d", settings->discount);
}

static void
print_fee(const struct settings *settings, char *text, size_t size)
{
	int hundredths = settings->terms.fee_hundredths;
	if (hundredths % 100 == 0)
		snprintf(text, size, "%d", hundredths / 100);
	else
		snprintf(text, size, "%d.%02d", hundredths / 100, hundredths % 100);
}

static void
print_fee_fixed(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->fee_fixed);
}

static void
print_fee_on_postage(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->terms.fee_on_postage ? "yes" : "no");
}

static void
print_postage(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->terms.postage_included ? "included" : "extra");
}

static void
print_hour(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->hour);
}

static void
print_repeats(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%d", settings->repeats);
}

static void
print_key(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->pedal_key);
}

static void
print_keep_days(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%d", settings->keep_days);
}

static void
print_bins(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->bins);
}

static void
print_voice(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->voice);
}

static void
print_rate(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->rate);
}

static void
print_read_back(const struct settings *settings, char *text, size_t size)
{
	snprintf(text, size, "%s", settings->read_back);
}

static const struct shown {
	const char *section, *key;
	void (*print)(const struct settings *settings, char *text, size_t size);
	const char *is;
} shown[] = {
	{"units", "length", print_unit, "the unit of a length said without one: in or cm"},
	{"price", "currency", print_currency, "ISO 4217 code"},
	{"price", "discount", print_discount,
	 "standing discount in percent, 0 to 90; announcing reductions is regulated in many places "
	 "(in the EU: Directive 98/6/EC, article 6a)"},
	{"price", "fee", print_fee, "what a sale costs, in percent of the price"},
	{"price", "fee_fixed", print_fee_fixed, "and for each sale besides"},
	{"price", "fee_on_postage", print_fee_on_postage,
	 "whether the percentage is taken of the postage too: no or yes"},
	{"price", "postage", print_postage,
	 "whether the buyer pays it besides, or the price has it in it: extra or included"},
	{"mending", "hour", print_hour, "what an hour of mending is worth"},
	{"doubts", "repeats", print_repeats,
	 "when so many measures in a row are those of the item before, it is asked; 0: never"},
	{"pedal", "key", print_key, "the key that the pedal types; lapel pedal shows it"},
	{"sound", "keep_days", print_keep_days,
	 "how long the sound of calls is kept; 0: not at all"},
	{"lists", "bins", print_bins, "a file of your bins, a line each, in walking order"},
	{"voice", "name", print_voice, "slt, rms, awb, kal16 or kal"},
	{"voice", "rate", print_rate, "speed, 0.5 to 2.0"},
	{"voice", "read_back", print_read_back, "terse, normal or full"},
};

/* The last line of the file that sets the key: the one that counts. 0: none. */
static int
line_of(const char *file, const char *section, const char *key)
{
	char *line = NULL, within[64] = "";
	size_t room = 0;
	int number = 0, found = 0;
	FILE *text = fopen(file, "r");
	if (text == NULL)
		return 0;
	while (getline(&line, &room, text) > 0) {
		const char *start = line + strspn(line, " \t");
		size_t length = strcspn(start, " \t=:\r\n");
		number++;
		if (*start == '[')
			snprintf(within, sizeof within, "%.*s", (int)strcspn(start + 1, "]"),
				 start + 1);
		else if (strcmp(within, section) == 0 && length == strlen(key) &&
			 strncmp(start, key, length) == 0)
			found = number;
	}
	free(line);
	fclose(text);
	return found;
}

/* The user's file, where settings_read looks for it. */
static void
find_file(struct origin *origin, const char *given)
{
	const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
	if (given == NULL && config != NULL && config[0] == '/')
		snprintf(origin->place, sizeof origin->place, "%s/lapel/lapel.ini", config);
	else if (given == NULL && home != NULL)
		snprintf(origin->place, sizeof origin->place, "%s/.config/lapel/lapel.ini", home);
	origin->file = given != NULL ? given : origin->place;
	if (access(origin->file, F_OK) != 0)
		origin->file = NULL;
}

static void
print_all(const struct settings *settings, const struct origin *origin)
{
	const char *section = "";
	if (origin->file == NULL)
		printf("# There is no file of settings; it would be %s.\n", origin->place);
	for (size_t i = 0; i < sizeof shown / sizeof *shown; i++) {
		char value[SETTING_TEXT_MAX];
		int line = origin->file == NULL
				   ? 0
				   : line_of(origin->file, shown[i].section, shown[i].key);
		shown[i].print(settings, value, sizeof value);
		if (strcmp(section, shown[i].section) != 0)
			printf("%s[%s]\n", i == 0 && origin->file != NULL ? "" : "\n",
			       shown[i].section);
		section = shown[i].section;
		printf("# %s\n", shown[i].is);
		/* What has no value is left out by a comment: an empty one is not allowed. */
		printf("%s%s = %s\n", value[0] == '\0' ? "# " : "", shown[i].key, value);
		if (line > 0)
			printf("#   from %s, line %d\n", origin->file, line);
		else
			printf("#   built in\n");
	}
}

static int
run(const struct command *command, int count, char **argument)
{
	struct problem problem = {""};
	struct settings settings;
	struct origin origin = {.file = NULL};
	const char *file = NULL;
	const struct option_row rows[] = {{"settings", &file, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (!settings_read(&settings, file, &problem))
		return command_failed(&problem);
	find_file(&origin, file);
	print_all(&settings, &origin);
	return DONE;
}

const struct command command_settings = {"settings", "every setting, and where it came from", help,
					 run};
