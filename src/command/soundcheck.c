/* lapel soundcheck: whether what the microphone gives is fit to be understood, and what to change.
 */
#include "audio_device.h"
#include "bandwidth.h"
#include "ears.h"
#include "folders.h"
#include "furnish.h"
#include "levels.h"
#include "options.h"
#include "pulse_watch.h"
#include "settings.h"
#include "sound_source.h"
#include "station.h"
#include "wearer.h"

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char help[] =
	"lapel soundcheck: try the microphone, and say what to change\n\n"
	"Usage: lapel soundcheck [OPTION...]\n\n"
	"  --headset NAME     which one: its name or a piece of it, which is remembered; \"\" is "
	"the\n"
	"                     usual one\n"
	"  --list             list the headsets and other sound devices, and end\n"
	"  --who NAME         who reads: how you sound is kept for the sessions that follow\n"
	"  --sound FILE       a recording of the phrases in place of the microphone\n"
	"  --settings FILE    settings other than the user's\n"
	"  --help             this page\n\n"
	"Put the headset on, let the room be as it is when you work, and read the phrases aloud\n"
	"as they are shown. Ctrl-C ends the reading and shows what was found.\n";

struct options {
	const char *headset, *who, *sound, *settings;
	bool list;
};

static const char *const phrases[] = {
	"chest twenty one and a half",
	"length twenty eight",
	"sleeve thirteen",
	"sleeve thirty",
	"waist fifteen and three quarters",
	"hem fifty",
	"flaw small hole left cuff",
	"flaw none",
	"colour dark green",
	"what is missing",
	"repeat",
	"next",
};
enum { PHRASES = sizeof phrases / sizeof *phrases, PIECE = 160, PATIENCE_MS = 8000 };

static volatile sig_atomic_t signalled;

static void
on_signal(int number)
{
	signalled = number;
}

struct check {
	struct vocabulary *vocabulary;
	char headset[SETTING_TEXT_MAX], who[SETTING_TEXT_MAX]; /* "": the usual one, not told */
	struct ears *ears;
	struct sound_source *source;
	struct levels levels;
	struct bandwidth bandwidth;
	bool live, to_terminal;
	bool heard[PHRASES];
	int phrase;	  /* that is being read: live */
	int64_t at_ms;	  /* of the sound */
	int64_t shown_ms; /* when it was shown */
	int64_t lost;	  /* samples */
	bool gone;
};

/* ---------- what is heard ---------- */

static void
show_phrase(struct check *check)
{
	if (!check->live || check->phrase >= PHRASES)
		return;
	fprintf(stderr, "\r\033[K%2d of %d, please read: %s\n", check->phrase + 1, PHRASES,
		phrases[check->phrase]);
	check->shown_ms = check->at_ms;
}

/* From a file the phrases come in any order; live, it is the one shown that counts. */
static void
take_utterance(struct check *check, const struct ears_utterance *utterance)
{
	const char *text = utterance->reading_count > 0 ? utterance->readings[0].text : "";
	if (check->live) {
		if (check->phrase < PHRASES)
			check->heard[check->phrase] = check->heard[check->phrase] ||
						      strcmp(text, phrases[check->phrase]) == 0;
		check->phrase++;
		show_phrase(check);
		return;
	}
	for (int i = 0; i < PHRASES; i++)
		if (strcmp(text, phrases[i]) == 0)
			check->heard[i] = true;
}

static void
feed_ears(struct check *check, const int16_t *samples, int64_t count)
{
	struct ears_event event;
	for (int64_t at = 0; at < count;) {
		at += ears_feed(check->ears, samples + at, count - at, &event);
		if (event.decided)
			take_utterance(check, event.utterance);
	}
}

/* A picture of the level: room and speech on one line, overwritten. */
static void
show_level(const struct check *check)
{
	enum { WIDTH = 50, DBFS_LOWEST = -75 };
	if (!check->live || !check->to_terminal || check->levels.frames % 10 != 0)
		return;
	int length = (int)((check->levels.last_dbfs - DBFS_LOWEST) * WIDTH / -DBFS_LOWEST);
	fprintf(stderr, "\r\033[K%4d dB ", (int)check->levels.last_dbfs);
	for (int i = 0; i < length; i++)
		fputc(i > WIDTH * 70 / 75 ? '!' : '=', stderr);
}

