/* A whole text file in memory. */
#ifndef LAPEL_GRAMMAR_FILE_TEXT_H
#define LAPEL_GRAMMAR_FILE_TEXT_H

#include "problem.h"

/* The text of the file with a final zero, which the caller frees; NULL with a problem that names
 * the file: not there, not readable, larger than 16 MiB, a zero byte inside. */
char *file_text(const char *path, struct problem *problem);

/* The same of `folder`/`name`. */
char *file_text_in(const char *folder, const char *name, struct problem *problem);

#endif
