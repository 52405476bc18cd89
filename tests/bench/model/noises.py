"""What else sounds in a room: recorded noises in many disguises, and noises made up by rule.

Recorded noises are few, and what has met only those takes the next one for words: typing for "no",
dishes for "note". So to those that fit (every second one; the others judge) come made-up ones of
the kinds that workrooms have: knocks and clatter, rain and rubbing, hum, tones and talk.
"""
import numpy as np

import recordings

RATE = recordings.RATE
LENGTH = 8 * RATE           # samples of one piece of noise
PIECES = 60                 # of each made-up kind
DISGUISES = 10              # of each recorded noise


def _loud(x):
    """A piece of noise at a level that leaves room for its peaks."""
    return x * 3000 / max(np.sqrt((x ** 2).mean()), 1e-9)


def _ring(random, most_s, frequencies, decays):
    """A struck thing: a few tones that die away."""
    t = np.arange(int(most_s * RATE)) / RATE
    x = np.zeros(len(t))
    for hz, decay_s in zip(frequencies, decays):
        x += random.uniform(0.2, 1) * np.sin(2 * np.pi * (hz * t + random.random())) * np.exp(
            -t / decay_s)
    return x


def _strewn(random, rate_hz, make):
    """Sounds strewn over a piece at random, so many a second on average, now louder, now softer."""
    x = np.zeros(LENGTH + 2 * RATE)
    for at in random.integers(0, LENGTH, max(2, random.poisson(rate_hz * LENGTH / RATE))):
        one = make()[:2 * RATE]
        x[at:at + len(one)] += one * 10 ** (random.normal(0, 5) / 20)
    return x[:LENGTH]


def knocks(random):
    """Short bursts: keys, buttons, needles, a hanger on a rail."""
    decay_s = random.uniform(0.002, 0.03)
    body_hz, share = random.uniform(300, 5000), random.uniform(0, 1)

    def make():
        length = int(8 * decay_s * RATE)
        burst = random.normal(0, 1, length) * np.exp(-np.arange(length) / RATE / decay_s)
        hz = body_hz * random.uniform(0.7, 1.4)
        return (1 - share) * burst + share * _ring(random, 8 * decay_s, [hz], [decay_s])
    return _strewn(random, random.uniform(1, 14), make)


def clatter(random):
    """Things that ring: dishes, scissors, zips and buckles on a table."""
    lowest, highest = random.uniform(300, 2000), random.uniform(2500, 7500)

    def make():
        count = random.integers(3, 10)
        return _ring(random, 0.8, random.uniform(lowest, highest, count),
                     random.uniform(0.01, 0.2, count))
    return _strewn(random, random.uniform(0.7, 6), make)


def drops(random):
    """So many small knocks that they run together: rain, frying, a tap."""
    def make():
        decay_s = random.uniform(0.0005, 0.006)
        return _ring(random, 6 * decay_s, [random.uniform(500, 7500)], [decay_s])
    hiss = random.normal(0, random.uniform(0, 0.2), LENGTH)
    return _strewn(random, random.uniform(60, 600), make) + hiss


def rubbing(random):
    """Noise in a band that comes and goes: cloth, paper, breath, a broom."""
    low, wide = random.uniform(100, 3000), random.uniform(500, 5000)
    x = recordings._shape(random.normal(0, 1, LENGTH),
                          lambda f: np.exp(-((f - low - wide / 2) / wide) ** 2) + 0.02)
    swing = recordings._shape(random.normal(0, 1, LENGTH),
                              lambda f: (f < random.uniform(1, 8)).astype(float))
    swing /= swing.std()
    return x * np.exp(random.uniform(0.3, 1.5) * swing)


def hum(random):
    """A machine: a low tone with its overtones, and coloured noise, beating slowly."""
    t = np.arange(LENGTH) / RATE
    base, x = random.choice([50, 60, random.uniform(25, 300)]), np.zeros(LENGTH)
    for k in range(1, random.integers(2, 30)):
        x += random.uniform(0, 1) / k ** random.uniform(0.3, 1.2) * np.sin(
            2 * np.pi * (k * base * t + random.random()))
    slope = random.uniform(0, 1.2)
    air = recordings._shape(random.normal(0, 1, LENGTH), lambda f: np.maximum(f, 40) ** -slope)
    beat = 1 + random.uniform(0, 0.7) * np.sin(2 * np.pi * random.uniform(0.3, 20) * t)
    return (x / max(x.std(), 1e-9) * random.uniform(0, 1.5) + air / air.std()) * beat


def tones(random):
    """Notes with overtones, one voice or several: a radio, a telephone, a crying child."""
    def make():
        length = int(random.uniform(0.08, 1.2) * RATE)
        t = np.arange(length) / RATE
        base = 110 * 2 ** (random.integers(0, 40) / 12)
        glide = base * (1 + bend * random.normal() * t + shake * np.sin(2 * np.pi * 6 * t))
        turn, x = np.cumsum(glide) / RATE, np.zeros(length)
        for k in range(1, overtones):
            if base * k < 7500:
                x += random.uniform(0.3, 1) / k ** fall * np.sin(2 * np.pi * k * turn)
        return x * np.minimum(1, t / 0.01) * np.exp(-t / dies_s)
    bend, shake = random.choice([0, 0.05, 0.4]), random.choice([0, 0.01, 0.05])
    overtones, fall, dies_s = random.integers(2, 20), random.uniform(0.2, 1.5), random.uniform(.1, 2)
    return _strewn(random, random.uniform(1, 8), make)


def talk(random, talkers):
    """Several people at once, or one in another room."""
    x = np.zeros(LENGTH)
    for _ in range(random.integers(1, 6)):
        one = np.resize(recordings.speed(talkers[random.integers(len(talkers))],
                                         random.uniform(0.85, 1.2)), LENGTH)
        x += np.roll(one, random.integers(LENGTH)) / max(one.std(), 1)
    return recordings.room(x, random)


def disguised(x, random):
    """A recorded noise, faster or slower and by another microphone, sometimes with a second."""
    x = recordings.speed(np.resize(x, int(LENGTH * 1.8)), random.uniform(0.6, 1.7))
    return recordings.microphone(np.resize(np.roll(x, random.integers(len(x))), LENGTH), random)


def pieces(recorded, talkers, seed=3):
    """Pieces of noise, one after the other, each with its kind."""
    random = np.random.default_rng(seed)
    for x in recorded:
        for _ in range(DISGUISES):
            yield 'recorded', _loud(disguised(x, random))
    for make in (knocks, clatter, drops, rubbing, hum, tones):
        for _ in range(PIECES):
            x = _loud(make(random))
            if random.random() < 0.4:       # over a second, quieter noise
                x = x + 0.3 * _loud(disguised(recorded[random.integers(len(recorded))], random))
            yield make.__name__, recordings.microphone(x, random)
    for _ in range(PIECES):
        yield 'talk', _loud(talk(random, talkers))
