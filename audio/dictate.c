/* dictate: makes a dictation's sound from its script, so that no recording need be kept.
 *
 * Usage: dictate SCRIPT SOUND.wav PRESSES [FOLDER]
 *
 * A line of a script does one thing; `#` starts a comment:
 *   voice NAME [RATE]    who speaks from here on: a voice of flite's
 *   room DECIBELS        the noise of the room, full scale, over the whole sound (-60 unless said)
 *   pause SECONDS        the silence left after each utterance (1.8 unless said)
 *   say WORDS            one utterance
 *   wait SECONDS
 *   press tap | double | hold | long
 *   sound FILE [DB]      a recording from FOLDER, this much louder or softer, as far as it is long
 *
 * The same script gives the same sound, to the sample. */
#include "sound_file.h"
#include "speech.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct dictation {
	struct sound sound;
	struct speech *speech;
	FILE *presses;
	const char *folder;
	double room_db, pause_s;
	int64_t at; /* samples */
};

static int64_t
samples_of(double seconds)
{
	return llround(seconds * SOUND_RATE_HZ);
}

static bool
do_voice(struct dictation *dictation, const char *rest, struct problem *problem)
{
	char name[32] = "";
	double rate = 1;
	if (sscanf(rest, "%31s %lf", name, &rate) < 1)
		return problem_say(problem, "voice: no name");
	speech_close(dictation->speech);
	dictation->speech = speech_open(name, rate, problem);
	return dictation->speech != NULL;
}

static bool
do_room(struct dictation *dictation, const char *rest, struct problem *problem)
{
	dictation->room_db = atof(rest);
	return true;
}

static bool
do_pause(struct dictation *dictation, const char *rest, struct problem *problem)
{
	dictation->pause_s = atof(rest);
	return true;
}

static bool
do_say(struct dictation *dictation, const char *rest, struct problem *problem)
{
	struct sound spoken = {0};
	if (dictation->speech == NULL)
		return problem_say(problem, "say: no voice was chosen before");
	bool done = speech_render(dictation->speech, rest, &spoken, problem) &&
		    sound_mix(&dictation->sound, &spoken, dictation->at);
	if (done)
		dictation->at += spoken.count + samples_of(dictation->pause_s);
	sound_finish(&spoken);
	return done;
}

static bool
do_wait(struct dictation *dictation, const char *rest, struct problem *problem)
{
	dictation->at += samples_of(atof(rest));
	return true;
}

static bool
do_press(struct dictation *dictation, const char *rest, struct problem *problem)
{
	static const struct {
		const char *name;
		double down_s[2], up_s[2];
		double lasts_s;
	} presses[] = {
		{"tap", {0, -1}, {0.15, -1}, 0.6},
		{"double", {0, 0.25}, {0.12, 0.4}, 0.8},
		{"hold", {0, -1}, {0.9, -1}, 1.0},
		{"long", {0, -1}, {2.2, -1}, 2.4},
	};
	double now_s = (double)dictation->at / SOUND_RATE_HZ;
	for (size_t i = 0; i < sizeof presses / sizeof *presses; i++) {
		if (strcmp(rest, presses[i].name) != 0)
			continue;
		for (int k = 0; k < 2 && presses[i].down_s[k] >= 0; k++)
			fprintf(dictation->presses, "%.3f KEY_B 1\n%.3f KEY_B 0\n",
				now_s + presses[i].down_s[k], now_s + presses[i].up_s[k]);
		dictation->at += samples_of(presses[i].lasts_s + dictation->pause_s);
		return true;
	}
	return problem_say(problem, "press: \"%s\" is none of tap, double, hold, long", rest);
}

static bool
do_sound(struct dictation *dictation, const char *rest, struct problem *problem)
{
	char name[512] = "", path[1024];
	double gain_db = 0;
	struct sound recording = {0};
	if (sscanf(rest, "%511s %lf", name, &gain_db) < 1)
		return problem_say(problem, "sound: no file");
	snprintf(path, sizeof path, "%s/%s", dictation->folder, name);
	if (!sound_file_read(path, &recording.samples, &recording.count, problem))
		return false;
	for (int64_t i = 0; i < recording.count; i++)
		recording.samples[i] =
			(int16_t)lround(recording.samples[i] * pow(10, fmin(gain_db, 0) / 20));
	bool done = sound_mix(&dictation->sound, &recording, dictation->at);
	dictation->at += recording.count + samples_of(dictation->pause_s);
	sound_finish(&recording);
	return done;
}

