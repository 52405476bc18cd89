#include "settings.h"

#include "mapping.h"
#include "money.h"
#include "price.h"
#include "state_folder.h"

#include <assert.h>
#include <errno.h>
#include <ini.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char remembered_name[] = "remembered.ini";

static const struct settings usual = {
	.unit = LENGTH_INCH,
	.currency = "USD",
	.fee_fixed = "0",
	.hour = "0",
	.repeats = 2,
	.pedal_key = "KEY_B",
	.keep_days = 14,
	.voice = "slt",
	.speed = 1,
	.read_back = "normal",
};

static bool
whole_number(const char *text, int most, int *number)
{
	char *end;
	errno = 0;
	long value = strtol(text, &end, 10);
	if (errno != 0 || end == text || *end != '\0' || value < 0 || value > most)
		return false;
	*number = (int)value;
	return true;
}

static bool
real_number(const char *text, double least, double most, double *number)
{
	char *end;
	double value = strtod(text, &end);
	if (end == text || *end != '\0' || !(value >= least && value <= most))
		return false;
	*number = value;
	return true;
}

static bool
copy(char *to, size_t size, const char *value)
{
	if (*value == '\0' || strlen(value) >= size)
		return false;
	strcpy(to, value);
	return true;
}

static bool
set_unit(struct settings *settings, const struct setting_row *row, const char *value)
{
	return length_unit_parse(value, &settings->unit);
}

static void
print_unit(const struct settings *settings, const struct setting_row *row,
	   char text[SETTING_TEXT_MAX])
{
	strcpy(text, settings->unit == LENGTH_INCH ? "in" : "cm");
}

static bool
set_currency(struct settings *settings, const struct setting_row *row, const char *value)
{
	return money_decimals(value) >= 0 && copy(settings->currency, 4, value);
}

static bool
set_discount(struct settings *settings, const struct setting_row *row, const char *value)
{
	return whole_number(value, 90, &settings->discount);
}

static void
print_discount(const struct settings *settings, const struct setting_row *row,
	       char text[SETTING_TEXT_MAX])
{
	snprintf(text, SETTING_TEXT_MAX, "%d", settings->discount);
}

static bool
set_fee(struct settings *settings, const struct setting_row *row, const char *value)
{
	return price_percent_parse(value, &settings->terms.fee_hundredths);
}

static void
print_fee(const struct settings *settings, const struct setting_row *row,
	  char text[SETTING_TEXT_MAX])
{
	int hundredths = settings->terms.fee_hundredths;
	if (hundredths % 100 == 0)
		snprintf(text, SETTING_TEXT_MAX, "%d", hundredths / 100);
	else
		snprintf(text, SETTING_TEXT_MAX, "%d.%02d", hundredths / 100, hundredths % 100);
}

/* Of two words, whether it is the second. */
static bool
one_of_two(const char *value, const char *first, const char *second, bool *is_second)
{
	*is_second = strcmp(value, second) == 0;
	return *is_second || strcmp(value, first) == 0;
}

static bool
set_fee_on_postage(struct settings *settings, const struct setting_row *row, const char *value)
{
	return one_of_two(value, "no", "yes", &settings->terms.fee_on_postage);
}

static void
print_fee_on_postage(const struct settings *settings, const struct setting_row *row,
		     char text[SETTING_TEXT_MAX])
{
	strcpy(text, settings->terms.fee_on_postage ? "yes" : "no");
}

static bool
set_postage(struct settings *settings, const struct setting_row *row, const char *value)
{
	return one_of_two(value, "extra", "included", &settings->terms.postage_included);
}

static void
print_postage(const struct settings *settings, const struct setting_row *row,
	      char text[SETTING_TEXT_MAX])
{
	strcpy(text, settings->terms.postage_included ? "included" : "extra");
}

static bool
set_repeats(struct settings *settings, const struct setting_row *row, const char *value)
{
	return whole_number(value, 9, &settings->repeats);
}

static void
print_repeats(const struct settings *settings, const struct setting_row *row,
	      char text[SETTING_TEXT_MAX])
{
	snprintf(text, SETTING_TEXT_MAX, "%d", settings->repeats);
}

