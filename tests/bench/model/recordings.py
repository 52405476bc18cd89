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
from concurrent.futures import ProcessPoolExecutor
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
        return int(hashlib.md5(self.speaker.encode()).hexdigest(), 16) % FOLDS


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


def noise(x, random, decibels):
    """Add steady coloured noise so many decibels below the speech."""
    slope = random.uniform(0.3, 1.2)
    hiss = _shape(random.normal(0, 1, len(x)), lambda f: np.maximum(f, 50) ** -slope)
    loud = np.sqrt(np.sort(x ** 2)[len(x) // 2:].mean() + 1)
    return x + hiss * (loud / np.sqrt((hiss ** 2).mean() + 1e-9) * 10 ** (-decibels / 20))


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


def din(x, random, noises):
    """Add a recorded noise, from hardly to be heard to 5 dB below the speech."""
    recorded = noises[random.integers(len(noises))]
    start = random.integers(len(recorded))
    recorded = np.tile(recorded, len(x) // len(recorded) + 2)[start:start + len(x)]
    frames = (x[:len(x) // 160 * 160].reshape(-1, 160) ** 2).mean(1)
    loud = frames[frames > frames.max() / 316].mean()
    level = 10 ** (-random.choice([25, 20, 15, 10, 10, 7, 5]) / 20)
    return x + recorded * (np.sqrt(loud) * level / max(np.sqrt((recorded ** 2).mean()), 1))


def any_room(x, random):
    return room(x, random) if random.random() < 0.4 else x


# How a padded clip is changed: the range of its pace, and what else is done.
# 'plain' is what is scored. A number behind a name makes it again with other dice.
CHANGES = {
    'plain': (None, lambda x, r, n: x),
    'slow': ((0.87, 0.93), lambda x, r, n: microphone(x, r)),
    'fast': ((1.07, 1.13), lambda x, r, n: microphone(x, r)),
    'noisy': (None, lambda x, r, n: noise(microphone(x, r), r, r.uniform(8, 20))),
    'roomy': (None, lambda x, r, n: noise(room(microphone(x, r), r), r, r.uniform(15, 25))),
    'phone': (None, lambda x, r, n: noise(telephone(x), r, 30)),
    'din': ((0.92, 1.08), lambda x, r, n: din(any_room(microphone(x, r), r), r, n)),
}
PEOPLE = ('plain slow slow2 slow3 fast fast2 fast3 noisy noisy2 roomy roomy2 phone phone2 '
          'din din2 din3 din4').split()
PROSE = 'plain slow fast noisy roomy din din2 din3'.split()
SYNTHETIC = ('plain din din3'.split(), 'roomy din2 din3'.split())


def disguises(rec):
    """The changes that a recording is learned in."""
    if rec.corpus == 'synthetic':
        return SYNTHETIC[seed_of(rec.key) % 2]
    return PROSE if rec.corpus == 'librispeech-oog' else PEOPLE


def dice(change, key):
    """The random numbers of one change of one recording, and its pace."""
    random = np.random.default_rng(seed_of(change + key))
    paces, _ = CHANGES[change.rstrip('0123456789')]
    return random, random.uniform(*paces) if paces else 1.0


def _prepare(job):
    recordings, change, folder, noises = job
    for rec in recordings:
        x = pad(read_sound(rec.path), np.random.default_rng(seed_of(rec.key)))
        random, pace = dice(change, rec.key)
        if pace != 1:
            x = speed(x, pace)
        _, alter = CHANGES[change.rstrip('0123456789')]
        write_sound(f'{folder}/{rec.key}.wav', alter(x, random, noises))


def prepare(recordings, change, folder, noises):
    """Write every recording, padded and changed, as KEY.wav into a folder."""
    os.makedirs(folder, exist_ok=True)
    with ProcessPoolExecutor(2) as pool:
        list(pool.map(_prepare, [(recordings[k::2], change, folder, noises) for k in (0, 1)]))