static const struct {
	const char *word;
	bool (*act)(struct dictation *dictation, const char *rest, struct problem *problem);
} actions[] = {
	{"voice", do_voice}, {"room", do_room},	  {"pause", do_pause}, {"say", do_say},
	{"wait", do_wait},   {"press", do_press}, {"sound", do_sound},
};

static bool
act_on(struct dictation *dictation, char *line, struct problem *problem)
{
	line[strcspn(line, "#\r\n")] = '\0';
	line += strspn(line, " \t");
	size_t word = strcspn(line, " \t");
	if (word == 0)
		return true;
	char *rest = line + word + strspn(line + word, " \t");
	for (size_t end = strlen(rest); end > 0 && strchr(" \t", rest[end - 1]) != NULL; end--)
		rest[end - 1] = '\0';
	for (size_t i = 0; i < sizeof actions / sizeof *actions; i++)
		if (strlen(actions[i].word) == word && strncmp(line, actions[i].word, word) == 0)
			return actions[i].act(dictation, rest, problem);
	return problem_say(problem, "\"%.*s\" is no word of a script", (int)word, line);
}

/* A room hums more than it hisses: noise through a first-order low pass, with a little left above.
 */
static bool
add_room(struct dictation *dictation)
{
	struct sound room = {.count = dictation->at};
	uint32_t state = 19590701;
	double low = 0, level = pow(10, dictation->room_db / 20) * 32768;
	room.samples = malloc(sizeof *room.samples * (size_t)(room.count > 0 ? room.count : 1));
	if (room.samples == NULL)
		return false;
	for (int64_t i = 0; i < room.count; i++) {
		double white = 0;
		for (int k = 0; k < 4; k++) {
			state = state * 1664525u + 1013904223u;
			white += (double)(state >> 8) / (1 << 23) - 1;
		}
		low += 0.15 * (white - low);
		room.samples[i] = (int16_t)lround(level * (2.2 * low + 0.35 * white));
	}
	bool mixed = sound_mix(&dictation->sound, &room, 0);
	sound_finish(&room);
	return mixed;
}

static bool
read_script(struct dictation *dictation, const char *path, struct problem *problem)
{
	char line[1024], what[400];
	FILE *script = fopen(path, "r");
	bool done = true;
	if (script == NULL)
		return problem_say(problem, "%s cannot be opened", path);
	for (int number = 1; done && fgets(line, sizeof line, script) != NULL; number++) {
		done = act_on(dictation, line, problem);
		if (done)
			continue;
		snprintf(what, sizeof what, "%s", problem->text);
		problem_say(problem, "%s, line %d: %s", path, number, what);
	}
	fclose(script);
	return done;
}

int
main(int count, char **argument)
{
	struct problem problem = {""};
	if (count < 4 || count > 5) {
		fprintf(stderr, "usage: dictate SCRIPT SOUND.wav PRESSES [FOLDER]\n");
		return 2;
	}
	struct dictation dictation = {.room_db = -60,
				      .pause_s = 1.8,
				      .at = SOUND_RATE_HZ,
				      .folder = count == 5 ? argument[4] : "."};
	dictation.presses = fopen(argument[3], "w");
	bool done = dictation.presses != NULL && read_script(&dictation, argument[1], &problem) &&
		    add_room(&dictation) && sound_write(argument[2], &dictation.sound, &problem);
	if (dictation.presses == NULL)
		problem_say(&problem, "%s cannot be written", argument[3]);
	else if (fclose(dictation.presses) != 0 && done)
		done = problem_say(&problem, "%s cannot be written: is the disk full?",
				   argument[3]);
	speech_close(dictation.speech);
	sound_finish(&dictation.sound);
	if (!done)
		fprintf(stderr, "dictate: %s\n", problem.text);
	return done ? 0 : 1;
}
