#include "level.h"
#include "speech.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

static const char *const names[] = {"slt", "rms", "awb", "kal16", "kal"};
enum { NAMES = sizeof names / sizeof *names };

/* The caller finishes it. */
static struct sound
said(const char *name, double rate, const char *text)
{
	struct problem problem = {""};
	struct speech *speech = speech_open(name, rate, &problem);
	struct sound sound;
	assert_string_equal(problem.text, "");
	assert_true(speech_render(speech, text, &sound, &problem));
	speech_close(speech);
	return sound;
}

static double
seconds(const struct sound *sound)
{
	return (double)sound->count / SOUND_RATE_HZ;
}

static void
assert_same(const struct sound *one, const struct sound *other)
{
	assert_int_equal(one->count, other->count);
	assert_memory_equal(one->samples, other->samples, (size_t)one->count * sizeof(int16_t));
}

static void
every_voice_speaks_at_a_comfortable_level(void **unused)
{
	for (int i = 0; i < NAMES; i++) {
		struct sound sound = said(names[i], 1.0, "chest twenty one and a half");
		/* Seven syllables: people say four to six in a second (from memory). */
		assert_true(seconds(&sound) > 1.0 && seconds(&sound) < 2.5);
		double active = level_active_dbfs(&sound);
		print_message("%-6s %.3f s, active %.1f dBFS, peak %.1f dBFS\n", names[i],
			      seconds(&sound), active, 20 * log10(level_peak(&sound) / 32767.0));
		assert_true(active > LEVEL_SPEECH_DBFS - 3 && active < LEVEL_SPEECH_DBFS + 0.5);
		assert_true(level_peak(&sound) <= level_sample(LEVEL_SPEECH_PEAK_DBFS));
		sound_finish(&sound);
	}
}

static void
the_words_begin_at_once_and_end_at_once(void **unused)
{
	static const char *const texts[] = {"first", "thirteen, or thirty?", "chest twenty"};
	for (int i = 0; i < NAMES; i++)
		for (size_t j = 0; j < sizeof texts / sizeof *texts; j++) {
			struct sound sound = said(names[i], 1.0, texts[j]);
			double heard = level_sample(LEVEL_SPEECH_DBFS - 35);
			int64_t first = 0, last = sound.count - 1;
			while (abs(sound.samples[first]) < heard)
				first++;
			while (abs(sound.samples[last]) < heard)
				last--;
			assert_true(first < SOUND_RATE_HZ / 10);
			assert_true(sound.count - last < SOUND_RATE_HZ / 5);
			sound_finish(&sound);
		}
}

static void
the_same_words_are_the_same_samples_whatever_was_said_before(void **unused)
{
	for (int i = 0; i < NAMES; i++) {
		struct sound first = said(names[i], 1.0, "sleeve fifteen");
		struct sound between = said(names[i], 1.3, "flaw small stain left cuff");
		srand(17);
		struct sound again = said(names[i], 1.0, "sleeve fifteen");
		assert_same(&first, &again);
		sound_finish(&first);
		sound_finish(&between);
		sound_finish(&again);
	}
}

static void
speaking_leaves_the_programs_random_numbers_alone(void **unused)
{
	srand(17);
	int first = rand(), second = rand();
	srand(17);
	assert_int_equal(rand(), first);
	struct sound sound = said("slt", 1.0, "first");
	sound_finish(&sound);
	assert_int_equal(rand(), second);
}

static void
what_was_said_lately_costs_nothing(void **unused)
{
	struct speech *speech = speech_open("slt", 1.0, NULL);
	struct sound first, again;
	assert_true(speech_render(speech, "length twenty eight", &first, NULL));
	clock_t before = clock();
	for (int i = 0; i < 1000; i++) {
		assert_true(speech_render(speech, "length twenty eight", &again, NULL));
		assert_same(&first, &again);
		sound_finish(&again);
	}
	/* Rendered anew, a thousand times would be 10 s or more. */
	assert_true((double)(clock() - before) / CLOCKS_PER_SEC < 2.0);
	sound_finish(&first);
	speech_close(speech);
}

static void
what_fell_out_of_the_cache_is_said_as_before(void **unused)
{
	struct speech *speech = speech_open("kal", 1.0, NULL);
	struct sound first, sound;
	assert_true(speech_render(speech, "item zero", &first, NULL));
	for (int i = 1; i < 200; i++) {
		char text[32];
		snprintf(text, sizeof text, "item %d", i);
		assert_true(speech_render(speech, text, &sound, NULL));
		assert_true(sound.count > 0);
		sound_finish(&sound);
	}
	assert_true(speech_render(speech, "item zero", &sound, NULL));
	assert_same(&first, &sound);
	sound_finish(&first);
	sound_finish(&sound);
	speech_close(speech);
}