static void
listen(struct check *check)
{
	int16_t samples[PIECE];
	struct sound_piece piece;
	struct ears_event event;
	show_phrase(check);
	while (signalled == 0 && (!check->live || check->phrase < PHRASES)) {
		enum sound_news news = sound_source_next(check->source, samples, PIECE, &piece);
		if (news == SOUND_NONE) {
			poll(NULL, 0, 10);
			continue;
		}
		check->gone = news == SOUND_GONE;
		if (news != SOUND_SOME)
			break;
		check->lost += piece.lost;
		check->at_ms += piece.count * 1000 / EARS_SAMPLE_RATE_HZ;
		levels_add(&check->levels, samples, piece.count);
		bandwidth_add(&check->bandwidth, samples, piece.count);
		feed_ears(check, samples, piece.count);
		show_level(check);
		if (check->live && check->at_ms - check->shown_ms > PATIENCE_MS) {
			check->phrase++;
			show_phrase(check);
		}
	}
	ears_end(check->ears, &event);
	if (event.decided)
		take_utterance(check, event.utterance);
	if (check->live && check->to_terminal)
		fputs("\r\033[K", stderr);
}

/* ---------- what was found ---------- */

/* What to change, each with the figure that calls for it. Common practice, no source: speech within
 * -35 to -12 dBFS, 20 dB over the room. */
static int
advise(const struct check *check, bool speech, double speech_dbfs, int heard)
{
	int said = 0;
	double over_room = speech_dbfs - levels_room_dbfs(&check->levels);
	const struct {
		bool applies;
		const char *advice;
	} advices[] = {
		{check->gone, "The microphone went away: see to its plug, or charge it."},
		{!speech, "No speech was heard: is this the right microphone (--list), and is it "
			  "not muted?"},
		{speech && speech_dbfs < -38,
		 "It is too soft: bring the microphone nearer to the corner of the mouth, or turn "
		 "its level up."},
		{check->levels.clipped > 0,
		 "It is too loud at times: turn the microphone's level down, or move it out of the "
		 "breath."},
		{speech && over_room < 20,
		 "The room is too loud beside the speech: turn the radio down, or bring the "
		 "microphone nearer."},
		{bandwidth_narrow(&check->bandwidth),
		 "The link carries nothing above 4 kHz, as a telephone: use the headset's cable or "
		 "its own dongle, or another Bluetooth profile."},
		{check->lost > 0, "Sound was lost on the way: this machine is too busy."},
		{speech && heard < PHRASES * 3 / 4,
		 "Few phrases were understood: read them as they stand, a little slower, with a "
		 "pause after each."},
	};
	for (size_t i = 0; i < sizeof advices / sizeof *advices; i++)
		if (advices[i].applies) {
			puts(advices[i].advice);
			said++;
		}
	return said;
}

static void
report(const struct check *check)
{
	double speech_dbfs = LEVELS_LOWEST;
	bool speech = levels_speech_dbfs(&check->levels, &speech_dbfs);
	int heard = 0, room = levels_room_dbfs(&check->levels);
	for (int i = 0; i < PHRASES; i++)
		heard += check->heard[i];
	printf("room       %d dBFS\n", room);
	if (speech)
		printf("speech     %.0f dBFS, %.0f dB over the room\n", speech_dbfs,
		       speech_dbfs - room);
	else
		puts("speech     none");
	printf("clipped    %lld samples\n", (long long)check->levels.clipped);
	if (bandwidth_known(&check->bandwidth))
		printf("bandwidth  %s (%.0f dB above 4 kHz)\n",
		       bandwidth_narrow(&check->bandwidth) ? "4 kHz" : "8 kHz",
		       bandwidth_above_4_khz_db(&check->bandwidth));
	else
		puts("bandwidth  not known: too little was said");
	printf("phrases    %d of %d understood\n", heard, PHRASES);
	for (int i = 0; i < PHRASES; i++)
		if (!check->heard[i])
			printf("           not \"%s\"\n", phrases[i]);
	if (advise(check, speech, speech_dbfs, heard) == 0)
		puts("Nothing needs to be changed.");
}

