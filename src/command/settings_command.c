/* lapel settings: every setting, its value, and where it came from. */
#include "options.h"
#include "settings.h"

#include <stdio.h>
#include <string.h>

static const char help[] =
	"lapel settings: every setting, its value, and where it came from\n\n"
	"Usage: lapel settings [OPTION...]\n\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"The user's settings are in $XDG_CONFIG_HOME/lapel/lapel.ini or, without that,\n"
	"~/.config/lapel/lapel.ini. What is printed is such a file: it can be saved and edited.\n";

static void
print_origin(const struct settings *settings, int index)
{
	switch (settings->origins[index].from) {
	case SETTING_BUILT_IN:
		puts("#   built in");
		break;
	case SETTING_REMEMBERED:
		puts("#   remembered: given on the command line before");
		break;
	case SETTING_FILE:
		printf("#   from %s, line %d\n", settings->file, settings->origins[index].line);
		break;
	}
}

static void
print_all(const struct settings *settings)
{
	const char *section = "";
	char place[SETTING_TEXT_MAX] = "";
	if (settings->file[0] == '\0' && settings_place(place))
		printf("# There is no file of settings; it would be %s.\n", place);
	for (int i = 0; i < settings_count(); i++) {
		const struct setting_row *row = settings_row(i);
		char value[SETTING_TEXT_MAX];
		row->print(settings, row, value);
		if (strcmp(section, row->section) != 0)
			printf("%s[%s]\n", i == 0 && place[0] == '\0' ? "" : "\n", row->section);
		section = row->section;
		printf("# %s\n", row->is);
		/* What has no value is left out by a comment: an empty one is not allowed. */
		printf("%s%s = %s\n", value[0] == '\0' ? "# " : "", row->key, value);
		print_origin(settings, i);
	}
}

static int
run(const struct command *command, int count, char **argument)
{
	struct problem problem = {""};
	struct settings settings;
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
	print_all(&settings);
	return DONE;
}

const struct command command_settings = {"settings", "every setting, and where it came from", help,
					 run};
