/* The options of a command, as a table of where they go. */
#ifndef LAPEL_COMMAND_OPTIONS_H
#define LAPEL_COMMAND_OPTIONS_H

#include "command.h"

struct option_row {
	const char *name;  /* without the dashes */
	const char **text; /* takes a value, which goes here; or NULL */
	bool *flag;	   /* takes none, and sets this */
};

enum { OPTIONS_MAX = 24 };

/* Reads the options of `rows` and --help. True to go on, with the index of the first other argument
 * in *rest; false when the command is over, with what it returns in *status: the help was printed,
 * or something was not understood and said so. */
bool options_read(const struct command *command, const struct option_row *rows, int row_count,
		  int count, char **argument, int *rest, int *status);

#endif
