/* Which part of a file is wanted: the Range of RFC 9110, section 14, of which one range of bytes is
 * answered. Inside desk/. */
#ifndef LAPEL_DESK_RANGE_H
#define LAPEL_DESK_RANGE_H

#include <stdint.h>

enum range_wanted {
	RANGE_WHOLE, /* none was asked for, or one that is not understood: all of it */
	RANGE_PART,  /* from *from, *count bytes */
	RANGE_NONE   /* nothing of the file lies in it */
};

/* "bytes=0-499", "bytes=500-", "bytes=-500" of a file of `size` bytes; NULL: no header. */
enum range_wanted range_read(const char *header, int64_t size, int64_t *from, int64_t *count);

#endif
