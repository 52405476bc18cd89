#include "records.h"

#include "furnish.h"

#include <string.h>

bool
records_open(struct records *records, const char *settings, struct problem *problem)
{
	const struct settings *read = &records->settings;
	if (!settings_read(&records->settings, settings, problem) ||
	    !folders_find(&records->folders, problem))
		return false;
	records->vocabulary = furnish_vocabulary(&records->folders, read, problem);
	records->rows = (struct csv_record_setting){.vocabulary = records->vocabulary,
						    .unit = read->unit,
						    .discount_percent = read->discount};
	memcpy(records->rows.currency, read->currency, sizeof records->rows.currency);
	return records->vocabulary != NULL;
}

void
records_finish(struct records *records)
{
	vocabulary_destroy(records->vocabulary);
}
