#include "range.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { FIGURES_MAX = 18 };

/* Figures, as many as fit; -1 when there are none. */
static bool
read_figures(const char **text, int64_t *number)
{
	size_t length = strspn(*text, "0123456789");
	*number = length == 0 ? -1 : strtoll(*text, NULL, 10);
	*text += length;
	return length <= FIGURES_MAX;
}

enum range_wanted
range_read(const char *header, int64_t size, int64_t *from, int64_t *count)
{
	static const char unit[] = "bytes=";
	int64_t first, last;
	*from = 0;
	*count = size;
	if (header == NULL || strncasecmp(header, unit, sizeof unit - 1) != 0)
		return RANGE_WHOLE;
	const char *text = header + sizeof unit - 1;
	bool read = read_figures(&text, &first) && *text == '-';
	text += read;
	if (!read || !read_figures(&text, &last) || *text != '\0' || (first < 0 && last < 0) ||
	    (first >= 0 && last >= 0 && last < first))
		return RANGE_WHOLE;
	if (first < 0) { /* the last bytes */
		first = last >= size ? 0 : size - last;
		last = last == 0 ? -1 : size - 1;
	}
	if (last < 0 && header[sizeof unit - 1] == '-')
		return RANGE_NONE;
	if (last < 0 || last >= size)
		last = size - 1;
	if (first >= size)
		return RANGE_NONE;
	*from = first;
	*count = last - first + 1;
	return RANGE_PART;
}
