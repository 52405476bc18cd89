#include "settings.h"

#include "money.h"
#include "presses.h"
#include "price.h"

#include <errno.h>
#include <ini.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const struct settings usual = {
	.unit = LENGTH_INCH,
	.currency = "USD",
	.fee_fixed = "0",
	.hour = "0",
	.repeats = 2,
	.pedal_key = "KEY_B",
	.keep_days = 14,
	.voice = "slt",
	.rate = "1.0",
	.read_back = "normal",
};

struct reading {
	struct settings *settings;
	const char *file;
	struct problem *problem;
	bool failed;
};

/* Each setter says in *allowed what it would have taken. */
typedef bool set_function(struct settings *settings, const char *value, const char **allowed);

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
copy(char *to, size_t size, const char *value)
{
	if (*value == '\0' || strlen(value) >= size)
		return false;
	strcpy(to, value);
	return true;
}

static bool
set_unit(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "in or cm";
	return length_unit_parse(value, &settings->unit);
}

static bool
set_currency(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "an ISO 4217 code such as USD";
	return money_decimals(value) >= 0 && copy(settings->currency, 4, value);
}

static bool
set_discount(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "whole percent from 0 to 90";
	return whole_number(value, 90, &settings->discount);
}

static bool
set_fee(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "percent from 0 to 100, such as 12.5";
	return price_percent_parse(value, &settings->terms.fee_hundredths);
}

static bool
set_fee_fixed(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "an amount of money such as 0.30";
	return copy(settings->fee_fixed, sizeof settings->fee_fixed, value);
}

/* Of two words, whether it is the second. */
static bool
one_of_two(const char *value, const char *first, const char *second, bool *is_second)
{
	*is_second = strcmp(value, second) == 0;
	return *is_second || strcmp(value, first) == 0;
}

static bool
set_fee_on_postage(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "no or yes";
	return one_of_two(value, "no", "yes", &settings->terms.fee_on_postage);
}

static bool
set_postage(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "extra or included";
	return one_of_two(value, "extra", "included", &settings->terms.postage_included);
}

static bool
set_hour(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "an amount of money such as 12.00";
	return copy(settings->hour, sizeof settings->hour, value);
}

static bool
set_repeats(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "a number from 0 to 9";
	return whole_number(value, 9, &settings->repeats);
}

static bool
set_key(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "a key's name such as KEY_B";
	return presses_key(value) >= 0 && copy(settings->pedal_key, 32, value);
}

static bool
set_keep_days(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "days from 0 to 3650";
	return whole_number(value, 3650, &settings->keep_days);
}

static bool
set_bins(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "the path of a file";
	return copy(settings->bins, sizeof settings->bins, value);
}

static bool
set_voice(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "a voice such as slt, rms, awb or kal16";
	return copy(settings->voice, sizeof settings->voice, value);
}

static bool
set_rate(struct settings *settings, const char *value, const char **allowed)
{
	char *end;
	double rate = strtod(value, &end);
	*allowed = "a number from 0.5 to 2.0";
	return *end == '\0' && rate >= 0.5 && rate <= 2 &&
	       copy(settings->rate, sizeof settings->rate, value);
}

static bool
set_read_back(struct settings *settings, const char *value, const char **allowed)
{
	*allowed = "terse, normal or full";
	return (strcmp(value, "terse") == 0 || strcmp(value, "normal") == 0 ||
		strcmp(value, "full") == 0) &&
	       copy(settings->read_back, sizeof settings->read_back, value);
}

static const struct {
	const char *section, *key;
	set_function *set;
} known[] = {
	{"units", "length", set_unit},	       {"price", "currency", set_currency},
	{"price", "discount", set_discount},   {"price", "fee", set_fee},
	{"price", "fee_fixed", set_fee_fixed}, {"price", "fee_on_postage", set_fee_on_postage},
	{"price", "postage", set_postage},     {"mending", "hour", set_hour},
	{"doubts", "repeats", set_repeats},    {"pedal", "key", set_key},
	{"sound", "keep_days", set_keep_days}, {"lists", "bins", set_bins},
	{"voice", "name", set_voice},	       {"voice", "rate", set_rate},
	{"voice", "read_back", set_read_back},
};

static int
on_line(void *user, const char *section, const char *key, const char *value)
{
	struct reading *reading = user;
	const char *allowed = "";
	if (reading->failed)
		return 1;
	for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
		if (strcmp(section, known[i].section) != 0 || strcmp(key, known[i].key) != 0)
			continue;
		if (known[i].set(reading->settings, value, &allowed))
			return 1;
		problem_say(reading->problem, "%s: [%s] %s = \"%s\" is not allowed: it takes %s",
			    reading->file, section, key, value, allowed);
		reading->failed = true;
		return 1;
	}
	problem_say(reading->problem, "%s: there is no setting [%s] %s", reading->file, section,
		    key);
	reading->failed = true;
	return 1;
}

static bool
read_amount(const struct settings *settings, const char *file, const char *section, const char *key,
	    const char *value, int64_t *minor, struct problem *problem)
{
	struct money amount;
	if (!money_parse(value, settings->currency, &amount))
		return problem_say(problem,
				   "%s: [%s] %s = \"%s\" is not allowed: it takes an amount of %s",
				   file, section, key, value, settings->currency);
	*minor = amount.minor;
	return true;
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
usual_place(char *path, size_t size)
{
	const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
	if (config != NULL && config[0] == '/')
		snprintf(path, size, "%s/lapel/lapel.ini", config);
	else if (home != NULL)
		snprintf(path, size, "%s/.config/lapel/lapel.ini", home);
	else
		return false;
	return access(path, F_OK) == 0;
}

bool
settings_read(struct settings *settings, const char *file, struct problem *problem)
{
	char place[SETTING_TEXT_MAX];
	*settings = usual;
	if (file == NULL) {
		if (!usual_place(place, sizeof place))
			return true;
		file = place;
	}
	struct reading reading = {settings, file, problem, false};
	int line = ini_parse(file, on_line, &reading);
	if (reading.failed)
		return false;
	if (line < 0)
		return problem_say(problem, "the settings %s cannot be read: %s", file,
				   strerror(errno));
	if (line > 0)
		return problem_say(problem,
				   "%s, line %d: this is neither [section] nor key = value", file,
				   line);
	take_from_folder_of(file, settings->bins);
	return read_amount(settings, file, "price", "fee_fixed", settings->fee_fixed,
			   &settings->terms.fee_fixed_minor, problem) &&
	       read_amount(settings, file, "mending", "hour", settings->hour,
			   &settings->mending_hour_minor, problem);
}
