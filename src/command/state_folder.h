/* What lapel keeps for itself from one run to the next, in $XDG_STATE_HOME/lapel or, without that
 * variable, ~/.local/state/lapel. It may be deleted at any time. */
#ifndef LAPEL_COMMAND_STATE_FOLDER_H
#define LAPEL_COMMAND_STATE_FOLDER_H

#include "problem.h"

enum { STATE_PATH_MAX = 1024 };

/* The path of a file of that folder, which need not be there. False, without a word, where there is
 * no such folder to be named. */
bool state_folder_path(const char *name, char path[STATE_PATH_MAX]);

/* Writes a file of that folder whole or not at all, for its owner alone to read. */
bool state_folder_write(const char *name, const char *text, struct problem *problem);

#endif
