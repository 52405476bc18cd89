"""What a network learns from: recordings in many disguises, each frame with the output that is right
in it, and rooms in which nobody speaks."""
from concurrent.futures import ProcessPoolExecutor

import numpy as np

import bands
import network
import recordings

# How often each recording is disguised for one pass. Synthetic voices are many and alike; people are
# few and what counts.
TIMES = {'an4': 12, 'speech-commands': 20, 'librispeech-oog': 6, 'synthetic': 1}
TALKERS = 0.02              # of the recordings are also heard talking behind others
_shared = {}


def plain(rec):
    """Centred bands of a recording as it is scored: low noise at both ends."""
    random = np.random.default_rng(recordings.seed_of(rec.key))
    return network.centred(bands.log_bands(recordings.pad(recordings.read_sound(rec.path), random)))


def scale_of(some):
    """Mean and deviation of the bands of some recordings."""
    rows = np.concatenate([plain(rec) for rec in some])
    return rows.mean(0), rows.std(0)


def _scaled(x):
    mean, deviation = _shared['scale']
    return ((network.centred(bands.log_bands(x)) - mean) / deviation).astype(np.float16)


def _share(**things):
    _shared.update(things)


def _disguised(job):
    rec, labels, number = job
    random = np.random.default_rng([recordings.seed_of(rec.key), number])
    x, right = recordings.disguised(rec, labels, random, _shared['noises'], _shared['talkers'])
    rows = _scaled(np.clip(np.round(x), -32768, 32767))
    count = min(len(rows), len(right))
    return rows[:count], right[:count].astype(np.int16)


def _empty_rooms(noises, scale, number):
    _share(scale=scale)
    random, found = np.random.default_rng(number), []
    hiss = [random.normal(0, random.uniform(2, 60), 10 * recordings.RATE) for _ in range(6)]
    for noise in noises + hiss:
        for _ in range(6):
            length = int(random.integers(12000, 60000))
            first = int(random.integers(max(1, len(noise) - length)))
            x = noise[first:first + length] * 10 ** (random.uniform(-15, 5) / 20)
            rows = _scaled(x + random.normal(0, random.uniform(1, 20), len(x)))
            found.append((rows, np.zeros(len(rows), np.int16)))
    return found


class Examples:
    """The examples of one pass after another; those of the next are made while one is used."""

    def __init__(self, labels, noises, scale, passes):
        random = np.random.default_rng(5)
        self.labels, self.noises, self.scale, self.passes = labels, noises, scale, passes
        talkers = [recordings.read_sound(rec.path) for rec in labels if random.random() < TALKERS]
        self.pool = ProcessPoolExecutor(2, initializer=_share_all,
                                        initargs=(noises, talkers, scale))
        self.ahead = {0: self._make(0)}

    def _make(self, number):
        jobs = [(rec, right, number * 100 + k) for rec, right in self.labels.items()
                for k in range(TIMES[rec.corpus])]
        return self.pool.map(_disguised, jobs, chunksize=40)

    def __call__(self, number):
        found = list(self.ahead.pop(number)) + _empty_rooms(self.noises, self.scale, number)
        if number + 1 < self.passes:
            self.ahead[number + 1] = self._make(number + 1)
        else:
            self.pool.shutdown()
        return found


def _share_all(noises, talkers, scale):
    _share(noises=noises, talkers=talkers, scale=scale)
