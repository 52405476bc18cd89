/* lapel practise: the first ten minutes, with a garment that is made up. */
#include "coach.h"
#include "folders.h"
#include "furnish.h"
#include "listening.h"
#include "options.h"
#include "settings.h"
#include "sound_file.h"
#include "voice.h"

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const char help[] =
	"lapel practise: try it: a garment that is made up, coached aloud; nothing is written\n\n"
	"Usage: lapel practise [OPTION...]\n\n"
	"  --sound FILE       what is said (WAV, FLAC), in place of the headset\n"
	"  --spoken FILE.wav  with --sound: what lapel would have said\n"
	"  --headset NAME     a piece of the headset's name; without it the usual one\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"It ends when all calls were practised, with the end of the sound, or on SIGINT, by "
	"telling\n"
	"what was hard.\n";

/* So long nothing was said or heard: the prompt is said again. */
enum { PATIENCE_MS = 15000, LOOK_MS = 20 };

struct options {
	const char *sound, *spoken, *headset, *settings;
};

struct practice {
	struct folders folders;
	struct settings settings;
	struct vocabulary *vocabulary;
	struct ears *ears;
	struct speech *speech;
	struct cues *cues;
	struct played *played; /* NULL when all comes from a file */
	struct voice *voice;
	struct coach *coach;
	int64_t last_ms; /* when something was last said or heard */
	bool over;
};

static volatile sig_atomic_t signalled;

static void
on_signal(int number)
{
	signalled = number;
}

static const char *
headset_of(const struct practice *practice, const struct options *options)
{
	return options->headset != NULL ? options->headset : practice->settings.headset;
}

static bool
open_voice(struct practice *practice, const struct options *options, struct problem *problem)
{
	practice->cues = furnish_cues(&practice->folders, problem);
	if (practice->cues == NULL)
		return false;
	practice->speech = speech_open(practice->settings.voice, practice->settings.speed, problem);
	if (practice->speech == NULL)
		return false;
	practice->played = options->sound == NULL ? played_create() : NULL;
	practice->voice =
		options->sound != NULL
			? voice_open_file(options->spoken, practice->speech, practice->cues,
					  problem)
			: voice_open_headset(headset_of(practice, options),
					     practice->settings.loudness_db, practice->speech,
					     practice->cues, practice->played, problem);
	return practice->voice != NULL;
}

static bool
practice_open(struct practice *practice, const struct options *options, struct problem *problem)
{
	if (!settings_read(&practice->settings, options->settings, problem) ||
	    !folders_find(&practice->folders, problem))
		return false;
	practice->vocabulary = furnish_vocabulary(&practice->folders, &practice->settings, problem);
	if (practice->vocabulary == NULL)
		return false;
	struct ears_setting setting =
		furnish_ears(&practice->folders, &practice->settings, practice->vocabulary);
	practice->coach = coach_create(practice->vocabulary, &setting.meaning);
	practice->ears = ears_open(&setting, problem);
	return practice->ears != NULL && practice->coach != NULL &&
	       open_voice(practice, options, problem);
}

static bool
practice_close(struct practice *practice, int64_t end_ms, struct problem *problem)
{
	bool closed = voice_close(practice->voice, end_ms, problem);
	played_destroy(practice->played);
	speech_close(practice->speech);
	cues_destroy(practice->cues);
	ears_close(practice->ears);
	coach_destroy(practice->coach);
	vocabulary_destroy(practice->vocabulary);
	return closed;
}

static void
tell(struct practice *practice, const struct coach_answer *answer, int64_t at_ms)
{
	const char *text = answer->text[0] != '\0' ? answer->text : NULL;
	if (text != NULL)
		printf("lapel: %s\n", text);
	fflush(stdout);
	voice_say(practice->voice, at_ms, answer->cue, text, NULL);
	practice->last_ms = voice_done_ms(practice->voice);
	practice->over = answer->over;
}

static void
prompt(struct practice *practice, bool welcome, int64_t at_ms)
{
	struct coach_answer answer;
	coach_prompt(practice->coach, welcome, &answer);
	tell(practice, &answer, at_ms);
}

static void
hear(struct practice *practice, const struct ears_event *event, int64_t at_ms)
{
	struct coach_answer answer;
	if (event->speech_began) {
		voice_hush(practice->voice, at_ms);
		practice->last_ms = at_ms;
	}
	if (!event->decided || practice->over ||
	    !coach_heard(practice->coach, event->utterance, &answer))
		return;
	printf("you:   %s\n", event->utterance->reading_count > 0
				      ? event->utterance->readings[0].text
				      : "(not understood)");
	tell(practice, &answer, at_ms);
}

