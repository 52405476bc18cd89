/* Recordings of people, through the ears as `lapel hear` uses them. The sound is that of Debian's
 * package pocketsphinx-testdata (from CMU Sphinx: github.com/cmusphinx/pocketsphinx, test/data);
 * the words of the cards are those of its cards/cards.transcription, of the prose its
 * librivox/transcription, of the order its test/regression, of the digits their file's name. For
 * numbers.raw it publishes no words: these are from listening. */
#include "ears.h"
#include "sound_file.h"
#include "station.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

static const char folder[] = "/usr/share/pocketsphinx/test/data";

struct recording {
	const char *file, *grammar, *words;
};

static const struct recording recordings[] = {
	{"cards/001.wav", "cards.gram", "ten of clubs"},
	{"cards/002.wav", "cards.gram", "four queen of clubs"},
	{"cards/003.wav", "cards.gram", "seven of clubs"},
	{"cards/004.wav", "cards.gram", "five five"},
	{"cards/005.wav", "cards.gram", "eight of spades four of clubs seven of hearts"},
	{"tidigits/dhd.2934z.raw", "digits.gram", "two nine three four zero"},
	{"goforward.raw", "moves.gram", "go forward ten meters"},
	{"something.raw", "moves.gram", "go somewhere and do something"},
	{"numbers.raw", "numbers.gram", "thirty three four oh six ninety two"},
};

static const char *const prose[] = {
	"librivox/sense_and_sensibility_01_austen_64kb-0870.wav",
	"librivox/sense_and_sensibility_01_austen_64kb-0880.wav",
	"librivox/sense_and_sensibility_01_austen_64kb-0890.wav",
	"librivox/sense_and_sensibility_01_austen_64kb-0920.wav",
	"librivox/sense_and_sensibility_01_austen_64kb-0930.wav",
};

static struct vocabulary *vocabulary;

static int
read_vocabulary(void **state)
{
	struct problem problem;
	vocabulary = station_vocabulary(getenv("LAPEL_GRAMMARS"), NULL, &problem);
	return vocabulary == NULL;
}

static int
forget_vocabulary(void **state)
{
	vocabulary_destroy(vocabulary);
	return 0;
}

static void
need_recordings(void)
{
	if (access(folder, R_OK) != 0) {
		print_message("skipped: the package pocketsphinx-testdata is not installed\n");
		skip();
	}
}

static struct ears *
open_ears(const char *grammar, bool whole)
{
	static const char english[] = "/usr/share/pocketsphinx/model/en-us";
	static char dictionary[256], model[256];
	struct problem problem = {""};
	snprintf(dictionary, sizeof dictionary, "%s/cmudict-en-us.dict", english);
	snprintf(model, sizeof model, "%s/en-us", english);
	struct ears_setting setting = {.grammars = getenv("LAPEL_GRAMMARS"),
				       .model = model,
				       .own_model = getenv("LAPEL_MODEL"),
				       .dictionary = dictionary,
				       .grammar = grammar,
				       .vocabulary = vocabulary,
				       .meaning = {LENGTH_INCH, "USD"},
				       .whole = whole};
	struct ears *ears = ears_open(&setting, &problem);
	if (ears == NULL)
		fail_msg("%s", problem.text);
	return ears;
}

static void
read_sound(const char *file, int16_t **samples, int64_t *count)
{
	char path[512];
	struct problem problem = {""};
	snprintf(path, sizeof path, "%s/%s", folder, file);
	const char *ending = strrchr(path, '.');
	if (strcmp(ending, ".raw") != 0) {
		if (!sound_file_read(path, samples, count, &problem))
			fail_msg("%s", problem.text);
		return;
	}
	enum { MOST = 160000 };
	FILE *raw = fopen(path, "rb");
	assert_non_null(raw);
	*samples = malloc(sizeof **samples * MOST);
	assert_non_null(*samples);
	*count = (int64_t)fread(*samples, sizeof **samples, MOST, raw);
	fclose(raw);
}

/* Hears a file from its beginning; the texts that were heard are joined, and the worst verdict that
 * let something through is told. */
static void
hear(struct ears *ears, const char *file, char *text, size_t size, bool *taken)
{
	int16_t *samples = NULL;
	int64_t count = 0;
	struct ears_event event;
	read_sound(file, &samples, &count);
	text[0] = '\0';
	*taken = false;
	ears_restart(ears);
	for (int64_t at = 0; at <= count;) {
		if (at < count)
			at += ears_feed(ears, samples + at, count - at, &event);
		else {
			ears_end(ears, &event);
			at++;
		}
		if (!event.decided || event.utterance->reading_count == 0)
			continue;
		size_t used = strlen(text);
		snprintf(text + used, size - used, "%s%s", used > 0 ? " " : "",
			 event.utterance->readings[0].text);
		*taken = *taken || event.utterance->verdict == VERDICT_TAKEN;
	}
	free(samples);
}

static void
people_say_cards_digits_numbers_and_moves(void **state)
{
	need_recordings();
	for (size_t i = 0; i < sizeof recordings / sizeof *recordings; i++) {
		char grammar[512], text[1024];
		bool taken;
		snprintf(grammar, sizeof grammar, "%s/%s", getenv("LAPEL_TESTS"),
			 recordings[i].grammar);
		struct ears *ears = open_ears(grammar, true);
		hear(ears, recordings[i].file, text, sizeof text, &taken);
		print_message("%s: %s\n", recordings[i].file, text);
		assert_string_equal(text, recordings[i].words);
		ears_close(ears);
	}
}

static void
nothing_read_aloud_is_taken(void **state)
{
	need_recordings();
	for (int whole = 0; whole < 2; whole++) {
		struct ears *ears = open_ears(NULL, whole);
		for (size_t i = 0; i < sizeof prose / sizeof *prose; i++) {
			char text[1024];
			bool taken;
			hear(ears, prose[i], text, sizeof text, &taken);
			assert_false(taken);
		}
		ears_close(ears);
	}
}

static void
the_same_sound_is_heard_the_same_however_it_is_fed(void **state)
{
	need_recordings();
	int16_t *samples = NULL;
	int64_t count = 0, decided[2] = {0};
	struct ears *ears = open_ears(NULL, false);
	read_sound("goforward.raw", &samples, &count);
	for (int run = 0; run < 2; run++) {
		struct ears_event event;
		int64_t step = run == 0 ? count : 37;
		ears_restart(ears);
		for (int64_t at = 0; at < count;) {
			int64_t some = count - at < step ? count - at : step;
			at += ears_feed(ears, samples + at, some, &event);
			if (event.decided)
				decided[run] = event.utterance->decided_ms;
		}
		ears_end(ears, &event);
		if (event.decided)
			decided[run] = event.utterance->decided_ms;
	}
	assert_true(decided[0] > 0);
	assert_int_equal(decided[0], decided[1]);
	free(samples);
	ears_close(ears);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(people_say_cards_digits_numbers_and_moves),
		cmocka_unit_test(nothing_read_aloud_is_taken),
		cmocka_unit_test(the_same_sound_is_heard_the_same_however_it_is_fed),
	};
	return cmocka_run_group_tests(tests, read_vocabulary, forget_vocabulary);
}
