#include "rate_change.h"

#include <assert.h>
#include <samplerate.h>
#include <stdlib.h>
#include <string.h>

enum { PIECE_MAX = 4096 };

struct rate_change {
	SRC_STATE *state;
	double ratio;
	float in[PIECE_MAX], out[PIECE_MAX];
};

struct rate_change *
rate_change_create(int from_hz, int to_hz)
{
	int error;
	struct rate_change *change = calloc(1, sizeof *change);
	if (change == NULL)
		return NULL;
	change->ratio = (double)to_hz / from_hz;
	change->state = src_new(SRC_SINC_MEDIUM_QUALITY, 1, &error);
	if (change->state != NULL)
		return change;
	free(change);
	return NULL;
}

void
rate_change_destroy(struct rate_change *change)
{
	if (change == NULL)
		return;
	src_delete(change->state);
	free(change);
}

int64_t
rate_change_most_in(const struct rate_change *change, int64_t most_out)
{
	if (change == NULL)
		return most_out;
	/* One sample more may come out than the ratio says, when the filter had kept one back. */
	int64_t most = (int64_t)((double)(most_out - 1) / change->ratio);
	return most < PIECE_MAX ? most : PIECE_MAX;
}

int64_t
rate_change_do(struct rate_change *change, const int16_t *in, int64_t count, int16_t *out,
	       int64_t most_out)
{
	if (change == NULL) {
		assert(count <= most_out);
		memcpy(out, in, (size_t)count * sizeof *out);
		return count;
	}
	assert(count <= PIECE_MAX);
	src_short_to_float_array(in, change->in, (int)count);
	int64_t made = 0;
	for (int64_t used = 0; used < count;) {
		SRC_DATA data = {.data_in = change->in + used,
				 .data_out = change->out,
				 .input_frames = count - used,
				 .output_frames =
					 most_out - made < PIECE_MAX ? most_out - made : PIECE_MAX,
				 .src_ratio = change->ratio};
		if (src_process(change->state, &data) != 0 ||
		    (data.input_frames_used == 0 && data.output_frames_gen == 0))
			break;
		src_float_to_short_array(change->out, out + made, (int)data.output_frames_gen);
		made += data.output_frames_gen;
		used += data.input_frames_used;
	}
	return made;
}
