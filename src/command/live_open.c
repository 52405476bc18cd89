#include "live_part.h"

#include "furnish.h"
#include "wearer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

bool
live_take_headset(struct live *live, struct problem *problem)
{
	if (!voice_take_up(live->voice, problem))
		return false;
	struct sound_source *source = sound_source_headset_open(live->headset, 0, problem);
	if (source == NULL) {
		voice_let_go(live->voice);
		return false;
	}
	listening_give(live->listening, source);
	live->headset_there = true;
	return true;
}

static bool
open_feet(struct live *live, struct problem *problem)
{
	struct mapping mapping;
	struct pedal_choice choice = {PEDAL_SORT_SWITCH,
				      live->options->pedal != NULL ? live->options->pedal
								   : live->settings.pedal_device,
				      true};
	const char *switches = live->options->switches != NULL ? live->options->switches
							       : live->settings.pedal_key;
	if (!mapping_parse(switches, &mapping, problem))
		return false;
	struct foot *foot = &live->feet[0];
	switches_init(&foot->switches, &mapping, &gesture_usual);
	foot->pedal = pedal_evdev_open(&choice, problem);
	bool keys = isatty(STDIN_FILENO);
	if (foot->pedal == NULL)
		fprintf(stderr, "lapel: %s\n", problem->text);
	else if (pedal_evdev_trouble(foot->pedal)[0] != '\0')
		live_tell_trouble(foot);
	else if (pedal_evdev_device(foot->pedal)[0] == '\0')
		fprintf(stderr, "lapel: no pedal is there yet; %s\n",
			keys ? "until then this terminal's keys do the same: space next, r repeat, "
			       "s strike that, p pause"
			     : "all that it does can be said, too");
	if (!keys)
		return true;
	mapping_parse(pedal_keyboard_mapping, &mapping, NULL);
	switches_init(&live->feet[1].switches, &mapping, &gesture_usual);
	live->feet[1].pedal = pedal_keyboard_open(STDIN_FILENO, NULL);
	return true;
}

/* A reader that is not there, or that cannot be opened, is no reason not to work: its labels can be
 * said. */
static void
open_reader(struct live *live)
{
	struct problem problem = {""};
	struct pedal_choice choice = {PEDAL_SORT_READER, live->settings.reader, true};
	live->reader.device = pedal_evdev_open(&choice, &problem);
	const char *trouble = live->reader.device == NULL
				      ? problem.text
				      : pedal_evdev_trouble(live->reader.device);
	if (trouble[0] != '\0')
		fprintf(stderr, "lapel: bar-code reader: %s\n", trouble);
}

static bool
open_ears(struct live *live, struct problem *problem)
{
	struct ears_setting setting =
		furnish_ears(&live->folders, &live->settings, live->vocabulary);
	live->ears = ears_open(&setting, problem);
	return live->ears != NULL;
}

static bool
open_voice(struct live *live, struct problem *problem)
{
	live->cues = furnish_cues(&live->folders, problem);
	if (live->cues == NULL)
		return false;
	live->speech = speech_open(live->settings.voice, live->settings.speed, problem);
	if (live->speech == NULL)
		return false;
	live->played = played_create();
	if (live->played == NULL)
		return problem_say(problem, "there is not enough memory for a session");
	live->voice = voice_open_headset(live->headset, live->settings.loudness_db, live->speech,
					 live->cues, live->played, problem);
	return live->voice != NULL;
}

static bool
open_conversation(struct live *live, struct problem *problem)
{
	struct session_setting setting = session_usual;
	setting.unit = live->settings.unit;
	setting.repeats = live->settings.repeats;
	setting.mending_hour_minor = live->settings.mending_hour_minor;
	setting.read_back = strcmp(live->settings.read_back, "terse") == 0  ? READ_BACK_TERSE
			    : strcmp(live->settings.read_back, "full") == 0 ? READ_BACK_FULL
									    : READ_BACK_NORMAL;
	setting.ranges = &live->ranges;
	if (!working_session_ranges(&live->ranges, live->folders.grammars, problem))
		return false;
	live->transcript = transcript_open(live->options->json, "headset");
	struct session *session = session_create(live->vocabulary, &setting);
	live->work = (struct working_session){.session = session,
					      .store = live->store,
					      .ears = live->ears,
					      .voice = live->voice,
					      .transcript = live->transcript,
					      .keep_sound = live->settings.keep_days > 0};
	if (live->transcript == NULL || session == NULL)
		return problem_say(problem, "there is not enough memory for a session");
	return true;
}

/* What was named on the command line and was there is taken the next time, too. */
static void
remember_headset(const struct live *live)
{
	struct problem problem = {""};
	if (live->options->headset != NULL &&
	    !settings_remember_headset(live->options->headset, &problem))
		fprintf(stderr, "lapel: the headset is not remembered: %s\n", problem.text);
}

const char *
live_microphone(const struct live *live)
{
	return live->headset[0] != '\0' ? live->headset : live->usual[AUDIO_MICROPHONE];
}

bool
live_open(struct live *live, struct problem *problem)
{
	if (!settings_read(&live->settings, live->options->settings, problem) ||
	    !folders_find(&live->folders, problem) || !open_feet(live, problem))
		return false;
	open_reader(live);
	live->headset =
		live->options->headset != NULL ? live->options->headset : live->settings.headset;
	live->who = live->options->who != NULL ? live->options->who : live->settings.person;
	live->vocabulary = furnish_vocabulary(&live->folders, &live->settings, problem);
	if (live->vocabulary == NULL || !open_ears(live, problem))
		return false;
	live->store = store_open(live->options->db, problem);
	if (live->store == NULL || !open_voice(live, problem) || !open_conversation(live, problem))
		return false;
	int64_t began_at_ms = (int64_t)time(NULL) * 1000;
	if (!store_forget_sound(live->store, live->settings.keep_days, began_at_ms, problem) ||
	    !store_begin_session(live->store, began_at_ms, live->who[0] != '\0' ? live->who : NULL,
				 problem))
		return false;
	for (int end = AUDIO_MICROPHONE; end <= AUDIO_EAR_PIECE; end++)
		pulse_usual_device((enum audio_end)end, live->usual[end]);
	wearer_recall(live->ears, live->who, live_microphone(live));
	live->listening = listening_start(live->ears, live->played, problem);
	if (live->listening == NULL || !live_take_headset(live, problem))
		return false;
	remember_headset(live);
	return true;
}

void
live_close(struct live *live)
{
	struct sound_source *source =
		live->listening == NULL ? NULL : listening_take_back(live->listening);
	listening_stop(live->listening);
	sound_source_close(source);
	session_destroy(live->work.session);
	transcript_close(live->transcript);
	voice_close(live->voice, 0, NULL);
	played_destroy(live->played);
	speech_close(live->speech);
	cues_destroy(live->cues);
	ears_close(live->ears);
	store_close(live->store);
	for (int i = 0; i < PEDALS; i++)
		pedal_close(live->feet[i].pedal);
	pedal_close(live->reader.device);
	vocabulary_destroy(live->vocabulary);
}
