/* A network small enough to reckon by hand: three outputs, silence and a phone of two parts, each
 * of which listens to one band only, in its own frame. */
#ifndef LAPEL_TESTS_EARS_SMALL_NETWORK_H
#define LAPEL_TESTS_EARS_SMALL_NETWORK_H

#include "network.h"
#include "spectrum.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { SMALL_OUTPUTS = 3 };

static const char small_header[] = "lapel network 2\nbands 25\nlayer 3 new 0\n"
				   "phones SIL:1 AA:2\nend\n";

/* Writes `header` and the small network's values, `less` floats too few, to `path`. */
static void
small_network_write(const char *path, const char *header, int less)
{
	struct {
		float mean[BANDS], deviation[BANDS], prior[SMALL_OUTPUTS];
		float weights[SMALL_OUTPUTS][BANDS], bias[SMALL_OUTPUTS];
		float scale[SMALL_OUTPUTS], shift[SMALL_OUTPUTS];
		float last[SMALL_OUTPUTS][SMALL_OUTPUTS], last_bias[SMALL_OUTPUTS];
	} values;
	memset(&values, 0, sizeof values);
	for (int i = 0; i < BANDS; i++)
		values.deviation[i] = 1;
	for (int i = 0; i < SMALL_OUTPUTS; i++) {
		values.weights[i][i] = 1;
		values.bias[i] = 1; /* so that nothing falls below zero when the mean is off */
		values.scale[i] = 1;
		values.last[i][i] = 10;
	}
	FILE *file = fopen(path, "wb");
	fputs(header, file);
	fwrite(&values, sizeof(float), sizeof values / sizeof(float) - (size_t)less, file);
	fclose(file);
}

/* Bands in which frame i is heard as output said[i]. */
static inline void
small_network_frames(const int *said, int frames, float *bands)
{
	for (int i = 0; i < frames * BANDS; i++)
		bands[i] = 0;
	for (int i = 0; i < frames; i++)
		bands[i * BANDS + said[i]] = 1;
}

/* Set-up and tear-down of a group of tests whose state is the small network. */
static inline int
small_network_set_up(void **state)
{
	char path[] = "/tmp/lapel-network-XXXXXX";
	struct problem problem = {""};
	int fd = mkstemp(path);
	if (fd < 0 || close(fd) != 0)
		return 1;
	small_network_write(path, small_header, 0);
	*state = network_read(path, &problem);
	return unlink(path) != 0 || *state == NULL;
}

static inline int
small_network_tear_down(void **state)
{
	network_destroy(*state);
	return 0;
}

#endif
