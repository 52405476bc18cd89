#include "level.h"
#include "voice.h"

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

/* Cues of known lengths: what is heard when can be told from them alone. */
static const char cues_text[] = "short 1000/100 level -12\n"
				"long 500/1000 level -12\n";

struct station {
	char path[64];
	struct speech *speech;
	struct cues *cues;
	struct voice *voice;
};

static int
open_station(void **state)
{
	struct station *station = calloc(1, sizeof *station);
	strcpy(station->path, "/tmp/lapel-voice-XXXXXX");
	close(mkstemp(station->path));
	station->speech = speech_open("kal16", 1.0, NULL);
	station->cues = cues_parse("cues", cues_text, NULL);
	station->voice = voice_open_file(station->path, station->speech, station->cues, NULL);
	*state = station;
	return station->voice == NULL ? -1 : 0;
}

static int
close_station(void **state)
{
	struct station *station = *state;
	voice_close(station->voice, 0, NULL);
	cues_destroy(station->cues);
	speech_close(station->speech);
	unlink(station->path);
	free(station);
	return 0;
}

static void
say(struct station *station, int64_t at_ms, const char *cue, const char *text)
{
	struct problem problem = {""};
	assert_true(voice_say(station->voice, at_ms, cue, text, &problem));
	assert_string_equal(problem.text, "");
}

/* What is in the file. The caller finishes it. */
static struct sound
listen_to(const char *path)
{
	SF_INFO info = {0};
	SNDFILE *file = sf_open(path, SFM_READ, &info);
	assert_non_null(file);
	assert_int_equal(info.samplerate, SOUND_RATE_HZ);
	struct sound sound = {calloc((size_t)info.frames + 1, sizeof(int16_t)), info.frames};
	assert_int_equal(sf_read_short(file, sound.samples, info.frames), info.frames);
	sf_close(file);
	return sound;
}

static struct sound
end_session(struct station *station, int64_t end_ms)
{
	struct problem problem = {""};
	assert_true(voice_close(station->voice, end_ms, &problem));
	station->voice = NULL;
	return listen_to(station->path);
}

/* Whether anything is heard in [from_ms, to_ms). */
static bool
heard(const struct sound *sound, int64_t from_ms, int64_t to_ms)
{
	assert_true(to_ms * 16 <= sound->count);
	struct sound part = {sound->samples + from_ms * 16, (to_ms - from_ms) * 16};
	return level_peak(&part) > 0;
}

static int64_t
length_ms(const struct sound *sound)
{
	return sound->count / 16;
}

static void
what_is_said_at_a_time_is_heard_at_that_time(void **state)
{
	struct station *station = *state;
	say(station, 500, "short", NULL);
	assert_int_equal(voice_done_ms(station->voice), 600);
	say(station, 2000, "long", NULL);
	assert_int_equal(voice_done_ms(station->voice), 3000);
	struct sound sound = end_session(station, 5000);
	assert_int_equal(length_ms(&sound), 5000);
	assert_false(heard(&sound, 0, 500));
	assert_true(heard(&sound, 500, 501));
	assert_true(heard(&sound, 599, 600));
	assert_false(heard(&sound, 600, 2000));
	assert_true(heard(&sound, 2000, 2001));
	assert_true(heard(&sound, 2999, 3000));
	assert_false(heard(&sound, 3000, 5000));
	const struct sound *cue = cues_find(station->cues, "short");
	assert_memory_equal(sound.samples + 500 * 16, cue->samples, 1600 * sizeof(int16_t));
	sound_finish(&sound);
}

static void
what_is_asked_for_too_soon_waits_its_turn(void **state)
{
	struct station *station = *state;
	say(station, 0, "long", NULL);
	say(station, 100, "short", NULL); /* 1060 to 1160 */
	say(station, 200, "short", NULL); /* 1220 to 1320 */
	assert_int_equal(voice_done_ms(station->voice), 1320);
	say(station, 1320, "short", NULL); /* has ended: at once */
	assert_int_equal(voice_done_ms(station->voice), 1420);
	struct sound sound = end_session(station, 0);
	assert_int_equal(length_ms(&sound), 1420);
	assert_false(heard(&sound, 1000, 1060));
	assert_true(heard(&sound, 1060, 1061));
	assert_false(heard(&sound, 1160, 1220));
	assert_true(heard(&sound, 1220, 1221));
	assert_true(heard(&sound, 1320, 1321));
	sound_finish(&sound);
}