static int
list_devices(void)
{
	struct problem problem = {""};
	if (!audio_begin(&problem))
		return command_failed(&problem);
	for (int i = 0; i < audio_device_count(); i++) {
		struct audio_device device = audio_device_at(i);
		printf("%s: %s%s%s%s\n", device.name,
		       device.channels[AUDIO_MICROPHONE] > 0 ? "microphone " : "",
		       device.usual[AUDIO_MICROPHONE] ? "(usual) " : "",
		       device.channels[AUDIO_EAR_PIECE] > 0 ? "ear-piece " : "",
		       device.usual[AUDIO_EAR_PIECE] ? "(usual)" : "");
	}
	int count = audio_device_count();
	if (count == 0) /* it says what could be done */
		audio_device_find(NULL, AUDIO_MICROPHONE, &problem);
	audio_end();
	return count > 0 ? DONE : command_failed(&problem);
}

/* From a file it is the voice of a recording, which may be anybody's. */
static void
keep_wearer(const struct check *check)
{
	struct problem problem = {""};
	char usual[PULSE_NAME_MAX];
	pulse_usual_device(AUDIO_MICROPHONE, usual);
	if (check->live &&
	    !wearer_keep(check->ears, check->who,
			 check->headset[0] != '\0' ? check->headset : usual, &problem))
		fprintf(stderr, "lapel: how you sound is not remembered: %s\n", problem.text);
}

static bool
open_check(struct check *check, const struct options *options, struct problem *problem)
{
	struct settings settings;
	struct folders folders;
	if (!settings_read(&settings, options->settings, problem) ||
	    !folders_find(&folders, problem))
		return false;
	snprintf(check->headset, sizeof check->headset, "%s",
		 options->headset != NULL ? options->headset : settings.headset);
	snprintf(check->who, sizeof check->who, "%s",
		 options->who != NULL ? options->who : settings.person);
	check->vocabulary = station_vocabulary(folders.grammars, NULL, problem);
	if (check->vocabulary == NULL)
		return false;
	struct ears_setting setting = furnish_ears(&folders, &settings, check->vocabulary);
	check->ears = ears_open(&setting, problem);
	if (check->ears == NULL)
		return false;
	check->source = options->sound != NULL
				? sound_source_file_open(options->sound, problem)
				: sound_source_headset_open(check->headset, 0, problem);
	if (check->source == NULL)
		return false;
	if (options->sound == NULL && options->headset != NULL)
		settings_remember_headset(options->headset, NULL);
	return true;
}

static int
check_sound(const struct options *options)
{
	struct problem problem = {""};
	struct check *check = calloc(1, sizeof *check);
	bool done = check != NULL && open_check(check, options, &problem);
	if (done) {
		check->live = options->sound == NULL;
		check->to_terminal = isatty(STDERR_FILENO);
		levels_init(&check->levels);
		bandwidth_init(&check->bandwidth);
		listen(check);
		report(check);
		keep_wearer(check);
	}
	if (check != NULL) {
		sound_source_close(check->source);
		ears_close(check->ears);
		vocabulary_destroy(check->vocabulary);
	}
	free(check);
	return done ? DONE : command_failed(&problem);
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const struct option_row rows[] = {{"headset", &options.headset, NULL},
					  {"who", &options.who, NULL},
					  {"sound", &options.sound, NULL},
					  {"settings", &options.settings, NULL},
					  {"list", NULL, &options.list}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count)
		return command_wrong_use(command, "\"%s\" is one word too many", argument[rest]);
	if (options.list)
		return list_devices();
	struct sigaction action = {.sa_handler = on_signal};
	sigaction(SIGTERM, &action, NULL);
	sigaction(SIGINT, &action, NULL);
	return check_sound(&options);
}

const struct command command_soundcheck = {"soundcheck", "try the microphone, say what to change",
					   help, run};
