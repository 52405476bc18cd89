/* What the commands that hand records on, or take them in, stand on: the user's settings and lists.
 */
#ifndef LAPEL_COMMAND_RECORDS_H
#define LAPEL_COMMAND_RECORDS_H

#include "csv_record.h"
#include "folders.h"
#include "settings.h"

struct records {
	struct folders folders;
	struct settings settings;
	struct vocabulary *vocabulary;	/* owned */
	struct csv_record_setting rows; /* borrows the vocabulary */
};

/* `settings` as in settings_read. False, with nothing to finish, when one of them is not right. */
bool records_open(struct records *records, const char *settings, struct problem *problem);
void records_finish(struct records *records);

#endif
