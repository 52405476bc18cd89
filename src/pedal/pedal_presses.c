#include "pedal.h"

#include <stdlib.h>

struct presses_pedal {
	struct pedal pedal;
	const struct presses *presses;
	int next;
};

static int
presses_fd(struct pedal *pedal)
{
	return -1;
}

static enum pedal_news
presses_next(struct pedal *pedal, struct press *press)
{
	struct presses_pedal *file = (struct presses_pedal *)pedal;
	if (file->next == presses_count(file->presses))
		return PEDAL_ENDED;
	*press = *presses_at(file->presses, file->next++);
	return PEDAL_PRESS;
}

static void
presses_close(struct pedal *pedal)
{
	free(pedal);
}

static const struct pedal_functions presses_functions = {"presses", presses_fd, presses_next,
							 presses_close};

struct pedal *
pedal_presses_open(const struct presses *presses, struct problem *problem)
{
	struct presses_pedal *file = calloc(1, sizeof *file);
	if (file == NULL) {
		problem_say(problem, "cannot read the presses: out of memory");
		return NULL;
	}
	file->pedal.functions = &presses_functions;
	file->presses = presses;
	return &file->pedal;
}
