#include "cues.h"
#include "level.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* The cues that the program ships. The caller destroys them. */
static struct cues *
shipped(void)
{
	char path[4096], text[8192];
	snprintf(path, sizeof path, "%s/cues.txt", getenv("LAPEL_AUDIO"));
	FILE *file = fopen(path, "r");
	assert_non_null(file);
	size_t length = fread(text, 1, sizeof text - 1, file);
	text[length] = '\0';
	assert_int_equal(fclose(file), 0);
	struct problem problem = {""};
	struct cues *cues = cues_parse("cues.txt", text, &problem);
	assert_string_equal(problem.text, "");
	return cues;
}

/* What a listener hears, found in the samples and not in the text: how many tones, and how high. */
struct heard {
	int tones;
	double hertz[16];
};

static void
hear(const struct sound *sound, struct heard *heard)
{
	enum { WINDOW = SOUND_RATE_HZ / 250 }; /* 4 ms */
	memset(heard, 0, sizeof *heard);
	double loud = level_peak(sound) * 0.7;
	int64_t from = -1, last = 0;
	for (int64_t at = 0; at <= sound->count; at += WINDOW) {
		struct sound window = {sound->samples + at,
				       sound->count - at < WINDOW ? sound->count - at : WINDOW};
		bool on = window.count > 0 && level_peak(&window) > loud;
		if (on && from < 0)
			from = at;
		if (on)
			last = at + WINDOW;
		/* A tone of 240 Hz has a peak each 2.1 ms, so a window of 4 ms without is its end.
		 */
		if (on || from < 0)
			continue;
		double first_cross = -1, last_cross = -1;
		int crossings = 0;
		for (int64_t i = from + 1; i < last && i < sound->count; i++)
			if (sound->samples[i - 1] < 0 && sound->samples[i] >= 0) {
				double step = sound->samples[i] - sound->samples[i - 1];
				last_cross = (double)i - sound->samples[i] / step;
				if (crossings++ == 0)
					first_cross = last_cross;
			}
		assert_true(crossings > 1 && heard->tones < 16);
		heard->hertz[heard->tones++] =
			(crossings - 1) * SOUND_RATE_HZ / (last_cross - first_cross);
		from = -1;
	}
}

static void
each_shipped_cue_is_told_by_number_and_direction(void **unused)
{
	static const struct {
		const char *name;
		int tones;
		int direction; /* from the first tone to the last: 1 up, -1 down, 0 level */
		bool low;
	} rows[] = {{"taken", 2, 1, false},   {"struck", 2, -1, false}, {"doubted", 2, 0, false},
		    {"held", 1, 0, false},    {"refused", 1, 0, true},	{"resumed", 3, 1, false},
		    {"paused", 3, -1, false}, {"trouble", 4, 0, true}};
	struct cues *cues = shipped();
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct heard heard;
		hear(cues_find(cues, rows[i].name), &heard);
		if (heard.tones != rows[i].tones)
			fail_msg("%s has %d tones", rows[i].name, heard.tones);
		double ratio = heard.hertz[heard.tones - 1] / heard.hertz[0];
		/* A third or more: nobody takes it for level, or level for it. */
		int direction = ratio > 1.25 ? 1 : ratio < 0.8 ? -1 : 0;
		assert_int_equal(direction, rows[i].direction);
		if (direction == 0)
			assert_true(fabs(ratio - 1) < 0.02);
		/* Low and high are at least an octave apart. */
		assert_true(rows[i].low ? heard.hertz[0] < 350 : heard.hertz[0] > 430);
		for (size_t j = 0; j < i; j++)
			assert_false(rows[j].tones == rows[i].tones &&
				     rows[j].direction == rows[i].direction &&
				     rows[j].low == rows[i].low);
	}
	cues_destroy(cues);
}

static void
the_shipped_cues_are_short_and_modest(void **unused)
{
	static const struct {
		const char *name;
		int ms_max;
	} rows[] = {{"taken", 200},  {"refused", 200}, {"doubted", 300}, {"held", 100},
		    {"struck", 200}, {"paused", 300},  {"resumed", 300}, {"trouble", 800}};
	struct cues *cues = shipped();
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		const struct sound *sound = cues_find(cues, rows[i].name);
		assert_true(sound->count > 0);
		assert_true(sound->count <= rows[i].ms_max * SOUND_RATE_HZ / 1000);
		/* Near the words' own level, neither lost nor startling. */
		assert_true(fabs(level_active_dbfs(sound) - LEVEL_SPEECH_DBFS) < 5);
		assert_true(level_peak(sound) <= level_sample(-12));
	}
	cues_destroy(cues);
}

static void
tones_are_rendered_as_written(void **unused)
{
	struct cues *cues = cues_parse("cues", "high 1000/100 0/50 500/100 level -20", NULL);
	const struct sound *sound = cues_find(cues, "high");
	assert_int_equal(sound->count, 250 * SOUND_RATE_HZ / 1000);
	struct heard heard;
	hear(sound, &heard);
	assert_int_equal(heard.tones, 2);
	assert_true(fabs(heard.hertz[0] - 1000) < 2);
	assert_true(fabs(heard.hertz[1] - 500) < 2);
	assert_true(fabs(level_peak(sound) - level_sample(-20)) <= 2);
	for (int i = 100 * 16; i < 150 * 16; i++)
		assert_int_equal(sound->samples[i], 0);
	cues_destroy(cues);
}