static void
words_follow_their_cue(void **state)
{
	struct station *station = *state;
	struct sound words;
	assert_true(speech_render(station->speech, "chest twenty", &words, NULL));
	say(station, 1000, "short", "chest twenty");
	assert_int_equal(voice_done_ms(station->voice), (1130 * 16 + words.count + 15) / 16);
	struct sound sound = end_session(station, 0);
	assert_int_equal(sound.count, 1130 * 16 + words.count);
	assert_false(heard(&sound, 1100, 1130));
	assert_memory_equal(sound.samples + 1130 * 16, words.samples,
			    (size_t)words.count * sizeof(int16_t));
	sound_finish(&words);
	sound_finish(&sound);
}

static void
what_has_neither_cue_nor_words_takes_no_time(void **state)
{
	struct station *station = *state;
	say(station, 1000, NULL, NULL);
	say(station, 1000, NULL, "");
	say(station, 1000, "unknown", "...");
	assert_int_equal(voice_done_ms(station->voice), 0);
	say(station, 1000, "unknown", "ten"); /* no gap without a cue */
	struct sound sound = end_session(station, 0);
	assert_true(heard(&sound, 1000, 1100));
	sound_finish(&sound);
}

static void
a_hush_silences_by_a_fade_of_10_ms(void **state)
{
	struct station *station = *state;
	say(station, 0, "long", NULL);
	say(station, 0, "short", NULL);
	voice_hush(station->voice, 500);
	assert_int_equal(voice_done_ms(station->voice), 510);
	struct sound sound = end_session(station, 3000);
	assert_int_equal(length_ms(&sound), 3000);
	const struct sound *cue = cues_find(station->cues, "long");
	assert_memory_equal(sound.samples, cue->samples, 500 * 16 * sizeof(int16_t));
	for (int i = 0; i < 160; i++) /* linear: nothing is left at 510 ms */
		assert_int_equal(sound.samples[8000 + i], cue->samples[8000 + i] * (160 - i) / 160);
	assert_false(heard(&sound, 510, 3000));
	sound_finish(&sound);
}

static void
a_hush_forgets_what_was_not_yet_begun(void **state)
{
	struct station *station = *state;
	say(station, 0, "short", NULL);
	say(station, 0, "long", NULL); /* would be from 160 on */
	voice_hush(station->voice, 160);
	assert_int_equal(voice_done_ms(station->voice), 160);
	struct sound sound = end_session(station, 2000);
	assert_true(heard(&sound, 0, 100));
	assert_false(heard(&sound, 100, 2000));
	sound_finish(&sound);
}

static void
after_a_hush_the_answer_follows_the_fade(void **state)
{
	struct station *station = *state;
	say(station, 0, "long", NULL);
	voice_hush(station->voice, 500);
	voice_hush(station->voice, 505); /* pressed as well: no longer than it was */
	say(station, 505, "short", NULL);
	say(station, 505, "short", NULL);
	assert_int_equal(voice_done_ms(station->voice), 510 + 100 + 60 + 100);
	struct sound sound = end_session(station, 0);
	assert_true(heard(&sound, 510, 511));
	assert_false(heard(&sound, 610, 670));
	sound_finish(&sound);
}

static void
a_hush_when_nothing_is_said_changes_nothing(void **state)
{
	struct station *station = *state;
	voice_hush(station->voice, 0);
	say(station, 100, "short", NULL);
	voice_hush(station->voice, 5000);
	assert_int_equal(voice_done_ms(station->voice), 200);
	voice_hush(station->voice, 6000);
	struct sound sound = end_session(station, 7000);
	assert_true(heard(&sound, 199, 200));
	assert_int_equal(length_ms(&sound), 7000);
	sound_finish(&sound);
}

static void
a_hush_near_the_end_fades_what_is_left(void **state)
{
	struct station *station = *state;
	say(station, 0, "short", NULL);
	voice_hush(station->voice, 95);
	assert_int_equal(voice_done_ms(station->voice), 100);
	struct sound sound = end_session(station, 0);
	assert_int_equal(length_ms(&sound), 100);
	sound_finish(&sound);
}

static void
a_time_that_goes_down_is_the_time_before(void **state)
{
	struct station *station = *state;
	say(station, 1000, "short", NULL);
	voice_hush(station->voice, 1050);
	say(station, 0, "short", NULL);
	assert_int_equal(voice_done_ms(station->voice), 1160);
}

/* A whole day is written as it passes: what was said before is in the file, which is whole, while
 * the session goes on. */
