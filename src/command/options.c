#include "options.h"

#include <assert.h>
#include <getopt.h>
#include <stddef.h>

bool
options_read(const struct command *command, const struct option_row *rows, int row_count, int count,
	     char **argument, int *rest, int *status)
{
	enum { HELP = 1000, FIRST = 1001 };
	struct option known[OPTIONS_MAX + 2] = {{"help", no_argument, NULL, HELP}};
	assert(row_count <= OPTIONS_MAX);
	for (int i = 0; i < row_count; i++)
		known[i + 1] = (struct option){
			rows[i].name, rows[i].text != NULL ? required_argument : no_argument, NULL,
			FIRST + i};
	opterr = 0;
	optind = 1;
	for (int found; (found = getopt_long(count, argument, "h", known, NULL)) != -1;) {
		if (found == HELP || found == 'h') {
			*status = command_show_help(command);
			return false;
		}
		if (found < FIRST) {
			*status = command_wrong_use(command, "\"%s\" is not understood",
						    argument[optind - 1]);
			return false;
		}
		if (rows[found - FIRST].text != NULL)
			*rows[found - FIRST].text = optarg;
		else
			*rows[found - FIRST].flag = true;
	}
	*rest = optind;
	return true;
}
