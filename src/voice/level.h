/* How loud a sound is, in decibels below full scale (dBFS), and the ceiling on it.
 *
 * What full scale comes to at the ear depends on the headset and on how it is turned up, which no
 * program knows. What a program can see to is that nothing is ever much louder than the words, for
 * it is by the words that a listener turns the headset up. Speech is brought to LEVEL_SPEECH_DBFS
 * while it lasts. The ceiling lies so that even a tone that reached it all day (a sine at -6 dBFS
 * peak, which is -9 dBFS root mean square) is 15 dB above the words. So whoever hears the words at
 * 65 dB(A), a raised voice at a metre (ISO 9921, from memory: normal 60, raised 66), is never given
 * more than 80 dB(A): what ITU-T H.870 (03/2022) and the WHO-ITU standard of 2019 allow an adult
 * for 40 hours a week, a working week with the headset on. H.870 leaves communication aids out; we
 * take it as the stricter target. The allowance of 75 dB(A) for sensitive users is kept when the
 * words are heard at 60 dB(A). */
#ifndef LAPEL_VOICE_LEVEL_H
#define LAPEL_VOICE_LEVEL_H

#include "sound.h"

#define LEVEL_SPEECH_DBFS (-24.0)
#define LEVEL_SPEECH_PEAK_DBFS (-7.0) /* within the ceiling */
#define LEVEL_CEILING_DBFS (-6.0)

/* The sample value of a level, as a real number: -6 dBFS is about 16422. */
double level_sample(double dbfs);

/* The largest magnitude in the sound, in sample values. */
int level_peak(const struct sound *sound);

/* The root mean square of the sound while it lasts, in dBFS: of its 20 ms frames, those within 30
 * dB of the loudest, so that pauses do not count. -INFINITY for silence. (In the manner of the
 * active speech level of ITU-T P.56, which settles what counts as a pause with more care.) */
double level_active_dbfs(const struct sound *sound);

/* Brings the sound to `active_dbfs`, or as near to it as keeps its peak within `peak_dbfs`. */
void level_set(struct sound *sound, double active_dbfs, double peak_dbfs);

/* Turns the whole sound down, if it must be, so that its peak is within `peak_dbfs`. */
void level_limit(struct sound *sound, double peak_dbfs);

#endif
