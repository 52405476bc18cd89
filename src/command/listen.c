/* lapel listen: a session, from files on their own time line. */
#include "file_text.h"
#include "folders.h"
#include "furnish.h"
#include "live.h"
#include "mapping.h"
#include "options.h"
#include "presses.h"
#include "settings.h"
#include "sound_file.h"
#include "working_session.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static const char help[] =
	"lapel listen: a session: what is dictated is written down and said back\n\n"
	"Usage: lapel listen --db FILE [OPTION...]                 on the headset and the pedal\n"
	"       lapel listen --db FILE --sound FILE [OPTION...]    from files\n\n"
	"  --db FILE          the records: an SQLite database, made if it is not there, and gone\n"
	"                     on with if it is\n"
	"  --who NAME         who dictates\n"
	"  --json             JSON Lines in place of the transcript\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"On the devices, until SIGTERM or SIGINT:\n"
	"  --headset NAME     a piece of the headset's name, which is remembered; \"\" is the "
	"usual one\n"
	"  --pedal NAME       a piece of the pedal's name, or its file; any pedal otherwise\n"
	"  --switches TEXT    what its switches do, as lapel pedal --learn prints it\n"
	"A bar-code reader that types is listened to as well: a scan opens the item of that "
	"label.\n"
	"\n"
	"From files, on the sound's own time line:\n"
	"  --sound FILE       the dictation (WAV, FLAC; 16 kHz mono, others are converted)\n"
	"  --presses FILE     the pedal's presses: lines SECONDS KEYNAME 0|1 (KEY_B; 1 down, 0 "
	"up;\n"
	"                     # starts a comment)\n"
	"  --spoken FILE.wav  what lapel would have said, at the moments it would have said it\n\n"
	"The time line of files does not wait and computing counts as no time: two runs give the\n"
	"same records and the same spoken file. A recording is dated by its file. At its end the\n"
	"session ends cleanly.\n";

struct options {
	const char *sound, *presses, *db, *spoken, *settings, *who;
	const char *headset, *pedal, *switches;
	bool json;
};

static volatile sig_atomic_t signalled;

static void
on_signal(int number)
{
	signalled = number;
}

/* Everything that a session stands on; made in this order, unmade in the reverse. */
struct station {
	struct folders folders;
	struct settings settings;
	struct vocabulary *vocabulary;
	struct presses *presses;
	struct store *store;
	struct ears *ears;
	struct speech *speech;
	struct cues *cues;
	struct voice *voice;
	struct transcript *transcript;
	struct ranges ranges;
	struct working_session work;
	struct switches switches;
	int next_press;
};

