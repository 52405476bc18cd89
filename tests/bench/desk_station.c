/* How long the station waits for the records: writes calls as the conversation does, at a steady
 * pace, and prints how long each took, in milliseconds, one a line.
 * Usage: desk_station FILE.db CALLS PAUSE_MS */
#include "store.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

static double
now_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static void
give_up(const char *why)
{
	fprintf(stderr, "desk_station: %s\n", why);
	exit(1);
}

int
main(int count, char **argument)
{
	struct problem problem = {""};
	struct record *record = calloc(1, sizeof *record);
	if (count != 4 || record == NULL)
		give_up("usage: desk_station FILE.db CALLS PAUSE_MS");
	struct store *store = store_open(argument[1], &problem);
	if (store == NULL ||
	    !store_begin_session(store, (int64_t)time(NULL) * 1000, "mara", &problem))
		give_up(problem.text);
	for (int i = 0; i < atoi(argument[2]); i++) {
		struct write write = {.at_ms = i * 100,
				      .source = SOURCE_VOICE,
				      .confidence = 0.9,
				      .has_call = true,
				      .said = {.type = CALL_MEASURE, .name = "chest"},
				      .has_deed = true,
				      .item = record->item,
				      .change = record->item == 0 ? ITEM_OPENED : ITEM_UNCHANGED,
				      .record = record,
				      .text = "chest twenty one"};
		struct written written;
		write.said.has_length = true;
		write.said.length = (struct length){20 + i % 5, 1, LENGTH_INCH};
		if (!record_write(record, &write.said, false, &write.deed))
			give_up("the record is full");
		double before_ms = now_ms();
		store_write(store, &write, NULL, &written);
		printf("%.3f\n", now_ms() - before_ms);
		if (!written.stored)
			give_up(written.why_not);
		record_stored(record, written.call, written.first_entry);
		record->item = written.item;
		if (i % 15 == 14)
			record_init(record);
		usleep((useconds_t)atoi(argument[3]) * 1000);
	}
	store_close(store);
	free(record);
	return 0;
}
