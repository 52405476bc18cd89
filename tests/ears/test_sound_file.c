/* Sound files in whatever shape they come. */
#include "sound_file.h"

#include <math.h>
#include <setjmp.h>
#include <sndfile.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

static char path[] = "/tmp/lapel-sound-XXXXXX";

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

/* A tone of 440 Hz and half scale, one second, the same on every channel. */
static void
write_tone(int format, int rate_hz, int channels)
{
	SF_INFO info = {.samplerate = rate_hz, .channels = channels, .format = format};
	SNDFILE *file = sf_open(path, SFM_WRITE, &info);
	assert_non_null(file);
	for (int i = 0; i < rate_hz; i++) {
		float frame[2];
		frame[0] = frame[1] = (float)(0.5 * sin(2 * M_PI * 440 * i / rate_hz));
		assert_int_equal(sf_writef_float(file, frame, 1), 1);
	}
	sf_close(file);
}

static double
level(const int16_t *samples, int64_t count)
{
	double sum = 0;
	for (int64_t i = 0; i < count; i++)
		sum += (double)samples[i] * samples[i];
	return sqrt(sum / (double)count) / 32768;
}

static void
every_rate_and_form_becomes_16_khz_mono(void **state)
{
	static const struct {
		int format, rate_hz, channels;
	} rows[] = {
		{SF_FORMAT_WAV | SF_FORMAT_PCM_16, 16000, 1},
		{SF_FORMAT_WAV | SF_FORMAT_PCM_24, 48000, 2},
		{SF_FORMAT_WAV | SF_FORMAT_FLOAT, 44100, 2},
		{SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1},
		{SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 16000, 1},
		{SF_FORMAT_FLAC | SF_FORMAT_PCM_16, 22050, 2},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		int16_t *samples = NULL;
		int64_t count = 0;
		struct problem problem = {""};
		write_tone(rows[i].format, rows[i].rate_hz, rows[i].channels);
		assert_true(sound_file_read(path, &samples, &count, &problem));
		assert_in_range(count, 15990, 16010);
		/* a sine of half scale has half of the square root of one half */
		assert_true(fabs(level(samples, count) - 0.35355) < 0.005);
		free(samples);
	}
}

static void
a_file_that_lost_its_end_is_refused(void **state)
{
	static const int formats[] = {SF_FORMAT_WAV | SF_FORMAT_PCM_16,
				      SF_FORMAT_FLAC | SF_FORMAT_PCM_16};
	for (int i = 0; i < 2; i++) {
		int16_t *samples = NULL;
		int64_t count = 0;
		struct problem problem = {""};
		struct stat status;
		write_tone(formats[i], 16000, 1);
		assert_int_equal(stat(path, &status), 0);
		assert_int_equal(truncate(path, status.st_size / 2), 0);
		assert_false(sound_file_read(path, &samples, &count, &problem));
		assert_non_null(strstr(problem.text, "cut off"));
		assert_non_null(strstr(problem.text, path));
	}
}

static void
what_is_no_sound_is_refused(void **state)
{
	static const struct {
		const char *content, *says;
	} rows[] = {
		{"", "sound file"}, {"chest twenty one\n", "sound file"}, {"RIFF", "sound file"}};
	int16_t *samples = NULL;
	int64_t count = 0;
	struct problem problem;
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		FILE *file = fopen(path, "w");
		assert_non_null(file);
		fputs(rows[i].content, file);
		fclose(file);
		assert_false(sound_file_read(path, &samples, &count, &problem));
		assert_non_null(strstr(problem.text, rows[i].says));
	}
	assert_false(sound_file_read("/nowhere/dictation.wav", &samples, &count, &problem));
	assert_non_null(strstr(problem.text, "/nowhere/dictation.wav"));
	assert_false(sound_file_read("/", &samples, &count, &problem));
	assert_non_null(strstr(problem.text, "folder"));
}

static void
a_file_without_samples_is_refused(void **state)
{
	int16_t *samples = NULL;
	int64_t count = 0;
	struct problem problem;
	SF_INFO info = {
		.samplerate = 16000, .channels = 1, .format = SF_FORMAT_WAV | SF_FORMAT_PCM_16};
	SNDFILE *file = sf_open(path, SFM_WRITE, &info);
	assert_non_null(file);
	sf_close(file);
	assert_false(sound_file_read(path, &samples, &count, &problem));
	assert_non_null(strstr(problem.text, "no sound"));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_rate_and_form_becomes_16_khz_mono),
		cmocka_unit_test(a_file_that_lost_its_end_is_refused),
		cmocka_unit_test(what_is_no_sound_is_refused),
		cmocka_unit_test(a_file_without_samples_is_refused),
	};
	return cmocka_run_group_tests(tests, make_path, remove_path);
}
