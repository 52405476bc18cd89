#include "sound.h"
#include "wav_file.h"

#include <setjmp.h>
#include <signal.h>
#include <sndfile.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cmocka.h>

static char path[64];

static int
make_path(void **unused)
{
	strcpy(path, "/tmp/lapel-wav-XXXXXX");
	int descriptor = mkstemp(path);
	return descriptor < 0 ? -1 : close(descriptor);
}

static int
remove_path(void **unused)
{
	return unlink(path);
}

static int64_t
frames(void)
{
	SF_INFO info = {0};
	SNDFILE *file = sf_open(path, SFM_READ, &info);
	assert_non_null(file);
	sf_close(file);
	return info.frames;
}

/* What the file's own header says, which libsndfile does not take at its word: byte 40 on, the
 * length of the samples in bytes. */
static int64_t
header_frames(void)
{
	unsigned char header[44];
	FILE *file = fopen(path, "rb");
	assert_non_null(file);
	assert_int_equal(fread(header, 1, sizeof header, file), sizeof header);
	assert_int_equal(fclose(file), 0);
	assert_memory_equal(header + 36, "data", 4);
	return (header[40] | header[41] << 8 | header[42] << 16 | (int64_t)header[43] << 24) / 2;
}

static void
a_file_is_whole_at_any_time(void **unused)
{
	static const int16_t samples[100] = {1, 2, 3};
	struct wav_file *file = wav_file_open(path, NULL);
	assert_non_null(file);
	assert_true(wav_file_write(file, samples, 100, NULL));
	assert_int_equal(frames(), 100);
	assert_int_equal(header_frames(), 100);
	assert_true(wav_file_write_silence(file, 40000, NULL));
	assert_int_equal(frames(), 40100);
	assert_int_equal(header_frames(), 40100);
	assert_true(wav_file_write(file, NULL, 0, NULL));
	assert_true(wav_file_close(file, NULL));
	assert_int_equal(frames(), 40100);
}

/* A limit on the size of files stands for a full disk: the same call fails, after a part. */
static void
a_full_disk_is_told_and_leaves_a_whole_file(void **unused)
{
	struct rlimit before;
	getrlimit(RLIMIT_FSIZE, &before);
	struct rlimit small = {.rlim_cur = 100000, .rlim_max = before.rlim_max};
	signal(SIGXFSZ, SIG_IGN);
	struct wav_file *file = wav_file_open(path, NULL);
	assert_non_null(file);
	setrlimit(RLIMIT_FSIZE, &small);
	struct problem problem = {""};
	bool written = wav_file_write_silence(file, 5 * SOUND_RATE_HZ, &problem);
	wav_file_close(file, NULL);
	setrlimit(RLIMIT_FSIZE, &before);
	signal(SIGXFSZ, SIG_DFL);
	assert_false(written);
	print_message("%s\n", problem.text);
	assert_non_null(strstr(problem.text, path));
	assert_non_null(strstr(problem.text, "File too large"));
	assert_non_null(strstr(problem.text, "after 3 s"));
	assert_in_range(frames(), 49000, 50000);
}

static void
a_device_that_is_full_is_told(void **unused)
{
	if (access("/dev/full", W_OK) != 0)
		skip();
	struct problem problem = {""};
	struct wav_file *file = wav_file_open("/dev/full", &problem);
	if (file != NULL) {
		bool written = wav_file_write_silence(file, 100, &problem);
		wav_file_close(file, written ? &problem : NULL);
	}
	print_message("%s\n", problem.text);
	assert_non_null(strstr(problem.text, "/dev/full"));
}

static void
closing_nothing_is_allowed(void **unused)
{
	assert_true(wav_file_close(NULL, NULL));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(a_file_is_whole_at_any_time, make_path,
						remove_path),
		cmocka_unit_test_setup_teardown(a_full_disk_is_told_and_leaves_a_whole_file,
						make_path, remove_path),
		cmocka_unit_test(a_device_that_is_full_is_told),
		cmocka_unit_test(closing_nothing_is_allowed)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