static double
now_s(void)
{
	struct timespec now;
	clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* A recording is dated by its file, so that two runs give the same records. */
static int64_t
began_at_ms(const char *path, int64_t length_ms)
{
	struct stat status;
	if (stat(path, &status) != 0)
		return (int64_t)time(NULL) * 1000;
	return (int64_t)status.st_mtim.tv_sec * 1000 + status.st_mtim.tv_nsec / 1000000 - length_ms;
}

static bool
open_ears(struct station *station, struct problem *problem)
{
	struct ears_setting setting =
		furnish_ears(&station->folders, &station->settings, station->vocabulary);
	station->ears = ears_open(&setting, problem);
	return station->ears != NULL;
}

static bool
open_voice(struct station *station, const char *spoken, struct problem *problem)
{
	station->cues = furnish_cues(&station->folders, problem);
	if (station->cues == NULL)
		return false;
	station->speech = speech_open(station->settings.voice, station->settings.speed, problem);
	if (station->speech == NULL)
		return false;
	station->voice = voice_open_file(spoken, station->speech, station->cues, problem);
	return station->voice != NULL;
}

static bool
read_presses(struct station *station, const char *file, struct problem *problem)
{
	struct mapping mapping;
	if (!mapping_parse(station->settings.pedal_key, &mapping, problem))
		return false;
	switches_init(&station->switches, &mapping, &gesture_usual);
	if (file == NULL)
		return true;
	char *text = file_text(file, problem);
	if (text == NULL)
		return false;
	station->presses = presses_parse(file, text, problem);
	free(text);
	return station->presses != NULL;
}

static enum read_back
read_back_named(const char *name)
{
	return strcmp(name, "terse") == 0  ? READ_BACK_TERSE
	       : strcmp(name, "full") == 0 ? READ_BACK_FULL
					   : READ_BACK_NORMAL;
}

static bool
open_conversation(struct station *station, const struct options *options, struct problem *problem)
{
	struct session_setting setting = session_usual;
	setting.unit = station->settings.unit;
	setting.repeats = station->settings.repeats;
	setting.mending_hour_minor = station->settings.mending_hour_minor;
	setting.read_back = read_back_named(station->settings.read_back);
	setting.ranges = &station->ranges;
	if (!working_session_ranges(&station->ranges, station->folders.grammars, problem))
		return false;
	station->transcript = transcript_open(options->json, options->sound);
	struct session *session = session_create(station->vocabulary, &setting);
	if (station->transcript == NULL || session == NULL)
		return problem_say(problem, "there is not enough memory for a session");
	station->work = (struct working_session){.session = session,
						 .store = station->store,
						 .ears = station->ears,
						 .voice = station->voice,
						 .transcript = station->transcript,
						 .keep_sound = station->settings.keep_days > 0};
	return true;
}

static bool
station_open(struct station *station, const struct options *options, struct problem *problem)
{
	if (!settings_read(&station->settings, options->settings, problem) ||
	    !folders_find(&station->folders, problem) ||
	    !read_presses(station, options->presses, problem))
		return false;
	station->vocabulary = furnish_vocabulary(&station->folders, &station->settings, problem);
	if (station->vocabulary == NULL || !open_ears(station, problem))
		return false;
	station->store = store_open(options->db, problem);
	return station->store != NULL && open_voice(station, options->spoken, problem) &&
	       open_conversation(station, options, problem);
}

static bool
station_close(struct station *station, int64_t end_ms, struct problem *problem)
{
	session_destroy(station->work.session);
	transcript_close(station->transcript);
	bool closed = voice_close(station->voice, end_ms, problem);
	speech_close(station->speech);
	cues_destroy(station->cues);
	ears_close(station->ears);
	store_close(station->store);
	presses_destroy(station->presses);
	vocabulary_destroy(station->vocabulary);
	return closed;
}

static int64_t
next_press_ms(const struct station *station)
{
	if (station->presses == NULL || station->next_press == presses_count(station->presses))
		return INT64_MAX;
	return presses_at(station->presses, station->next_press)->at_ms;
}

static int64_t
least(int64_t a, int64_t b)
{
	return a < b ? a : b;
}

static void
tell_steps(struct station *station, int count, const enum gesture_step *steps,
	   const int64_t *step_ms)
{
	for (int i = 0; i < count; i++)
		working_session_gesture(&station->work, steps[i], step_ms[i]);
}

static void
take_press(struct station *station)
{
	enum gesture_step steps[4];
	int64_t step_ms[4];
	const struct press *press = presses_at(station->presses, station->next_press++);
	int count = switches_change(&station->switches, press->key, press->down, press->at_ms,
				    steps, step_ms);
	tell_steps(station, count, steps, step_ms);
}

/* All that falls due up to `until_ms`, each at its own time. */
static void
let_time_pass(struct station *station, int64_t until_ms)
{
	enum gesture_step steps[4];
	int64_t step_ms[4];
	for (;;) {
		int64_t press_ms = next_press_ms(station);
		int64_t gesture_ms = switches_deadline_ms(&station->switches);
		int64_t work_ms = working_session_deadline_ms(&station->work);
		int64_t at_ms = least(press_ms, least(gesture_ms, work_ms));
		if (at_ms > until_ms)
			return;
		if (at_ms == gesture_ms)
			tell_steps(station,
				   switches_time(&station->switches, at_ms, steps, step_ms), steps,
				   step_ms);
		else if (at_ms == press_ms)
			take_press(station);
		else
			working_session_time(&station->work, at_ms);
	}
}

/* The cursor goes back to the start of the line, so that the transcript's next line covers it. */
static void
show_progress(int64_t at, int64_t count)
{
	static bool to_terminal, asked;
	if (!asked) {
		to_terminal = isatty(STDERR_FILENO);
		asked = true;
	}
	if (to_terminal && at % (10 * EARS_SAMPLE_RATE_HZ) < 160)
		fprintf(stderr, "%3d %%\r", (int)(at * 100 / (count > 0 ? count : 1)));
}

/* The session along the sound, in *end_ms to where. False when the sound could not be read to its
 * end: the session has ended there. */
static bool
run_session(struct station *station, struct sound_file *sound, int64_t *end_ms,
	    struct problem *problem)
{
	int16_t block[EARS_SAMPLE_RATE_HZ / 100];
	struct ears_event event;
	int64_t at = 0, read = 0, fed = 0;
	working_session_start(&station->work, 0);
	while (signalled == 0) {
		if (fed == read) {
			fed = 0;
			read = sound_file_next(sound, block, sizeof block / sizeof *block, problem);
		}
		if (read <= 0)
			break;
		let_time_pass(station, at * 1000 / EARS_SAMPLE_RATE_HZ);
		int64_t some = ears_feed(station->ears, block + fed, read - fed, &event);
		at += some;
		fed += some;
		working_session_ears(&station->work, &event);
		show_progress(at, sound_file_length(sound));
	}
	*end_ms = at * 1000 / EARS_SAMPLE_RATE_HZ;
	ears_end(station->ears, &event);
	working_session_ears(&station->work, &event);
	/* A tap just before the end is still waiting for its window. */
	let_time_pass(station, *end_ms);
	station->next_press = station->presses != NULL ? presses_count(station->presses) : 0;
	int64_t waited_ms = *end_ms + gesture_usual.window_ms;
	let_time_pass(station, waited_ms);
	working_session_stop(&station->work, waited_ms);
	return read >= 0;
}

static bool
begin_session(struct station *station, const struct options *options,
	      const struct sound_file *sound, struct problem *problem)
{
	const char *who = options->who != NULL ? options->who : station->settings.person;
	int64_t length_ms = sound_file_length(sound) * 1000 / EARS_SAMPLE_RATE_HZ;
	return store_forget_sound(station->store, station->settings.keep_days,
				  (int64_t)time(NULL) * 1000, problem) &&
	       store_begin_session(station->store, began_at_ms(options->sound, length_ms),
				   who[0] != '\0' ? who : NULL, problem);
}

static int
listen_to(const struct options *options)
{
	struct problem problem = {""};
	struct station *station = calloc(1, sizeof *station);
	struct store_tally tally = {0};
	int64_t end_ms = 0;
	double began = now_s();
	struct sound_file *sound =
		station == NULL ? NULL : sound_file_open(options->sound, &problem);
	bool done = sound != NULL && station_open(station, options, &problem) &&
		    begin_session(station, options, sound, &problem);
	if (done) {
		done = run_session(station, sound, &end_ms, &problem);
		store_tally(station->store, &tally);
		transcript_summary(station->transcript, &tally, end_ms, now_s() - began);
		if (done && station->work.trouble.text[0] != '\0') {
			problem = station->work.trouble;
			done = false;
		}
	}
	if (station != NULL && !station_close(station, end_ms, done ? &problem : NULL))
		done = false;
	free(station);
	sound_file_close(sound);
	return done ? DONE : command_failed(&problem);
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const struct option_row rows[] = {{"sound", &options.sound, NULL},
					  {"presses", &options.presses, NULL},
					  {"db", &options.db, NULL},
					  {"spoken", &options.spoken, NULL},
					  {"settings", &options.settings, NULL},
					  {"who", &options.who, NULL},
					  {"headset", &options.headset, NULL},
					  {"pedal", &options.pedal, NULL},
					  {"switches", &options.switches, NULL},
					  {"json", NULL, &options.json}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.db == NULL)
		return command_wrong_use(command, "--db FILE is missing");
	if (options.sound == NULL) {
		if (options.presses != NULL || options.spoken != NULL)
			return command_wrong_use(command, "--presses and --spoken go with --sound");
		struct live_options live = {.db = options.db,
					    .settings = options.settings,
					    .who = options.who,
					    .headset = options.headset,
					    .pedal = options.pedal,
					    .switches = options.switches,
					    .json = options.json};
		return live_listen(&live);
	}
	struct sigaction action = {.sa_handler = on_signal};
	sigaction(SIGTERM, &action, NULL);
	sigaction(SIGINT, &action, NULL);
	return listen_to(&options);
}

const struct command command_listen = {"listen", "a session: dictation to records", help, run};
