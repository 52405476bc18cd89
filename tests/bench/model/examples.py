"""What a network learns from: recordings in many disguises, each frame with the output that is right
in it, and rooms in which nobody speaks.

What only sound can be is done to sound, and once: another microphone, a room, a telephone. The rest is
done anew for every pass to the powers in the bands, which is cheap: another throat (the bands moved
along the mel scale: Jaitly and Hinton, 2013), another pace, and noise in the room.
"""
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass

import numpy as np

import bands
import network
import noises
import recordings

# In how many microphones and rooms each recording is put, and how many of those a pass uses.
# Synthetic voices are many and alike; people are few and what counts.
VARIANTS = {'an4': (8, 8), 'speech-commands': (16, 16), 'librispeech-oog': (4, 4),
            'synthetic': (2, 1)}
TALKERS = 200               # recordings that are also heard behind others
EMPTY_ROOMS = 1200          # a pass
NOISY = 0.8                 # of everything
NOISE_DB = 0, 28            # below the speech, loud frames against loud frames
TALK_DB = 8, 28             # others' talk: as loud as the wearer's, it would be his
THROATS = 0.88, 1.13
PACES = 0.84, 1.2
DECIBEL = np.log(10) / 10   # of power, as a natural logarithm


@dataclass
class Variant:
    """A recording by some microphone in some room."""
    rec: recordings.Recording
    rows: np.ndarray        # natural logarithms of the powers in the bands
    at: np.ndarray          # which frame of the padded recording each row is
    loud_db: float          # how loud its loud frames are


def plain(rec):
    """Centred bands of a recording as it is scored: low noise at both ends."""
    random = np.random.default_rng(recordings.seed_of(rec.key))
    return network.centred(bands.log_bands(recordings.pad(recordings.read_sound(rec.path), random)))


def scale_of(some):
    """Mean and deviation of the bands of some recordings."""
    rows = np.concatenate([plain(rec) for rec in some])
    return rows.mean(0), rows.std(0)


def _vary(job):
    rec, number = job
    random = np.random.default_rng([recordings.seed_of(rec.key), number])
    x, at = recordings.varied(rec, random)
    rows = bands.log_bands(x)
    return Variant(rec, rows.astype(np.float16), at[:len(rows)], recordings.loud_db(x))


def vary(some):
    """Every variant of some recordings: recording -> its variants."""
    jobs = [(rec, k) for rec in some for k in range(VARIANTS[rec.corpus][0])]
    found = {}
    with ProcessPoolExecutor(2) as pool:
        for variant in pool.map(_vary, jobs, chunksize=50):
            found.setdefault(variant.rec, []).append(variant)
    return found


def _warp(alpha):
    """The matrix that moves what is in each band to where a throat `alpha` times as long has it."""
    mel = lambda hz: 2595 * np.log10(1 + hz / 700)
    lowest, highest = mel(bands.LOWEST_HZ), mel(bands.HIGHEST_HZ)
    step = (highest - lowest) / (bands.BANDS + 1)
    hz = 700 * (10 ** ((lowest + step * np.arange(1, bands.BANDS + 1)) / 2595) - 1)
    place = np.clip((mel(hz * alpha) - lowest) / step - 1, 0, bands.BANDS - 1)
    first = np.minimum(place.astype(int), bands.BANDS - 2)
    matrix = np.zeros((bands.BANDS, bands.BANDS), 'f')
    matrix[first, np.arange(bands.BANDS)] = 1 - (place - first)
    matrix[first + 1, np.arange(bands.BANDS)] += place - first
    return matrix


def _paced(rows, at, factor):
    place = np.arange(0, len(rows) - 1, factor)
    first = place.astype(int)
    part = (place - first)[:, None].astype('f')
    return rows[first] * (1 - part) + rows[first + 1] * part, at[np.round(place).astype(int)]


# How much of a band's power the phase between two sounds can add or take away: less, the more bins of
# the spectrum it has.
_PHASES = (np.sqrt((bands.FILTERS ** 2).sum(0)) / bands.FILTERS.sum(0)).astype('f')


def _added(rows, noise, random):
    """The bands of two sounds at once."""
    phase = np.cos(2 * np.pi * random.random(rows.shape, dtype='f')) * _PHASES
    both = np.logaddexp(rows, noise)
    crossed = 2 * np.exp((rows + noise) / 2 - both) * phase
    return both + np.log(np.maximum(1 + crossed, 0.05))


class Examples:
    """The examples of one pass after another."""

    def __init__(self, variants, noise_sounds, seed=5):
        random = np.random.default_rng(seed)
        self.variants, self.seed = variants, seed
        some = list(variants)
        talkers = [recordings.read_sound(some[i].path)
                   for i in random.integers(0, len(some), TALKERS)]
        self.noises = [(kind, bands.log_bands(x), recordings.loud_db(x))
                       for kind, x in noises.pieces(noise_sounds, talkers)]

    def _noise(self, length, random):
        """(logarithms of powers, how loud, its kind) of a stretch of some noise."""
        kind, rows, loud_db = self.noises[random.integers(len(self.noises))]
        first = random.integers(len(rows))
        return np.resize(np.roll(rows, -first, 0), (length, rows.shape[1])), loud_db, kind

    def disguised(self, variant, random):
        """(logarithms of powers, frames of the padded recording) of a variant in another throat, at
        another pace and in some noise."""
        rows, at = _paced(variant.rows.astype('f'), variant.at, random.uniform(*PACES))
        if random.random() < 0.7:
            rows = rows @ _warp(random.uniform(*THROATS))
        if random.random() < NOISY:
            rows = self.noisy(rows, variant.loud_db, random)
        return rows, at

    def noisy(self, rows, speech_db, random):
        """Powers of speech so loud, in some noise."""
        noise, loud_db, kind = self._noise(len(rows), random)
        gain_db = speech_db - loud_db - random.uniform(*(TALK_DB if kind == 'talk' else NOISE_DB))
        return _added(rows, noise + np.float32(gain_db * DECIBEL), random)

    def empty_room(self, random):
        """The same where nobody speaks."""
        length = int(random.integers(80, 400))
        rows, _, _ = self._noise(length, random)
        floor = bands.log_bands(random.normal(0, random.uniform(1, 20), 160 * length + 400))[:length]
        return _added(rows + np.float32(random.uniform(-60, 0) * DECIBEL), floor, random)

    def raw(self, number):
        """Everything of a pass: (rows, recording, frames of it), or (rows, None, None) of a room."""
        random = np.random.default_rng([self.seed, number])
        for rec, variants in self.variants.items():
            for k in random.permutation(len(variants))[:VARIANTS[rec.corpus][1]]:
                rows, at = self.disguised(variants[k], random)
                yield rows, rec, at
        for _ in range(EMPTY_ROOMS):
            yield self.empty_room(random), None, None

    def of_pass(self, number, labels, scale, rivals):
        """(centred and scaled bands, right output by frame, that of one of its rivals or the same) of
        all that have labels."""
        mean, deviation = scale
        random = np.random.default_rng([self.seed, number, 1])
        found = []
        for rows, rec, at in self.raw(number):
            right = rival = np.zeros(len(rows), np.int16)
            if rec is not None:
                if rec not in labels:
                    continue
                at = np.clip(at, 0, len(labels[rec]) - 1)
                right = rival = labels[rec][at].astype(np.int16)
                others = rivals.get(rec)
                if others:
                    rival = others[random.integers(len(others))][at].astype(np.int16)
            found.append((((network.centred(rows) - mean) / deviation).astype(np.float16), right, rival))
        return found
