"""Recorded speech: reading it, padding it, and making more of it.

A recording is scored as it is heard: one utterance with a quarter of a second
of low noise at both ends. For training it is also changed as rooms, throats
and microphones change speech, so that the model learns the words rather than
the few people who said them.
"""
import hashlib
import os
import subprocess
import wave
from dataclasses import dataclass

import numpy as np

RATE = 16000
PADDING = RATE // 4
FOLDS = 3
# Sets whose licences let a model made from them be shipped with attribution.
TRAINING_SETS = ('an4', 'speech-commands', 'librispeech-oog')


@dataclass(frozen=True)
class Recording:
    key: str            # unique, usable as a file name
    path: str
    corpus: str
    speaker: str
    words: str
    notes: str

    @property
    def fold(self):
        """Which part of the speakers this one belongs to, always the same."""
        return part_of(self.speaker)


def part_of(speaker):
    return int(hashlib.md5(speaker.encode()).hexdigest(), 16) % FOLDS


def read_corpus(speech, name):
    """The recordings of one set that have a reference text."""
    found = []
    for line in open(os.path.join(speech, name, 'transcripts.tsv'), encoding='utf-8'):
        path, speaker, words, notes = line.rstrip('\n').split('\t')[:4]
        if words:
            key = f'{name}-{path}'.replace('/', '_').removesuffix('.flac')
            found.append(Recording(key, os.path.join(speech, name, path), name,
                                   speaker, words, notes))
    return found


def seed_of(text):
    return int(hashlib.md5(text.encode()).hexdigest()[:8], 16)


def read_sound(path):
    if path.endswith('.wav'):
        with wave.open(path) as f:
            return np.frombuffer(f.readframes(f.getnframes()), '<i2').astype(float)
    raw = subprocess.run(
        ['flac', '--decode', '--stdout', '--silent', '--force-raw-format',
         '--endian=little', '--sign=signed', path], check=True, capture_output=True)
    return np.frombuffer(raw.stdout, '<i2').astype(float)


def write_sound(path, x):
    with wave.open(path, 'wb') as f:
        f.setnchannels(1)
        f.setsampwidth(2)
        f.setframerate(RATE)
        f.writeframes(np.clip(np.round(x), -32768, 32767).astype('<i2').tobytes())


def pad(x, random):
    """Low noise around a clip, as loud as its own quietest parts.

    Digital silence breaks the front end, hence also a little dither inside.
    """
    frames = x[:len(x) // 400 * 400].reshape(-1, 400)
    level = np.clip(np.percentile(np.sqrt((frames ** 2).mean(1)), 5), 3, 30)
    return np.concatenate([random.normal(0, level, PADDING),
                           x + random.normal(0, 1, len(x)),
                           random.normal(0, level, PADDING)])


def speed(x, factor):
    """Play faster or slower: pitch, formants and pace move together."""
    at = np.arange(0, len(x) - 1, factor)
    if factor > 1:                      # keep what would fold back out of it
        x = _shape(x, lambda f: (f < RATE / 2 / factor).astype(float))
    return np.interp(at, np.arange(len(x)), x)


def _shape(x, gain):
    """Multiply the spectrum by a gain, a function of the frequency in Hz."""
    size = 1 << int(np.ceil(np.log2(len(x) + RATE)))
    spectrum = np.fft.rfft(x, size)
    return np.fft.irfft(spectrum * gain(np.fft.rfftfreq(size, 1 / RATE)), size)[:len(x)]


def microphone(x, random):
    """A microphone of another make: a tilt and two broad humps or dips."""
    tilt = random.uniform(-4, 4)
    humps = [(random.uniform(200, 6000), random.uniform(-6, 6)) for _ in range(2)]

    def gain(f):
        octaves = np.log2(np.maximum(f, 60) / 1000)
        db = tilt * octaves / 2
        for centre, height in humps:
            db = db + height * np.exp(-(octaves - np.log2(centre / 1000)) ** 2)
        return 10 ** (db / 20)
    return _shape(x, gain)


def telephone(x):
    """Nothing above 3.8 kHz."""
    return _shape(x, lambda f: 1 / (1 + np.exp((f - 3800) / 60)))


def room(x, random):
    """A small room: a few early echoes and a short tail."""
    length = int(RATE * random.uniform(0.1, 0.25))
    answer = random.normal(0, 1, length) * np.exp(-np.arange(length) / (length / 6))
    answer *= 0.35 / np.sqrt((answer ** 2).sum())
    answer[0] = 1
    size = 1 << int(np.ceil(np.log2(len(x) + length)))
    return np.fft.irfft(np.fft.rfft(x, size) * np.fft.rfft(answer, size), size)[:len(x)]


def read_noises(speech):
    """Every second of the recorded noises; the others are kept for judging.

    Those with a share-alike licence are left out, as such speech is.
    """
    folder = os.path.join(speech, 'noise')
    lines = [line.split('\t') for line in
             open(os.path.join(folder, 'transcripts.tsv'), encoding='utf-8')][0::2]
    noises = [read_sound(os.path.join(folder, fields[0])) for fields in lines
              if 'BY-SA' not in fields[-1]]
    return [noise for noise in noises if (noise ** 2).mean() > 100]


def loud_db(x):
    """How loud the loud frames of a sound are: those within 25 dB of the loudest."""
    frames = (x[:len(x) // 160 * 160].reshape(-1, 160) ** 2).mean(1)
    return 10 * np.log10(frames[frames > frames.max() / 316].mean() + 1e-3)


# By how much the pace is changed, pitch and throat with it. Synthetic throats are few, and so are
# stretched further.
PACES = {'synthetic': (0.82, 1.22)}
USUAL_PACES = (0.88, 1.14)
SILENCES_S = 0.6, 1.2       # at most before and after, as endpointers leave it


def varied(rec, random):
    """(samples, the frame of the padded recording by frame) of a recording by another microphone,
    in another room, somewhat faster or slower, with more or less silence around it.
    """
    x = pad(read_sound(rec.path), random)
    pace = random.uniform(*PACES.get(rec.corpus, USUAL_PACES))
    x = speed(x, pace)
    before, after = (int(RATE * most * random.random() ** 2) for most in SILENCES_S)
    floor = max(3.0, np.sqrt(np.percentile(x[:len(x) // 160 * 160].reshape(-1, 160).var(1), 5)))
    x = np.concatenate([random.normal(0, floor, before), x, random.normal(0, floor, after)])
    if random.random() < 0.7:
        x = microphone(x, random)
    if random.random() < 0.06:
        x = telephone(x)
    if random.random() < 0.3:
        x = room(x, random)
    x = x * 10 ** (random.uniform(-12, 8) / 20)
    frames = max(0, (len(x) - 410) // 160 + 1)
    at = ((np.arange(frames) * 160 - before) * pace / 160).astype(np.int16)
    return np.clip(np.round(x), -32768, 32767), at
