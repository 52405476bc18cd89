/* From the keys that a bar-code reader types to the label that it read. Pure: time is an argument.
 * Such a reader is a keyboard: it types the label (as on a US layout) and then Enter or Tab. */
#ifndef LAPEL_PEDAL_SCAN_H
#define LAPEL_PEDAL_SCAN_H

#include <stdbool.h>
#include <stdint.h>

enum { SCAN_LABEL_MAX = 64, SCAN_GAP_MS = 500 };

/* The fields are this file's own; zeroed, it is ready. */
struct scan {
	char label[SCAN_LABEL_MAX];
	int length;
	bool shift;
	bool spoilt; /* a key that is in no label, or too many: nothing until the next Enter */
	int64_t last_ms;
};

/* A change of a key. True when a label has been read, which is then in `label`: digits, letters in
 * lower case, and - . / + $ % and blanks between, blanks at either end left out. An empty one is
 * not told, nor one in which more than SCAN_GAP_MS passed between two keys: that was the rest of a
 * scan of which the beginning was lost. */
bool scan_key(struct scan *scan, int key, bool down, int64_t at_ms, char label[SCAN_LABEL_MAX]);

#endif
