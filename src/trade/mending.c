#include "mending.h"

#include <string.h>

int
mending_minutes(const struct call *mending)
{
	int minutes = 0;
	for (int i = 0; i < mending->listed_count; i++)
		minutes += mending->listed[i].minutes;
	return minutes;
}

int64_t
mending_time_minor(int minutes, int64_t hour_minor)
{
	enum { MINUTES_IN_HOUR = 60 };
	return (minutes * hour_minor + MINUTES_IN_HOUR / 2) / MINUTES_IN_HOUR;
}

bool
mending_left(const struct record *record, int64_t hour_minor, struct money *left)
{
	const struct entry *price = record_slot(record, CALL_PRICE);
	const struct entry *mending = record_slot(record, CALL_MENDING);
	if (price == NULL || mending == NULL || price->said.other || mending->said.other)
		return false;
	const struct money *materials = &mending->said.money;
	if (materials->currency[0] != '\0' &&
	    strcmp(materials->currency, price->said.money.currency) != 0)
		return false;
	*left = price->said.money;
	left->minor -=
		materials->minor + mending_time_minor(mending_minutes(&mending->said), hour_minor);
	return true;
}