static bool
set_key(struct settings *settings, const struct setting_row *row, const char *value)
{
	struct mapping mapping;
	return mapping_parse(value, &mapping, NULL) &&
	       copy(settings->pedal_key, sizeof settings->pedal_key, value);
}

static bool
set_keep_days(struct settings *settings, const struct setting_row *row, const char *value)
{
	return whole_number(value, 3650, &settings->keep_days);
}

static void
print_keep_days(const struct settings *settings, const struct setting_row *row,
		char text[SETTING_TEXT_MAX])
{
	snprintf(text, SETTING_TEXT_MAX, "%d", settings->keep_days);
}

static bool
set_speed(struct settings *settings, const struct setting_row *row, const char *value)
{
	return real_number(value, 0.5, 2, &settings->speed);
}

static void
print_speed(const struct settings *settings, const struct setting_row *row,
	    char text[SETTING_TEXT_MAX])
{
	snprintf(text, SETTING_TEXT_MAX, "%g", settings->speed);
}

static bool
set_loudness(struct settings *settings, const struct setting_row *row, const char *value)
{
	return real_number(value, -40, 0, &settings->loudness_db);
}

static void
print_loudness(const struct settings *settings, const struct setting_row *row,
	       char text[SETTING_TEXT_MAX])
{
	snprintf(text, SETTING_TEXT_MAX, "%g", settings->loudness_db);
}

static bool
set_read_back(struct settings *settings, const struct setting_row *row, const char *value)
{
	return (strcmp(value, "terse") == 0 || strcmp(value, "normal") == 0 ||
		strcmp(value, "full") == 0) &&
	       copy(settings->read_back, sizeof settings->read_back, value);
}

static bool
set_pace_of_others(struct settings *settings, const struct setting_row *row, const char *value)
{
	return one_of_two(value, "no", "yes", &settings->pace_of_others);
}

static void
print_pace_of_others(const struct settings *settings, const struct setting_row *row,
		     char text[SETTING_TEXT_MAX])
{
	strcpy(text, settings->pace_of_others ? "yes" : "no");
}

/* A text as it stands. */
static bool
set_text(struct settings *settings, const struct setting_row *row, const char *value)
{
	return copy((char *)settings + row->text_at, row->text_size, value);
}

static void
print_text(const struct settings *settings, const struct setting_row *row,
	   char text[SETTING_TEXT_MAX])
{
	snprintf(text, SETTING_TEXT_MAX, "%s", (const char *)settings + row->text_at);
}

#define TEXT(field) offsetof(struct settings, field), sizeof usual.field