static void
no_tone_begins_or_ends_with_a_click(void **unused)
{
	struct cues *cues = shipped();
	static const char *const names[] = {"taken", "refused", "trouble"};
	for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
		const struct sound *sound = cues_find(cues, names[i]);
		struct sound first = {sound->samples, 8},
			     last = {sound->samples + sound->count - 8, 8};
		assert_true(level_peak(&first) < level_peak(sound) / 20);
		assert_true(level_peak(&last) < level_peak(sound) / 20);
	}
	cues_destroy(cues);
}

static void
a_file_is_read_line_by_line(void **unused)
{
	static const struct {
		const char *text;
		const char *name; /* of a cue that is there then */
	} rows[] = {{"taken 660/70 990/90 level -22", "taken"},
		    {"  taken\t660/70   level\t-12  \r\n", "taken"},
		    {"# a comment\n\n \nheld 880/60 level -60 # marks it\n", "held"},
		    {"a 100/10 level -12\nb 4000/1000 level -12", "b"},
		    {"pause 0/100 level -20", "pause"}};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct problem problem = {""};
		struct cues *cues = cues_parse("cues", rows[i].text, &problem);
		assert_string_equal(problem.text, "");
		assert_true(cues_find(cues, rows[i].name)->count > 0);
		assert_int_equal(cues_find(cues, "unknown")->count, 0);
		cues_destroy(cues);
	}
	struct cues *none = cues_parse("cues", "", NULL);
	assert_non_null(none);
	assert_int_equal(cues_find(none, "taken")->count, 0);
	cues_destroy(none);
	cues_destroy(NULL);
}

static void
what_is_no_cue_is_named_with_file_and_line(void **unused)
{
	static const struct {
		const char *text, *told;
	} rows[] = {
		{"taken", "line 1: this cue has no tone: \"taken\""},
		{"taken level -20", "line 1: this cue has no tone"},
		{"taken 660/70", "line 1: the line must end in \"level\""},
		{"taken 660/70 level", "line 1: a level is a whole number"},
		{"taken 660/70 level -11", "line 1: a level is a whole number from -60 to -12"},
		{"taken 660/70 level 0", "line 1: a level"},
		{"taken 660/70 level 20", "line 1: a level"},
		{"taken 660/70 level -61", "line 1: a level"},
		{"taken 660/70 level -20.5", "line 1: a level"},
		{"taken 660/70 level -", "line 1: a level"},
		{"taken 660/70 level -99999999999", "line 1: a level"},
		{"taken 660/70 level -20 990/70", "line 1: nothing may follow"},
		{"\n\ntaken 660 level -20", "line 3: a tone is written HERTZ/MILLISECONDS"},
		{"taken 660/ level -20", "line 1: a tone is written"},
		{"taken /70 level -20", "line 1: a tone is written"},
		{"taken 660/70/70 level -20", "line 1: a tone is written"},
		{"taken 660/70ms level -20", "line 1: a tone is written"},
		{"taken 6e2/70 level -20", "line 1: a tone is written"},
		{"taken 99/70 level -20", "line 1: a tone has 100 to 4000 hertz"},
		{"taken 4001/70 level -20", "line 1: a tone has"},
		{"taken -660/70 level -20", "line 1: a tone has"},
		{"taken 660/9 level -20", "line 1: a tone lasts 10 to 1000"},
		{"taken 660/1001 level -20", "line 1: a tone lasts"},
		{"taken 660/-70 level -20", "line 1: a tone lasts"},
		{"taken 660/1000 660/1000 660/10 level -20", "line 1: a cue lasts at most 2000"},
		{"a 1000/10 1000/10 1000/10 1000/10 1000/10 1000/10 1000/10 1000/10 1000/10 "
		 "1000/10 "
		 "1000/10 1000/10 1000/10 1000/10 1000/10 1000/10 1000/10 level -20",
		 "line 1: a cue has at most 16 tones"},
		{"Taken 660/70 level -20", "line 1: a cue's name"},
		{"660/70 level -20", "line 1: a cue's name"},
		{"abcdefghijklmnopqrstuvwxyzabcdefgh 660/70 level -20", "line 1: a cue's name"},
		{"taken 660/70 level -20\nheld 660/70 level -20\ntaken 990/70 level -20\n",
		 "line 3: this cue stands twice: \"taken\""},
	};
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		struct problem problem = {""};
		assert_null(cues_parse("my-cues.txt", rows[i].text, &problem));
		assert_int_equal(strncmp(problem.text, "my-cues.txt, ", 13), 0);
		if (strstr(problem.text, rows[i].told) == NULL)
			fail_msg("\"%s\": want \"%s\", got \"%s\"", rows[i].text, rows[i].told,
				 problem.text);
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_shipped_cue_is_told_by_number_and_direction),
		cmocka_unit_test(the_shipped_cues_are_short_and_modest),
		cmocka_unit_test(tones_are_rendered_as_written),
		cmocka_unit_test(no_tone_begins_or_ends_with_a_click),
		cmocka_unit_test(a_file_is_read_line_by_line),
		cmocka_unit_test(what_is_no_cue_is_named_with_file_and_line)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
