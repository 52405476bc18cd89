/* lapel say: the station's voice to a file. */
#include "options.h"
#include "settings.h"
#include "speech.h"

#include <stdlib.h>
#include <string.h>

static const char help[] = "lapel say: say a text with the station's voice, to a sound file\n\n"
			   "Usage: lapel say TEXT --to FILE.wav [OPTION...]\n\n"
			   "  --to FILE.wav      where the sound goes (16 kHz, mono)\n"
			   "  --voice NAME       another voice: slt, rms, awb, kal16 or kal\n"
			   "  --rate NUMBER      speed, 0.5 to 2.0; 1.0 is usual\n"
			   "  --settings FILE    settings other than the user's\n"
			   "  --help             this page\n";

struct options {
	const char *to, *voice, *rate, *settings;
};

static int
say(const struct options *options, const char *text)
{
	struct problem problem = {""};
	struct settings settings;
	struct sound sound = {0};
	if (!settings_read(&settings, options->settings, &problem))
		return command_failed(&problem);
	const char *voice = options->voice != NULL ? options->voice : settings.voice;
	double rate = options->rate != NULL ? atof(options->rate) : settings.speed;
	struct speech *speech = speech_open(voice, rate, &problem);
	bool done = speech != NULL && speech_render(speech, text, &sound, &problem) &&
		    sound_write(options->to, &sound, &problem);
	sound_finish(&sound);
	speech_close(speech);
	return done ? DONE : command_failed(&problem);
}

static int
run(const struct command *command, int count, char **argument)
{
	struct options options = {0};
	const struct option_row rows[] = {{"to", &options.to, NULL},
					  {"voice", &options.voice, NULL},
					  {"rate", &options.rate, NULL},
					  {"settings", &options.settings, NULL}};
	int rest, status;
	if (!options_read(command, rows, sizeof rows / sizeof *rows, count, argument, &rest,
			  &status))
		return status;
	if (rest != count - 1)
		return command_wrong_use(command, rest == count ? "no text was given"
								: "the text must be one word of "
								  "the command line: quote it");
	if (options.to == NULL)
		return command_wrong_use(command, "--to FILE.wav is missing");
	return say(&options, argument[rest]);
}

const struct command command_say = {"say", "say a text, to a sound file", help, run};
