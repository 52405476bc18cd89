/* One file for each subcommand; main.c is the table of them. Only this floor prints and exits. */
#ifndef LAPEL_COMMAND_COMMAND_H
#define LAPEL_COMMAND_COMMAND_H

#include "problem.h"

/* Exit status: what a command's run returns. */
enum { DONE = 0, FAILED = 1, WRONG_USE = 2 };

struct command {
	const char *name;
	const char *summary; /* one line, for the list */
	const char *help;    /* the page that --help prints */
	/* `argument[0]` is the command's name. */
	int (*run)(const struct command *command, int count, char **argument);
};

extern const struct command command_desk;
extern const struct command command_export;
extern const struct command command_hear;
extern const struct command command_import;
extern const struct command command_listen;
extern const struct command command_pace;
extern const struct command command_pedal;
extern const struct command command_practise;
extern const struct command command_say;
extern const struct command command_settings;
extern const struct command command_soundcheck;
extern const struct command command_words;
extern const struct command command_takings;
extern const struct command command_routes;

/* For use in `run`: prints the page and returns DONE; or says on standard error what is wrong with
 * the command line, and where help is, and returns WRONG_USE. */
int command_show_help(const struct command *command);
int command_wrong_use(const struct command *command, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/* Says on standard error what went wrong; returns FAILED. */
int command_failed(const struct problem *problem);

#endif
