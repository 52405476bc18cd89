/* PortAudio's devices, by name. PortAudio is begun once for each end of the headset that is open,
 * and lists anew only after all of them have ended it: that is how a headset that was plugged in
 * again is found. */
#ifndef LAPEL_HEADSET_AUDIO_DEVICE_H
#define LAPEL_HEADSET_AUDIO_DEVICE_H

#include "problem.h"

#include <stdbool.h>

enum { AUDIO_NAME_MAX = 128 };
enum audio_end { AUDIO_MICROPHONE, AUDIO_EAR_PIECE };

struct audio_device {
	char name[AUDIO_NAME_MAX];
	int channels[2]; /* by audio_end: how many it has at most; 0: none */
	double usual_rate_hz;
	bool usual[2]; /* by audio_end: taken when none is named */
};

bool audio_begin(struct problem *problem);
void audio_end(void); /* once for each audio_begin that succeeded */

/* Between audio_begin and audio_end. */
int audio_device_count(void);
struct audio_device audio_device_at(int index);

/* The device whose name is `name`, or else the first whose name holds it (letters' case does not
 * count); NULL or "": the usual one. -1, with a problem that lists what there is, when there is
 * none such with this end. */
int audio_device_find(const char *name, enum audio_end end, struct problem *problem);

/* In what form a device gives or takes 16-bit samples. */
struct audio_form {
	int rate_hz, channels; /* one channel or two */
};
enum { AUDIO_CHANNELS_MAX = 2 };

/* `rate_hz` and one channel where the device has them, or else what is nearest to it that it has.
 * False when there is none, for instance because another program holds the device. */
bool audio_device_form(int index, enum audio_end end, int rate_hz, struct audio_form *form);

#endif
