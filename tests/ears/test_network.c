/* The network: read whole or not at all, and what it says of frames. */
#include "small_network.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

static char path[] = "/tmp/lapel-network-XXXXXX";

static int
make_path(void **state)
{
	int fd = mkstemp(path);
	return fd < 0 || close(fd) != 0;
}

static int
remove_path(void **state)
{
	return unlink(path);
}

static void
each_frame_goes_to_the_output_that_it_sounds_like(void **state)
{
	static const int said[] = {0, 0, 1, 2, 0};
	enum { FRAMES = sizeof said / sizeof *said };
	float bands[FRAMES * BANDS];
	struct problem problem = {""};
	small_network_write(path, small_header, 0);
	struct network *network = network_read(path, &problem);
	assert_non_null(network);
	assert_int_equal(network_outputs(network), SMALL_OUTPUTS);
	small_network_frames(said, FRAMES, bands);
	float *scores = network_scores(network, bands, FRAMES);
	assert_non_null(scores);
	for (int i = 0; i < FRAMES; i++) {
		double sum = 0;
		for (int k = 0; k < SMALL_OUTPUTS; k++) {
			assert_true(scores[i * SMALL_OUTPUTS + k] <=
				    scores[i * SMALL_OUTPUTS + said[i]]);
			sum += exp(scores[i * SMALL_OUTPUTS + k]);
		}
		/* with log priors of nothing, these are posteriors */
		assert_true(fabs(sum - 1) < 1e-4);
	}
	free(scores);
	network_destroy(network);
}

static void
phones_are_found_by_name(void **state)
{
	int parts = 0;
	struct problem problem = {""};
	small_network_write(path, small_header, 0);
	struct network *network = network_read(path, &problem);
	assert_non_null(network);
	assert_int_equal(network_phone(network, "AA", &parts), 1);
	assert_int_equal(parts, 2);
	assert_int_equal(network_phone(network, "SIL", &parts), 0);
	assert_int_equal(network_phone(network, "ZH", &parts), -1);
	network_destroy(network);
}

static void
what_is_no_network_is_refused(void **state)
{
	static const struct {
		const char *header;
		int less;
	} rows[] = {
		{small_header, 1},
		{"lapel network 1\nend\n", 0},
		{"lapel network 2\nend\n", 0},
		{"", 0},
		{"lapel network 2\nbands 13\nlayer 3 new 0\nphones SIL:1 AA:2\nend\n", 0},
		{"lapel network 2\nbands 25\nlayer 3 new 0 1\nphones SIL:1 AA:2\nend\n", 0},
		{"lapel network 2\nbands 25\nlayer 3 adds 0\nphones SIL:1 AA:2\nend\n", 0},
		{"lapel network 2\nbands 25\nlayer 3 new\nphones SIL:1 AA:2\nend\n", 0},
		{"lapel network 2\nbands 25\nphones SIL:1 AA:2\nend\n", 0},
		{"lapel network 2\nbands 25\nlayer 3 new 0\nphones SIL AA:2\nend\n", 0},
		{"lapel network 2\nbands 25\nlayer 3 new 0\nend\n", 0},
		{"lapel network 2\nbands 25\nlayer 99999 new 0\nphones SIL:3\nend\n", 0},
	};
	struct problem problem;
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		small_network_write(path, rows[i].header, rows[i].less);
		assert_null(network_read(path, &problem));
		assert_non_null(strstr(problem.text, path));
	}
	assert_null(network_read("/nowhere/numbers.net", &problem));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_frame_goes_to_the_output_that_it_sounds_like),
		cmocka_unit_test(phones_are_found_by_name),
		cmocka_unit_test(what_is_no_network_is_refused),
	};
	return cmocka_run_group_tests(tests, make_path, remove_path);
}
