"""The room around a voice: noise mixed in, and a voice that is not at the microphone."""

import os

import numpy

import corpus
import voices

NOISES = {"fit": 0, "judge": 1}  # every second of the noise recordings, from the first or the second
FLOOR = 4  # root mean square of the microphone's own noise, in steps of 16 bits


def noises(purpose):
    """The recorded noises of a purpose, by name; silent ones left out."""
    found = [(os.path.basename(clip.path).split(".")[0], voices.samples(clip.path))
             for clip in corpus.load("noise")[NOISES[purpose]::2]]
    return [(name, noise) for name, noise in found if (noise ** 2).mean() > 100]


def with_noise(sound, speech_rms, noise, start, snr_db, generator):
    """A microphone's noise, and a recorded one `snr_db` under the speech (None: none). Both are
    measured by one yardstick, their loud frames: a sneeze in five seconds of silence is as loud as
    it is, and not louder for the silence."""
    sound = sound + generator.normal(0, FLOOR, len(sound))
    if snr_db is None or noise is None:
        return sound
    noise = noise * speech_rms * 10 ** (-snr_db / 20) / voices.speech_level(noise)
    return sound + numpy.tile(noise, len(sound) // len(noise) + 2)[start:start + len(sound)]


def low_passed(sound, corner_hz):
    """Second order, as a head in the way does it: by frequency, without a delay."""
    spectrum = numpy.fft.rfft(sound)
    frequency = numpy.fft.rfftfreq(len(sound), 1 / voices.RATE_HZ)
    return numpy.fft.irfft(spectrum / (1 + (frequency / corner_hz) ** 2), len(sound))


def reverberated(sound, decay_s, direct_db, generator):
    """In a room whose sound falls by 60 dB in `decay_s`: noise that decays as that does, after the
    direct sound and `direct_db` against it in energy. The same loudness as before."""
    count = int(decay_s * voices.RATE_HZ)
    tail = generator.normal(0, 1, count) * 10 ** (-3 * numpy.arange(count) / count)
    tail[:int(0.004 * voices.RATE_HZ)] = 0  # nothing is nearer than a metre and a half
    tail /= (tail ** 2).sum() ** 0.5
    size = 1 << (len(sound) + count).bit_length()
    wet = numpy.fft.irfft(numpy.fft.rfft(sound, size) * numpy.fft.rfft(tail, size), size)
    heard = wet[:len(sound) + count] * 10 ** (-direct_db / 20)
    heard[:len(sound)] += sound
    return heard * voices.speech_level(sound) / voices.speech_level(heard)
