/* lapel: the table of its commands. */
#include "command.h"

#include <locale.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const struct command *const commands[] = {
	&command_listen, &command_hear,	   &command_say,    &command_soundcheck, &command_pedal,
	&command_pace,	 &command_export,  &command_import, &command_settings,	 &command_practise,
	&command_words,	 &command_takings, &command_routes, &command_desk,
};

enum { COMMANDS = sizeof commands / sizeof *commands };

static void
print_overview(FILE *to)
{
	fprintf(to, "lapel: dictate what you measure, with both hands full\n\n"
		    "Usage: lapel COMMAND [OPTION...]\n"
		    "       lapel COMMAND --help    the page of one command\n"
		    "       lapel --version\n\nCommands:\n");
	for (int i = 0; i < COMMANDS; i++)
		fprintf(to, "  %-10s %s\n", commands[i]->name, commands[i]->summary);
	fprintf(to,
		"\nExit status: 0 done; 1 the work failed; 2 the command line was wrong.\n"
		"Keep the headset's level low enough to be talked to over it, the pedal where no\n"
		"one trips, and tell the people around you that a microphone is open.\n");
}

int
command_show_help(const struct command *command)
{
	fputs(command->help, stdout);
	return DONE;
}

int
command_wrong_use(const struct command *command, const char *format, ...)
{
	va_list arguments;
	fprintf(stderr, "lapel %s: ", command->name);
	va_start(arguments, format);
	vfprintf(stderr, format, arguments);
	va_end(arguments);
	fprintf(stderr, "; see lapel %s --help\n", command->name);
	return WRONG_USE;
}

int
command_failed(const struct problem *problem)
{
	fprintf(stderr, "lapel: %s\n", problem->text);
	return FAILED;
}

/* What was printed must have arrived: a full disk behind standard output is a failure too. */
static int
after_printing(int status)
{
	if (fflush(stdout) != 0 || ferror(stdout)) {
		fprintf(stderr, "lapel: the output could not be written: is the disk full?\n");
		return status == DONE ? FAILED : status;
	}
	return status;
}

int
main(int count, char **argument)
{
	setlocale(LC_CTYPE, "");
	signal(SIGPIPE, SIG_IGN);
	if (count < 2) {
		print_overview(stderr);
		return WRONG_USE;
	}
	const char *name = argument[1];
	if (strcmp(name, "--help") == 0 || strcmp(name, "-h") == 0) {
		print_overview(stdout);
		return after_printing(DONE);
	}
	if (strcmp(name, "--version") == 0) {
		puts("lapel " LAPEL_VERSION);
		return after_printing(DONE);
	}
	for (int i = 0; i < COMMANDS; i++)
		if (strcmp(name, commands[i]->name) == 0)
			return after_printing(
				commands[i]->run(commands[i], count - 1, argument + 1));
	fprintf(stderr, "lapel: there is no command \"%s\"; see lapel --help\n", name);
	return WRONG_USE;
}
