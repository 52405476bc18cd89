#include "audio_device.h"

#include <dlfcn.h>
#include <portaudio.h>
#include <stdio.h>
#include <string.h>

#ifdef LAPEL_WITH_ALSA
#include <alsa/asoundlib.h>

/* PortAudio tries every device that ALSA can dream of, and ALSA complains of each on standard
 * error. What matters is told by us. */
static void
say_nothing(const char *file, int line, const char *function, int error, const char *format, ...)
{
}
#endif

static void
say_nothing_of_jack(const char *text)
{
}

/* The same for JACK, which PortAudio may have brought along and which we do not know otherwise. */
static void
quieten(void)
{
	static const char *const setters[] = {"jack_set_error_function", "jack_set_info_function"};
	for (size_t i = 0; i < sizeof setters / sizeof *setters; i++) {
		void (*set)(void (*say)(const char *text));
		*(void **)&set = dlsym(RTLD_DEFAULT, setters[i]);
		if (set != NULL)
			set(say_nothing_of_jack);
	}
#ifdef LAPEL_WITH_ALSA
	snd_lib_error_set_handler(say_nothing);
#endif
}

bool
audio_begin(struct problem *problem)
{
	quieten();
	PaError error = Pa_Initialize();
	if (error == paNoError)
		return true;
	return problem_say(problem, "the sound devices cannot be listed: %s",
			   Pa_GetErrorText(error));
}

void
audio_end(void)
{
	Pa_Terminate();
}

int
audio_device_count(void)
{
	int count = Pa_GetDeviceCount();
	return count > 0 ? count : 0;
}

struct audio_device
audio_device_at(int index)
{
	struct audio_device device = {.name = ""};
	const PaDeviceInfo *info = Pa_GetDeviceInfo(index);
	if (info == NULL)
		return device;
	snprintf(device.name, sizeof device.name, "%s", info->name);
	device.channels[AUDIO_MICROPHONE] = info->maxInputChannels;
	device.channels[AUDIO_EAR_PIECE] = info->maxOutputChannels;
	device.usual_rate_hz = info->defaultSampleRate;
	device.usual[AUDIO_MICROPHONE] = index == Pa_GetDefaultInputDevice();
	device.usual[AUDIO_EAR_PIECE] = index == Pa_GetDefaultOutputDevice();
	return device;
}

static const char *const end_names[] = {
	[AUDIO_MICROPHONE] = "microphone", [AUDIO_EAR_PIECE] = "ear-piece"};

static bool
say_none(struct problem *problem, const char *name, enum audio_end end)
{
	char list[300] = "";
	for (int i = 0; i < audio_device_count(); i++) {
		struct audio_device device = audio_device_at(i);
		size_t length = strlen(list);
		if (device.channels[end] > 0)
			snprintf(list + length, sizeof list - length, "%s\"%s\"",
				 length > 0 ? ", " : "", device.name);
	}
	if (list[0] == '\0')
		return problem_say(
			problem,
			"there is no %s: plug the headset in; if it is, see that the sound server "
			"(PipeWire or PulseAudio, with ALSA's plug-ins for it) runs for this user",
			end_names[end]);
	return problem_say(
		problem,
		"there is no %s called \"%.60s\"; there are %s; --headset \"\" takes the "
		"usual one",
		end_names[end], name == NULL ? "" : name, list);
}

int
audio_device_find(const char *name, enum audio_end end, struct problem *problem)
{
	bool named = name != NULL && name[0] != '\0';
	int like = -1;
	for (int i = 0; i < audio_device_count(); i++) {
		struct audio_device device = audio_device_at(i);
		if (device.channels[end] == 0)
			continue;
		if (named ? strcmp(device.name, name) == 0 : device.usual[end])
			return i;
		if (named && like < 0 && strcasestr(device.name, name) != NULL)
			like = i;
	}
	if (like < 0)
		say_none(problem, name, end);
	return like;
}

bool
audio_device_form(int index, enum audio_end end, int rate_hz, struct audio_form *form)
{
	const int rates[] = {rate_hz, (int)audio_device_at(index).usual_rate_hz, 48000};
	PaStreamParameters parameters = {.device = index, .sampleFormat = paInt16};
	const PaStreamParameters *in = end == AUDIO_MICROPHONE ? &parameters : NULL;
	const PaStreamParameters *out = end == AUDIO_EAR_PIECE ? &parameters : NULL;
	for (size_t i = 0; i < sizeof rates / sizeof *rates; i++)
		for (int channels = 1; channels <= AUDIO_CHANNELS_MAX; channels++) {
			parameters.channelCount = channels;
			if (rates[i] <= 0 ||
			    Pa_IsFormatSupported(in, out, rates[i]) != paFormatIsSupported)
				continue;
			*form = (struct audio_form){rates[i], channels};
			return true;
		}
	return false;
}
