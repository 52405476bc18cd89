"""The synthetic voices that say calls, and sound as samples.

A voice that judges never fitted anything: neither the judge's weights nor the network heard it. A
voice changed by sox is a relative of one that is kept out as well. Needs espeak-ng and sox besides
what lapel needs itself.
"""

import os
import subprocess
from dataclasses import dataclass

import numpy

import corpus

RATE_HZ = 16000


@dataclass(frozen=True)
class Voice:
    engine: str
    name: str
    rates: tuple  # espeak: words a minute; flite: speed, 1 is usual
    cents: int = 0  # by which sox raises the pitch
    tempo: float = 1.0  # by which sox quickens it

    def __str__(self):
        change = f"{self.cents:+d} cents" if self.cents else ""
        return " ".join(part for part in [self.engine, self.name, change] if part)


# The network of tests/bench/model heard none of these; what it knows by heart would make the judge too
# sure of strangers.
VOICES = {
    "fit": [Voice("flite", "slt", (1.0, 1.15)), Voice("flite", "slt", (1.0, 1.15)),
            Voice("espeak", "en-us+m3", (145,)), Voice("espeak", "en-us+f2", (155,))],
    "judge": [Voice("espeak", "en-gb+m7", (140, 165)), Voice("espeak", "en-us+m7", (135, 160)),
              Voice("espeak", "en-us+f3", (140, 165)),
              Voice("espeak", "en-gb-scotland+f3", (135, 155)), Voice("flite", "rms", (1.0, 1.15)),
              Voice("flite", "rms", (1.0, 1.1), 150, 1.1),
              Voice("flite", "rms", (1.0,), -120, 0.95)],
}


def samples(path):
    """A sound file as numbers, at 16 kHz."""
    raw = subprocess.run(["sox", path, "-r", str(RATE_HZ), "-c", "1", "-b", "16", "-e", "signed",
                          "-t", "raw", "-"], capture_output=True, check=True).stdout
    return numpy.frombuffer(raw, numpy.int16).astype(float)


def write(path, sound):
    """Samples as a WAV file, clipped where they are too loud for it."""
    data = numpy.clip(numpy.round(sound), -32768, 32767).astype("<i2").tobytes()
    subprocess.run(["sox", "-t", "raw", "-r", str(RATE_HZ), "-c", "1", "-b", "16", "-e", "signed",
                    "-", path], input=data, check=True)


def frames_of(sound, length=80):
    return sound[:len(sound) // length * length].reshape(-1, length)


def speech_level(sound):
    """Root mean square of the frames within 25 dB of the loudest."""
    power = (frames_of(sound, 160) ** 2).mean(1)
    return (power[power > power.max() / 316].mean()) ** 0.5


VOICED_DB = -36  # against the level of speech; what an espeak voice leaves of an echo is below
FADE = 320


def trimmed(sound):
    """Speech from its first voiced sample to its last (by frames of 5 ms); what is left after it, the
    end of a decay, fades out in 20 ms. Gives the sound, and how many of its samples are speech."""
    power_db = 10 * numpy.log10((frames_of(sound) ** 2).mean(1) + 1e-3)
    voiced = numpy.flatnonzero(power_db > 20 * numpy.log10(speech_level(sound)) + VOICED_DB)
    first, last = voiced[0] * 80, (voiced[-1] + 1) * 80
    sound = sound[first:last + FADE].copy()
    tail = len(sound) - (last - first)
    sound[last - first:] *= numpy.linspace(1, 0, tail)
    return sound, int(last - first)


LONGEST_CLOSURE = 16  # frames: a stop's closure is not longer than 80 ms


def without_halts(sound):
    """Shortens the silences that a synthesiser puts in where no comma asks for them (espeak: before
    "and") to a stop's closure."""
    power_db = 10 * numpy.log10((frames_of(sound) ** 2).mean(1) + 1e-3)
    quiet = power_db < 20 * numpy.log10(speech_level(sound)) - 40
    kept, run = [], 0
    for i, is_quiet in enumerate(quiet):
        run = run + 1 if is_quiet else 0
        kept += [i] if run <= LONGEST_CLOSURE else []
    return frames_of(sound)[kept].reshape(-1)


def speak(voice, rate, text, folder):
    """What a voice says, trimmed; and how many samples of it are speech. `folder` is for scratch, of
    the caller alone."""
    path, changed = os.path.join(folder, "spoken.wav"), os.path.join(folder, "changed.wav")
    if voice.engine == "flite":
        command = [corpus.LAPEL, "say", text, "--voice", voice.name, "--rate", str(rate), "--to", path]
    else:
        command = ["espeak-ng", "-v", voice.name, "-s", str(rate), "-w", path, text]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    if voice.cents or voice.tempo != 1:
        subprocess.run(["sox", path, changed, "pitch", str(voice.cents), "tempo", "-s",
                        str(voice.tempo)], check=True)
        path = changed
    sound, _ = trimmed(samples(path))
    return trimmed(sound if "," in text else without_halts(sound))