static const struct setting_row rows[] = {
	{"units", "length", "the unit of a length said without one: in or cm", "in or cm", NULL,
	 set_unit, print_unit, 0, 0},
	{"price", "currency", "ISO 4217 code", "an ISO 4217 code such as USD", NULL, set_currency,
	 print_text, TEXT(currency)},
	{"price", "discount",
	 "standing discount in percent, 0 to 90; announcing reductions is regulated in many places "
	 "(in the EU: Directive 98/6/EC, article 6a)",
	 "whole percent from 0 to 90", NULL, set_discount, print_discount, 0, 0},
	{"price", "fee", "what a sale costs, in percent of the price",
	 "percent from 0 to 100, such as 12.5", NULL, set_fee, print_fee, 0, 0},
	{"price", "fee_fixed", "and for each sale besides", "an amount of money such as 0.30", NULL,
	 set_text, print_text, TEXT(fee_fixed)},
	{"price", "fee_on_postage", "whether the percentage is taken of the postage too: no or yes",
	 "no or yes", NULL, set_fee_on_postage, print_fee_on_postage, 0, 0},
	{"price", "postage",
	 "whether the buyer pays it besides, or the price has it in it: extra or included",
	 "extra or included", NULL, set_postage, print_postage, 0, 0},
	{"mending", "hour", "what an hour of mending is worth", "an amount of money such as 12.00",
	 NULL, set_text, print_text, TEXT(hour)},
	{"doubts", "repeats",
	 "when so many measures in a row are those of the item before, it is asked; 0: never",
	 "a number from 0 to 9", NULL, set_repeats, print_repeats, 0, 0},
	{"sound", "headset", "a piece of the headset's name; lapel soundcheck --list shows it",
	 "a name of at most 1000 letters", NULL, set_text, print_text, TEXT(headset)},
	{"sound", "keep_days", "how long the sound of calls is kept; 0: not at all",
	 "days from 0 to 3650", NULL, set_keep_days, print_keep_days, 0, 0},
	{"pedal", "key",
	 "the key that the pedal types, or what each of its switches does, as lapel pedal --learn "
	 "prints it",
	 "a key's name such as KEY_B, or KEY_A:strike KEY_B:next KEY_C:repeat", NULL, set_key,
	 print_text, TEXT(pedal_key)},
	{"pedal", "device",
	 "which pedal: a piece of its name, its numbers as 1209:0001, or its file; without it any "
	 "that says that it is one",
	 "a name of at most 1000 letters", NULL, set_text, print_text, TEXT(pedal_device)},
	{"reader", "device", "the same of a bar-code reader, whose scans open items",
	 "a name of at most 1000 letters", NULL, set_text, print_text, TEXT(reader)},
	{"lists", "bins", "a file of your bins, a line each, in walking order",
	 "the path of a file", NULL, set_text, print_text, TEXT(bins)},
	{"lists", "learnt",
	 "a folder for words that were on no list and were typed out at the desk",
	 "the path of a folder", NULL, set_text, print_text, TEXT(learnt)},
	{"voice", "name", "slt, rms, awb, kal16 or kal", "a voice such as slt, rms, awb or kal16",
	 NULL, set_text, print_text, TEXT(voice)},
	{"voice", "speed", "0.5 to 2.0; 1 is the voice's own", "a number from 0.5 to 2.0", "rate",
	 set_speed, print_speed, 0, 0},
	{"voice", "loudness", "decibels, -40 to 0: turns the voice and the cues down",
	 "decibels from -40 to 0", NULL, set_loudness, print_loudness, 0, 0},
	{"voice", "read_back", "terse, normal or full", "terse, normal or full", NULL,
	 set_read_back, print_text, TEXT(read_back)},
	{"person", "name", "who dictates, where --who does not say", "a name of at most 63 letters",
	 NULL, set_text, print_text, TEXT(person)},
	{"pace", "others",
	 "whether lapel pace --who shows figures of other people than [person] name: yes or no; "
	 "watching people at work is regulated in many places",
	 "yes or no", NULL, set_pace_of_others, print_pace_of_others, 0, 0},
};
enum { ROWS = sizeof rows / sizeof *rows };
static_assert((int)ROWS <= (int)SETTINGS_MAX, "each setting has its origin");

int
settings_count(void)
{
	return ROWS;
}

const struct setting_row *
settings_row(int index)
{
	return &rows[index];
}

/* A file on its way into the settings. */
struct reading {
	struct settings *settings;
	const char *path;
	enum setting_origin origin;
	FILE *file;
	int line;
	struct problem *problem;
	bool failed;
};

/* The next line, without the comment at its end: what follows a blank and a `#`. */
static char *
next_line(char *line, int size, void *user)
{
	struct reading *reading = user;
	char *read = fgets(line, size, reading->file);
	if (read == NULL)
		return NULL;
	reading->line++;
	for (char *mark = strchr(line, '#'); mark != NULL; mark = strchr(mark + 1, '#'))
		if (mark > line && (mark[-1] == ' ' || mark[-1] == '\t')) {
			strcpy(mark, "\n");
			break;
		}
	return read;
}

static bool
fail(struct reading *reading, const char *what, const char *section, const char *key)
{
	reading->failed = true;
	return problem_say(reading->problem, "%s, line %d: [%s] %s%s", reading->path, reading->line,
			   section, key, what);
}

static int
on_line(void *user, const char *section, const char *key, const char *value)
{
	struct reading *reading = user;
	char what[SETTING_TEXT_MAX];
	for (int i = 0; i < ROWS && !reading->failed; i++) {
		const struct setting_row *row = &rows[i];
		if (strcmp(section, row->section) != 0 ||
		    (strcmp(key, row->key) != 0 &&
		     (row->was == NULL || strcmp(key, row->was) != 0)))
			continue;
		snprintf(what, sizeof what, " = \"%s\" is not allowed: it takes %s", value,
			 row->allowed);
		if (!row->set(reading->settings, row, value))
			return fail(reading, what, section, key);
		reading->settings->origins[i].from = reading->origin;
		reading->settings->origins[i].line = reading->line;
		return 1;
	}
	return reading->failed || fail(reading, ": there is no setting of this name", section, key);
}

