#include "pedal.h"

#include <stddef.h>

int
pedal_fd(struct pedal *pedal)
{
	return pedal->functions->fd(pedal);
}

enum pedal_news
pedal_next(struct pedal *pedal, struct press *press)
{
	return pedal->functions->next(pedal, press);
}

void
pedal_close(struct pedal *pedal)
{
	if (pedal != NULL)
		pedal->functions->close(pedal);
}
