/* Facts of several names one after another: what a care label says, and what is to be mended. */
#include "label.h"
#include "meaning_reader.h"

#include <stdio.h>
#include <stdlib.h>

static int
read_listed_name(const struct reader *reader, enum list list, int at, struct listed *listed)
{
	int used;
	int index = vocabulary_match(reader->vocabulary, list, reader->words, at, &used);
	if (index < 0)
		return 0;
	snprintf(listed->name, sizeof listed->name, "%s",
		 vocabulary_term(reader->vocabulary, list, index)->name);
	return used;
}

int
read_care(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = 0;
	while (nth == 0 && call->listed_count < CALL_LISTED_MAX) {
		int more = read_listed_name(reader, LIST_CARE, at + used,
					    &call->listed[call->listed_count]);
		if (more == 0)
			break;
		call->listed_count++;
		used += more;
	}
	return used;
}

/* "thirty minutes", "a hundred and twenty minutes". */
static int
read_minutes(const struct words *words, int at, int *minutes)
{
	char label[LABEL_MAX];
	int used = label_read(words, at, false, label);
	int value = used > 0 ? atoi(label) : 0;
	if (value < 1 || value > CALL_MINUTES_MAX ||
	    (!words_is(words, at + used, "minutes") && !words_is(words, at + used, "minute")))
		return 0;
	*minutes = value;
	return used + 1;
}

/* "new zip thirty minutes fix hem ten minutes materials four fifty". */
int
read_mending(const struct reader *reader, int at, int nth, struct call *call)
{
	int used = 0;
	if (nth == 0 && words_is(reader->words, at, "other")) {
		call->other = true;
		return 1;
	}
	while (nth == 0 && call->listed_count < CALL_LISTED_MAX) {
		struct listed *mend = &call->listed[call->listed_count];
		int more = read_listed_name(reader, LIST_MEND, at + used, mend);
		if (more == 0)
			break;
		call->listed_count++;
		used += more;
		used += read_minutes(reader->words, at + used, &mend->minutes);
	}
	if (used == 0 || !words_is(reader->words, at + used, "materials"))
		return used;
	int money = read_money(reader, at + used + 1, 0, call);
	return money > 0 ? used + 1 + money : used;
}