static bool
read_file(struct settings *settings, const char *path, enum setting_origin origin,
	  struct problem *problem)
{
	struct reading reading = {.settings = settings,
				  .path = path,
				  .origin = origin,
				  .file = fopen(path, "r"),
				  .problem = problem};
	if (reading.file == NULL)
		return problem_say(problem, "the settings %s cannot be read: %s", path,
				   strerror(errno));
	int line = ini_parse_stream(next_line, &reading, on_line, &reading);
	bool unread = ferror(reading.file) != 0;
	fclose(reading.file);
	if (reading.failed)
		return false;
	if (unread)
		return problem_say(problem, "the settings %s cannot be read: is it a folder?",
				   path);
	if (line > 0)
		return problem_say(problem,
				   "%s, line %d: this is neither [section] nor key = value", path,
				   line);
	return true;
}

/* An amount, once the currency that it is in is known. */
static bool
read_amount(const struct settings *settings, const char *text, int64_t *minor,
	    struct problem *problem)
{
	struct money amount;
	int row = 0;
	if (money_parse(text, settings->currency, &amount)) {
		*minor = amount.minor;
		return true;
	}
	while (text != (const char *)settings + rows[row].text_at)
		row++;
	return problem_say(problem,
			   "%s, line %d: [%s] %s = \"%s\" is not allowed: it takes an amount of %s",
			   settings->file, settings->origins[row].line, rows[row].section,
			   rows[row].key, text, settings->currency);
}

static void
take_from_folder_of(const char *file, char path[SETTING_TEXT_MAX])
{
	char whole[SETTING_TEXT_MAX];
	const char *slash = strrchr(file, '/');
	if (path[0] == '\0' || path[0] == '/' || slash == NULL)
		return;
	snprintf(whole, sizeof whole, "%.*s/%s", (int)(slash - file), file, path);
	strcpy(path, whole);
}

static bool
usual_place(const char *name, char path[SETTING_TEXT_MAX])
{
	const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
	if (config != NULL && config[0] == '/')
		snprintf(path, SETTING_TEXT_MAX, "%s/lapel/%s", config, name);
	else if (home != NULL)
		snprintf(path, SETTING_TEXT_MAX, "%s/.config/lapel/%s", home, name);
	else
		return false;
	return true;
}

bool
settings_place(char path[SETTING_TEXT_MAX])
{
	return usual_place("lapel.ini", path);
}

bool
settings_read(struct settings *settings, const char *file, struct problem *problem)
{
	char remembered[STATE_PATH_MAX];
	struct settings known = usual;
	usual_place("lists", known.learnt);
	if (file != NULL)
		snprintf(known.file, sizeof known.file, "%s", file);
	else if (settings_place(known.file) && access(known.file, F_OK) != 0)
		known.file[0] = '\0';
	/* What was remembered is ours: when it cannot be read any more, it is forgotten. */
	struct settings with = known;
	if (state_folder_path(remembered_name, remembered) && access(remembered, F_OK) == 0 &&
	    read_file(&with, remembered, SETTING_REMEMBERED, NULL))
		known = with;
	if (known.file[0] != '\0') {
		if (!read_file(&known, known.file, SETTING_FILE, problem))
			return false;
		take_from_folder_of(known.file, known.bins);
		take_from_folder_of(known.file, known.learnt);
		if (!read_amount(&known, known.fee_fixed, &known.terms.fee_fixed_minor, problem) ||
		    !read_amount(&known, known.hour, &known.mending_hour_minor, problem))
			return false;
	}
	*settings = known;
	return true;
}

bool
settings_remember_headset(const char *name, struct problem *problem)
{
	char text[SETTING_TEXT_MAX + 128];
	snprintf(text, sizeof text, "# What was chosen on the command line last.\n");
	if (name[0] != '\0')
		snprintf(text + strlen(text), sizeof text - strlen(text), "[sound]\nheadset = %s\n",
			 name);
	return state_folder_write(remembered_name, text, problem);
}
