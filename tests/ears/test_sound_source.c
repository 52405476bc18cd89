/* A file as a source: every sample once, in order, then the end. */
#include "sound_source.h"

#include <setjmp.h>
#include <sndfile.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static char path[] = "/tmp/lapel-source-XXXXXX";

static int
make_file(void **state)
{
	int fd = mkstemp(path);
	SF_INFO info = {
		.samplerate = 16000, .channels = 1, .format = SF_FORMAT_WAV | SF_FORMAT_PCM_16};
	SNDFILE *file = fd < 0 ? NULL : sf_open_fd(fd, SFM_WRITE, &info, 1);
	if (file == NULL)
		return -1;
	for (int16_t i = 0; i < 1000; i++)
		sf_write_short(file, &i, 1);
	return sf_close(file);
}

static int
remove_file(void **state)
{
	return unlink(path);
}

static void
every_sample_comes_once_and_in_order_then_the_end(void **state)
{
	struct problem problem = {""};
	struct sound_piece piece;
	int16_t samples[160], want = 0;
	struct sound_source *source = sound_source_file_open(path, &problem);
	assert_non_null(source);
	assert_string_equal(source->functions->name, "file");
	assert_int_equal(sound_source_fd(source), -1);
	while (sound_source_next(source, samples, 160, &piece) == SOUND_SOME) {
		assert_int_equal(piece.lost, 0);
		for (int64_t i = 0; i < piece.count; i++)
			assert_int_equal(samples[i], want++);
	}
	assert_int_equal(want, 1000);
	assert_int_equal(sound_source_next(source, samples, 160, &piece), SOUND_ENDED);
	assert_int_equal(piece.count, 0);
	sound_source_close(source);
}

static void
a_file_that_is_not_there_is_told(void **state)
{
	struct problem problem = {""};
	assert_null(sound_source_file_open("/nonexistent/a.wav", &problem));
	assert_non_null(strstr(problem.text, "/nonexistent/a.wav"));
	sound_source_close(NULL);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_sample_comes_once_and_in_order_then_the_end),
		cmocka_unit_test(a_file_that_is_not_there_is_told),
	};
	return cmocka_run_group_tests(tests, make_file, remove_file);
}
