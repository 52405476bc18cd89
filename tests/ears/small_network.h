/* A network small enough to reckon by hand: three outputs, silence and a phone of two parts, each
 * of which listens to one cepstrum only. */
#ifndef LAPEL_TESTS_EARS_SMALL_NETWORK_H
#define LAPEL_TESTS_EARS_SMALL_NETWORK_H

#include "network.h"
#include "spectrum.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

enum { SMALL_OUTPUTS = 3 };

static const char small_header[] = "lapel network 1\ncontext 0\ncepstra 13\nlayers 13 3\n"
				   "phones SIL:1 AA:2\nend\n";

/* Writes `header` and the small network's values, `less` floats too few, to `path`. */
static void
small_network_write(const char *path, const char *header, int less)
{
	float values[2 * CEPSTRA + SMALL_OUTPUTS + SMALL_OUTPUTS * CEPSTRA + SMALL_OUTPUTS] = {0};
	int count = sizeof values / sizeof *values;
	for (int i = CEPSTRA; i < 2 * CEPSTRA; i++)
		values[i] = 1; /* deviation */
	float *weights = values + 2 * CEPSTRA + SMALL_OUTPUTS;
	for (int i = 0; i < SMALL_OUTPUTS; i++)
		weights[i * CEPSTRA + i] = 10;
	FILE *file = fopen(path, "wb");
	fputs(header, file);
	fwrite(values, sizeof *values, (size_t)(count - less), file);
	fclose(file);
}

/* Cepstra in which frame i is heard as output said[i]. */
static void
small_network_frames(const int *said, int frames, float *cepstra)
{
	for (int i = 0; i < frames * CEPSTRA; i++)
		cepstra[i] = 0;
	for (int i = 0; i < frames; i++)
		cepstra[i * CEPSTRA + said[i]] = 1;
}

#endif
