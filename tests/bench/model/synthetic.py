"""Calls and prose spoken by synthetic voices, to learn from beside people.

The voices that judge hearing (`judge` in ../synthesise.py) are left out, and so
is every voice that shares their throat or their country's vowels: what is then
measured on them is measured on strangers. A voice and its variants count as one
speaker, so that a part of the speakers can be kept from a network.
"""
import os
import random
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

import numpy as np

import recordings
import spoken

sys.path.insert(1, os.path.join(os.path.dirname(os.path.abspath(__file__)), os.pardir))
import synthesise                                       # noqa: E402

COUNT = 3000
FLITE_SHARE = 0.4           # of what is said, by the voices most like people
FLITE = {'awb': 120, 'rms': 105, 'kal': 105, 'kal16': 105}      # usual pitch in Hz
ACCENTS = ('en-us en-us en-us en-gb en-gb en-gb-x-rp en-029 en-gb-x-gbclan '
           'en-gb-x-gbcwmd').split()
THROATS = ('m1 m2 m4 m5 m6 m8 f1 f4 f5 klatt klatt2 klatt3 klatt4 adam Alex Alicia Andy Annie '
           'belinda benjamin caleb david ed edward gustave iven john linda max michel Mike '
           'norbert pablo paul pedro quincy rob robert sandro shelby steph travis victor '
           'zac').split()
SPEAKER = {'kal16': 'kal'}


def _facts(choose):
    """Calls that synthesise.calls leaves out."""
    of = {name: synthesise.list_of(name + '.txt')
          for name in 'colours fibres makers tags parcels measures'.split()}
    pair = synthesise.below_hundred
    number = lambda low, high: pair(choose.randint(low, high))
    return choose.choice([
        lambda: 'colour ' + choose.choice(of['colours']),
        lambda: 'colour ' + choose.choice(of['colours']) + ' and ' + choose.choice(of['colours']),
        lambda: f'cloth {number(5, 99)} percent ' + choose.choice(of['fibres']),
        lambda: f'cloth {number(50, 99)} ' + choose.choice(of['fibres'])
                + f' {number(1, 50)} ' + choose.choice(of['fibres']),
        lambda: 'maker ' + choose.choice(of['makers']),
        lambda: 'size ' + choose.choice(of['tags']),
        lambda: f'size {number(4, 60)}',
        lambda: f'size {number(26, 44)} by {number(26, 36)}',
        lambda: f'price {number(2, 99)} {number(10, 99)}',
        lambda: f'price {number(2, 99)} dollars',
        lambda: f'cost {number(2, 99)} oh {number(1, 9)}',
        lambda: 'pilling ' + number(1, 5),
        lambda: 'colour change ' + number(1, 5),
        lambda: f'weight {number(1, 9)} hundred and {number(1, 99)} grams',
        lambda: f'weight {number(1, 9)} pounds {number(1, 15)} ounces',
        lambda: 'parcel ' + choose.choice(of['parcels']),
        lambda: 'keep bin ' + synthesise.label(choose),
        lambda: 'keep nothing', lambda: 'colour other', lambda: 'first', lambda: 'second',
        lambda: choose.choice(of['measures']) + ' none',
        lambda: choose.choice(of['measures']) + ' a hundred and ' + number(1, 40),
        lambda: synthesise.length(choose) + ' no ' + synthesise.length(choose),
        lambda: 'help'])()


def _number(choose):
    """A number said in groups, as in an address, a date or on a label."""
    groups = [choose.choice([lambda: choose.choice([*synthesise.DIGITS, 'oh', 'zero']),
                             lambda: synthesise.below_hundred(choose.randint(10, 99))])()
              for _ in range(choose.randint(1, 5))]
    return ' '.join(groups)


def texts(choose, prose, count):
    """What is said: calls, two calls in a breath, numbers, and prose."""
    calls = synthesise.calls(choose, 1 << 30)
    for _ in range(count):
        kind = choose.random()
        if kind < 0.45:
            yield next(calls)
        elif kind < 0.55:
            yield next(calls) + ' ' + next(calls)
        elif kind < 0.70:
            yield _facts(choose)
        elif kind < 0.85:
            yield _number(choose)
        else:
            words = choose.choice(prose).split()
            first = choose.randrange(max(1, len(words) - 7))
            yield ' '.join(words[first:first + choose.randint(3, 8)])


def _command(choose, words, path):
    """(speaker, command that speaks) by a voice, pace and pitch drawn at random."""
    if choose.random() < FLITE_SHARE:
        voice = choose.choice(list(FLITE))
        return SPEAKER.get(voice, voice), [
            'flite', '-voice', voice, '-t', words, '-o', path,
            '--setf', f'duration_stretch={choose.uniform(0.75, 1.25):.2f}',
            '--setf', f'int_f0_target_mean={FLITE[voice] * choose.uniform(0.8, 1.5):.0f}']
    throat = choose.choice(THROATS)
    return throat, ['espeak-ng', '-v', f'{choose.choice(ACCENTS)}+{throat}',
                    '-s', str(choose.randint(115, 195)), '-p', str(choose.randint(20, 80)),
                    '-w', path, words]


def speak(prose, folder, count=COUNT):
    """Recordings of everything that is said; the sounds are made once."""
    os.makedirs(folder, exist_ok=True)
    choose, known, found = random.Random(20260901), spoken.dictionary_words(), []
    with tempfile.TemporaryDirectory() as scratch, ThreadPoolExecutor(2) as pool:
        def make(command, path, level):
            raw = os.path.join(scratch, os.path.basename(path))
            subprocess.run([raw if part == 'SOUND' else part for part in command],
                           check=True, capture_output=True)
            x = synthesise.samples(raw)
            os.remove(raw)
            x *= 10 ** (level / 20) * 32768 / max(synthesise.speech_level(x), 1)
            recordings.write_sound(path, x)
        jobs = []
        for i, words in enumerate(texts(choose, prose, count)):
            speaker, command = _command(choose, words, 'SOUND')
            level = choose.uniform(-32, -18)
            words = re.sub(r'[^a-z\' ]', ' ', words.lower())
            if not set(words.split()) <= known:
                continue
            path = os.path.join(folder, f'synthetic-{i:04d}.wav')
            found.append(recordings.Recording(f'synthetic-{i:04d}', path, 'synthetic',
                                              'synthetic ' + speaker, words, ''))
            if not os.path.exists(path):
                jobs.append(pool.submit(make, command, path, level))
        for job in jobs:
            job.result()
    return found
