/* Where lapel's own files are: beside the program where it was built, or where it was installed. */
#ifndef LAPEL_COMMAND_FOLDERS_H
#define LAPEL_COMMAND_FOLDERS_H

#include "problem.h"

enum { FOLDER_MAX = 4096 };

struct folders {
	char grammars[FOLDER_MAX];   /* grammars/ */
	char audio[FOLDER_MAX];	     /* audio/ */
	char own_model[FOLDER_MAX];  /* audio/model/ */
	char model[FOLDER_MAX];	     /* the recogniser's acoustic model */
	char dictionary[FOLDER_MAX]; /* the large dictionary */
};

bool folders_find(struct folders *folders, struct problem *problem);

#endif