static void
a_rate_is_a_rate(void **unused)
{
	for (int i = 0; i < NAMES; i++) {
		struct sound slow = said(names[i], 0.5, "chest twenty one and a half");
		struct sound usual = said(names[i], 1.0, "chest twenty one and a half");
		struct sound fast = said(names[i], 2.0, "chest twenty one and a half");
		assert_true(fabs(seconds(&slow) / seconds(&usual) - 2.0) < 0.2);
		assert_true(fabs(seconds(&fast) / seconds(&usual) - 0.5) < 0.12);
		sound_finish(&slow);
		sound_finish(&usual);
		sound_finish(&fast);
	}
}

static void
where_there_is_nothing_to_say_nothing_is_said(void **unused)
{
	static const char *const texts[] = {"",	    " ",       "...",	       "?!",
					    "-",    "\"\"",    "\n\t",	       "\xff\xfe\x80",
					    "\x01", "( ) [ ]", "\u4e0a\u8863", "\U0001f455"};
	for (int i = 0; i < NAMES; i++)
		for (size_t j = 0; j < sizeof texts / sizeof *texts; j++) {
			struct sound sound = said(names[i], 1.0, texts[j]);
			assert_int_equal(sound.count, 0);
			sound_finish(&sound);
		}
}

static void
odd_text_is_said_as_well_as_it_can_be(void **unused)
{
	static const char *const texts[] = {"caf\u00e9",
					    "Orlscombe & Daughters",
					    "$12.50",
					    "21 1/2",
					    "4-3",
					    "a.b.c.d.",
					    "<speak>",
					    "%s%n%d",
					    "100000000000000000000000",
					    "x\xff"
					    "y",
					    "I'd've",
					    "www.example.org/a?b=c",
					    "12:30:45 1/2/1999",
					    "MDCCLXXVI XIV",
					    "#$@ dollar",
					    "\\\\ slash"};
	for (int i = 0; i < NAMES; i++)
		for (size_t j = 0; j < sizeof texts / sizeof *texts; j++) {
			struct sound sound = said(names[i], 1.0, texts[j]);
			assert_true(sound.count > 0);
			sound_finish(&sound);
		}
}

static void
long_text_is_said(void **unused)
{
	static const struct {
		const char *unit;
		int characters;
	} rows[] = {{"ab ", 10000}, {"a", 10000},     {"7", 300},     {"12 ", 1000},
		    {"no. ", 1000}, {"\u00e9", 1000}, {"!~q ", 1000}, {"(", 10000}};
	static char text[20001];
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
		size_t length = 0;
		while (length < (size_t)rows[i].characters)
			length += (size_t)sprintf(text + length, "%s", rows[i].unit);
		struct sound sound = said("kal16", 2.0, text);
		assert_true(sound.count > 0 || *rows[i].unit == '(');
		sound_finish(&sound);
	}
}

static void
what_cannot_be_opened_is_said_why(void **unused)
{
	struct problem problem = {""};
	assert_null(speech_open("nobody", 1.0, &problem));
	for (int i = 0; i < NAMES; i++)
		assert_non_null(strstr(problem.text, names[i]));
	assert_null(speech_open("", 1.0, &problem));
	static const double rates[] = {0.49, 2.01, 0, -1, NAN, INFINITY};
	for (size_t i = 0; i < sizeof rates / sizeof *rates; i++) {
		assert_null(speech_open("slt", rates[i], &problem));
		assert_non_null(strstr(problem.text, "0.5 to 2.0"));
	}
	speech_close(NULL);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_voice_speaks_at_a_comfortable_level),
		cmocka_unit_test(the_words_begin_at_once_and_end_at_once),
		cmocka_unit_test(the_same_words_are_the_same_samples_whatever_was_said_before),
		cmocka_unit_test(speaking_leaves_the_programs_random_numbers_alone),
		cmocka_unit_test(what_was_said_lately_costs_nothing),
		cmocka_unit_test(what_fell_out_of_the_cache_is_said_as_before),
		cmocka_unit_test(a_rate_is_a_rate),
		cmocka_unit_test(where_there_is_nothing_to_say_nothing_is_said),
		cmocka_unit_test(odd_text_is_said_as_well_as_it_can_be),
		cmocka_unit_test(long_text_is_said),
		cmocka_unit_test(what_cannot_be_opened_is_said_why)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