/* What was hard, on paper and aloud. */
static void
sum_up(struct practice *practice, int64_t at_ms)
{
	struct coach_answer hard = {.over = true};
	coach_tell_hard(practice->coach, hard.text, sizeof hard.text);
	tell(practice, &hard, at_ms);
}

static bool
practise_from_file(struct practice *practice, const struct options *options,
		   struct problem *problem, int64_t *end_ms)
{
	enum { BLOCK = EARS_SAMPLE_RATE_HZ / 100 };
	int16_t *samples = NULL;
	int64_t count = 0, at = 0, at_ms = 0;
	struct ears_event event;
	if (!sound_file_read(options->sound, &samples, &count, problem))
		return false;
	prompt(practice, true, 0);
	while (at < count && !practice->over && signalled == 0) {
		int64_t some = count - at < BLOCK ? count - at : BLOCK;
		at += ears_feed(practice->ears, samples + at, some, &event);
		at_ms = at * 1000 / EARS_SAMPLE_RATE_HZ;
		hear(practice, &event, at_ms);
		if (!practice->over && at_ms - practice->last_ms > PATIENCE_MS)
			prompt(practice, false, at_ms);
	}
	ears_end(practice->ears, &event);
	hear(practice, &event, at_ms);
	sum_up(practice, at_ms);
	*end_ms = voice_done_ms(practice->voice);
	free(samples);
	return true;
}

static int64_t
clock_ms(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

/* One turn of the loop; false when the headset is gone. */
static bool
take_turn(struct practice *practice, struct listening *listening, int64_t start_ms)
{
	struct pollfd news_there = {.fd = listening_fd(listening), .events = POLLIN};
	struct listening_news news;
	bool gone = false;
	poll(&news_there, 1,
	     voice_work(practice->voice, clock_ms() - start_ms, NULL) ? 0 : LOOK_MS);
	int64_t at_ms = clock_ms() - start_ms;
	listening_hold(listening);
	if (listening_next(listening, &news)) {
		gone = news.gone;
		if (news.heard)
			hear(practice, &news.event, at_ms);
	}
	listening_release(listening);
	if (!practice->over && at_ms - practice->last_ms > PATIENCE_MS)
		prompt(practice, false, at_ms);
	return !gone && !voice_gone(practice->voice);
}

/* What is being said is said to its end. */
static void
say_to_the_end(struct practice *practice, int64_t start_ms)
{
	while (voice_work(practice->voice, clock_ms() - start_ms, NULL) ||
	       voice_done_ms(practice->voice) > clock_ms() - start_ms)
		poll(NULL, 0, LOOK_MS);
}

static bool
practise_on_headset(struct practice *practice, const struct options *options,
		    struct problem *problem)
{
	struct listening *listening = listening_start(practice->ears, practice->played, problem);
	struct sound_source *source =
		listening != NULL
			? sound_source_headset_open(headset_of(practice, options), 0, problem)
			: NULL;
	bool there = source != NULL;
	if (there) {
		int64_t start_ms = clock_ms();
		listening_give(listening, source);
		prompt(practice, true, 0);
		while (there && !practice->over && signalled == 0)
			there = take_turn(practice, listening, start_ms);
		if (!there)
			problem_say(problem, "the headset is gone: plug it in and start again");
		sum_up(practice, clock_ms() - start_ms);
		if (there)
			say_to_the_end(practice, start_ms);
		sound_source_close(listening_take_back(listening));
	}
	listening_stop(listening);
	return there;
}

static int
practise(const struct options *options)
{
	struct problem problem = {""};
	struct practice *practice = calloc(1, sizeof *practice);
	int64_t end_ms = 0;
	bool done = practice != NULL && practice_open(practice, options, &problem);
	if (done)
		done = options->sound != NULL
			       ? practise_from_file(practice, options, &problem, &end_ms)
			       : practise_on_headset(practice, options, &problem);
	if (practice != NULL && !practice_close(practice, end_ms, done ? &problem : NULL))
		done = false;
	free(practice);
	return done ? DONE : command_failed(&problem);
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const struct option_row rows[] = {{"sound", &options.sound, NULL},
					  {"spoken", &options.spoken, NULL},
					  {"headset", &options.headset, NULL},
					  {"settings", &options.settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.spoken != NULL && options.sound == NULL)
		return command_wrong_use(command, "--spoken goes with --sound");
	struct sigaction action = {.sa_handler = on_signal};
	sigaction(SIGTERM, &action, NULL);
	sigaction(SIGINT, &action, NULL);
	return practise(&options);
}

const struct command command_practise = {
	"practise", "try it: a garment that is made up, coached aloud", help, run};