static void
what_was_said_is_in_the_file_while_the_session_goes_on(void **state)
{
	struct station *station = *state;
	say(station, 0, "long", NULL);
	say(station, 60000, "long", NULL);
	struct sound sound = listen_to(station->path);
	assert_int_equal(length_ms(&sound), 1000);
	sound_finish(&sound);
	voice_hush(station->voice, 60500);
	sound = listen_to(station->path);
	assert_int_equal(length_ms(&sound), 60500);
	assert_true(heard(&sound, 60000, 60500));
	sound_finish(&sound);
}

static void
nothing_is_above_the_ceiling(void **state)
{
	struct station *station = *state;
	for (int i = 0; i < 20; i++) {
		say(station, i * 1000, i % 2 == 0 ? "long" : "short", "first, or second? trouble!");
		if (i % 3 == 0)
			voice_hush(station->voice, i * 1000 + 700);
	}
	struct sound sound = end_session(station, 0);
	assert_true(level_peak(&sound) <= level_sample(LEVEL_CEILING_DBFS));
	sound_finish(&sound);
}

/* A plain account of a session: all its samples in one array, and when each cue started. */
enum { SESSION_MS = 60000, ACCOUNT_MS = 2 * SESSION_MS, CUES_MAX = 1000 };

struct account {
	int16_t samples[ACCOUNT_MS * 16];
	int64_t start_ms[CUES_MAX], end_ms[CUES_MAX];
	int count; /* of those that were not dropped */
	bool hushed;
};

static int64_t
account_end_ms(const struct account *account)
{
	return account->count == 0 ? 0 : account->end_ms[account->count - 1];
}

static void
account_say(struct account *account, int64_t at_ms, const struct sound *cue)
{
	int64_t end_ms = account_end_ms(account);
	int64_t start_ms = at_ms >= end_ms ? at_ms : end_ms + (account->hushed ? 0 : 60);
	account->start_ms[account->count] = start_ms;
	account->end_ms[account->count++] = start_ms + cue->count / 16;
	account->hushed = false;
	memcpy(account->samples + start_ms * 16, cue->samples,
	       (size_t)cue->count * sizeof(int16_t));
}

static void
account_hush(struct account *account, int64_t at_ms)
{
	int64_t until = account_end_ms(account) * 16;
	account->hushed = true;
	for (; account->count > 0 && account->start_ms[account->count - 1] >= at_ms;
	     account->count--)
		for (int64_t i = account->start_ms[account->count - 1] * 16; i < until; i++)
			account->samples[i] = 0;
	until = account_end_ms(account) * 16;
	for (int64_t i = at_ms * 16; i < until; i++) {
		int64_t left = 160 - (i - at_ms * 16);
		account->samples[i] = (int16_t)(left > 0 ? account->samples[i] * left / 160 : 0);
	}
	if (account->count > 0 && account->end_ms[account->count - 1] > at_ms + 10)
		account->end_ms[account->count - 1] = at_ms + 10;
}

static void
any_session_is_heard_as_a_plain_account_of_it(void **state)
{
	struct station *station = *state;
	static struct account account;
	/* LAPEL_SEED repeats a session. */
	const char *asked = getenv("LAPEL_SEED");
	unsigned seed = asked != NULL ? (unsigned)strtoul(asked, NULL, 10) : (unsigned)getpid();
	print_message("seed %u\n", seed);
	for (int64_t at_ms = 0; at_ms < SESSION_MS;) {
		if (rand_r(&seed) % 5 > 1 && account_end_ms(&account) < at_ms + 5000) {
			const char *cue = rand_r(&seed) % 2 == 0 ? "short" : "long";
			account_say(&account, at_ms, cues_find(station->cues, cue));
			say(station, at_ms, cue, NULL);
			assert_int_equal(voice_done_ms(station->voice), account_end_ms(&account));
		} else {
			account_hush(&account, at_ms);
			voice_hush(station->voice, at_ms);
			/* When nothing sounds, any time that has passed will do. */
			if (account_end_ms(&account) > at_ms)
				assert_int_equal(voice_done_ms(station->voice),
						 account_end_ms(&account));
			else
				assert_true(voice_done_ms(station->voice) <= at_ms);
		}
		at_ms += rand_r(&seed) % 4 == 0 ? rand_r(&seed) % 3 : rand_r(&seed) % 1500;
	}
	struct sound sound = end_session(station, SESSION_MS);
	for (int64_t i = 0; i < sound.count; i++)
		if (sound.samples[i] != account.samples[i])
			fail_msg("sample %lld is %d, not %d", (long long)i, sound.samples[i],
				 account.samples[i]);
	sound_finish(&sound);
}

