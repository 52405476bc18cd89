#include "output.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

cairo_status_t
output_take(void *to, const unsigned char *bytes, unsigned count)
{
	struct output *output = to;
	if (output->room - output->count < count) {
		size_t room = 2 * output->room + count + 4096;
		unsigned char *larger = realloc(output->bytes, room);
		if (larger == NULL)
			return CAIRO_STATUS_NO_MEMORY;
		output->bytes = larger;
		output->room = room;
	}
	memcpy(output->bytes + output->count, bytes, count);
	output->count += count;
	return CAIRO_STATUS_SUCCESS;
}

void
output_free(struct output *output)
{
	free(output->bytes);
	*output = (struct output){0};
}

bool
output_pass(const struct output *output, const char *name, sketch_writer *write, void *to,
	    struct problem *problem)
{
	if (write(to, output->bytes, output->count))
		return true;
	return problem_say(problem, "%s: the picture cannot be written there", name);
}

bool
cairo_went_well(cairo_status_t status, struct problem *problem)
{
	if (status == CAIRO_STATUS_SUCCESS)
		return true;
	return problem_say(problem, "the picture cannot be drawn: %s",
			   cairo_status_to_string(status));
}

bool
output_save(const struct output *output, const char *path, struct problem *problem)
{
	FILE *file = fopen(path, "wbe");
	if (file == NULL)
		return problem_say(problem, "%s: cannot be written: %s", path, strerror(errno));
	bool good = fwrite(output->bytes, 1, output->count, file) == output->count;
	good = fclose(file) == 0 && good;
	if (good)
		return true;
	problem_say(problem, "%s: cannot be written: %s", path, strerror(errno));
	unlink(path);
	return false;
}
