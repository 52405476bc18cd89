#include "cloth.h"

#include "line.h"
#include "number.h"

#include <string.h>

/* How the fibres from `from` on that are of one section add up; returns where the next begins. */
static int
section_sum(const struct call *cloth, int from, int *sum, bool *falls)
{
	int at = from;
	*sum = 0;
	for (; at < cloth->fibre_count &&
	       strcmp(cloth->fibres[at].section, cloth->fibres[from].section) == 0;
	     at++) {
		const struct fibre *fibre = &cloth->fibres[at];
		*sum += fibre->percent;
		if (at > from && fibre->percent > fibre[-1].percent &&
		    strcmp(fibre->name, "other fibres") != 0)
			*falls = false;
	}
	return at;
}

bool
cloth_odd(const struct call *cloth, char *text, size_t size)
{
	struct line line = line_start(text, size);
	bool falls = true, odd = false;
	int sum;

	for (int at = 0, next; at < cloth->fibre_count; at = next) {
		char said[64];
		next = section_sum(cloth, at, &sum, &falls);
		if (sum == 100)
			continue;
		number_say(sum, said, sizeof said);
		if (odd)
			line_join(&line, ",");
		line_add(&line,
			 cloth->fibres[at].section[0] != '\0' ? cloth->fibres[at].section : "that");
		line_add(&line, "is");
		line_add(&line, said);
		line_add(&line, "percent");
		odd = true;
	}
	if (falls)
		return odd;
	if (odd)
		line_join(&line, ", and");
	line_add(&line, "a larger share stands after a smaller one");
	return true;
}