static void
without_a_file_time_passes_the_same(void **state)
{
	struct station *station = *state;
	struct voice *silent = voice_open_file(NULL, station->speech, station->cues, NULL);
	assert_non_null(silent);
	/* A day: sixty items of thirty calls, and more. */
	for (int64_t at_ms = 0; at_ms < INT64_C(86400000); at_ms += 30000) {
		assert_true(voice_say(silent, at_ms, "short", "chest twenty", NULL));
		assert_true(voice_say(silent, at_ms, "long", NULL, NULL));
		voice_hush(silent, at_ms + 300);
		assert_int_equal(voice_done_ms(silent), at_ms + 310);
	}
	assert_true(voice_close(silent, INT64_C(86400000), NULL));
}

static void
a_file_that_cannot_be_made_is_named(void **state)
{
	struct station *station = *state;
	struct problem problem = {""};
	assert_null(voice_open_file("/no such folder/spoken.wav", station->speech, station->cues,
				    &problem));
	assert_non_null(strstr(problem.text, "/no such folder/spoken.wav"));
}

/* A limit on the size of files stands for a full disk. */
static void
a_full_disk_is_told_once_while_speaking_and_at_the_end(void **state)
{
	struct station *station = *state;
	struct rlimit before;
	getrlimit(RLIMIT_FSIZE, &before);
	struct rlimit small = {.rlim_cur = 100000, .rlim_max = before.rlim_max};
	signal(SIGXFSZ, SIG_IGN);
	setrlimit(RLIMIT_FSIZE, &small);
	struct problem problem = {""};
	int told = 0;
	for (int i = 0; i < 10; i++)
		told += !voice_say(station->voice, i * 1000, "short", NULL, &problem);
	int64_t done_ms = voice_done_ms(station->voice);
	struct problem at_end = {""};
	bool closed = voice_close(station->voice, 20000, &at_end);
	station->voice = NULL;
	setrlimit(RLIMIT_FSIZE, &before);
	signal(SIGXFSZ, SIG_DFL);
	assert_int_equal(told, 1);
	assert_int_equal(done_ms, 9100);
	assert_false(closed);
	assert_non_null(strstr(problem.text, station->path));
	assert_string_equal(problem.text, at_end.text);
	/* What could be written is there and can be heard. */
	struct sound sound = listen_to(station->path);
	assert_true(heard(&sound, 2000, 2100));
	sound_finish(&sound);
}

static void
a_disk_that_fills_up_at_the_very_end_is_told(void **state)
{
	struct station *station = *state;
	struct rlimit before;
	getrlimit(RLIMIT_FSIZE, &before);
	struct rlimit small = {.rlim_cur = 100000, .rlim_max = before.rlim_max};
	signal(SIGXFSZ, SIG_IGN);
	say(station, 0, "short", NULL);
	setrlimit(RLIMIT_FSIZE, &small);
	struct problem problem = {""};
	bool closed = voice_close(station->voice, 20000, &problem);
	station->voice = NULL;
	setrlimit(RLIMIT_FSIZE, &before);
	signal(SIGXFSZ, SIG_DFL);
	assert_false(closed);
	assert_non_null(strstr(problem.text, station->path));
}

static void
closing_nothing_is_allowed(void **state)
{
	assert_true(voice_close(NULL, 1000, NULL));
}

#define SESSION(test) cmocka_unit_test_setup_teardown(test, open_station, close_station)

int
main(void)
{
	const struct CMUnitTest tests[] = {
		SESSION(what_is_said_at_a_time_is_heard_at_that_time),
		SESSION(what_is_asked_for_too_soon_waits_its_turn),
		SESSION(words_follow_their_cue),
		SESSION(what_has_neither_cue_nor_words_takes_no_time),
		SESSION(a_hush_silences_by_a_fade_of_10_ms),
		SESSION(a_hush_forgets_what_was_not_yet_begun),
		SESSION(after_a_hush_the_answer_follows_the_fade),
		SESSION(a_hush_when_nothing_is_said_changes_nothing),
		SESSION(a_hush_near_the_end_fades_what_is_left),
		SESSION(a_time_that_goes_down_is_the_time_before),
		SESSION(what_was_said_is_in_the_file_while_the_session_goes_on),
		SESSION(nothing_is_above_the_ceiling),
		SESSION(any_session_is_heard_as_a_plain_account_of_it),
		SESSION(without_a_file_time_passes_the_same),
		SESSION(a_file_that_cannot_be_made_is_named),
		SESSION(a_full_disk_is_told_once_while_speaking_and_at_the_end),
		SESSION(a_disk_that_fills_up_at_the_very_end_is_told),
		cmocka_unit_test(closing_nothing_is_allowed)};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
