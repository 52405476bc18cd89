/* The files of the page, which are in the program. Inside desk/. */
#ifndef LAPEL_DESK_PAGE_FILES_H
#define LAPEL_DESK_PAGE_FILES_H

#include <stddef.h>

struct page_file {
	const char *name, *type;
	const unsigned char *bytes; /* with a zero behind them */
	size_t size;
};

extern const struct page_file page_files[];
extern const int page_file_count;

#endif
