"""Calls, numbers and prose spoken by synthetic voices, to learn from beside people.

Two choices of voices: `strangers` leaves out every voice that fits the judge or
that hearing is measured on (VOICES in ../synthesise.py), and what shares their
throat, so that what is then measured on those is measured on strangers; `all`
has every throat but those that measure. A voice and its variants count as one
speaker.
"""
import os
import random
import re
import subprocess
import tempfile
from concurrent.futures import ThreadPoolExecutor

import numpy as np

import recordings
import spoken
import walking

FLITE_SHARE = 0.45          # of what is said, by the voices most like people
PITCH_HZ = {'awb': 120, 'kal': 105, 'kal16': 105, 'rms': 105, 'slt': 175}
FLITE = {'strangers': ['awb', 'awb', 'kal', 'kal16'],
         'all': ['awb', 'awb', 'rms', 'rms', 'slt', 'slt', 'kal', 'kal16']}
FESTIVAL_SHARE = 0.2        # of those that hear its voices
FESTIVAL = {'all': {'ked': 'voice_ked_diphone', 'slt': 'voice_cmu_us_slt_arctic_hts'}}
ACCENTS = ('en-us en-us en-us en-gb en-gb en-gb-x-rp en-029 en-gb-x-gbclan '
           'en-gb-x-gbcwmd').split()
THROATS = {'strangers': (
    'm1 m2 m4 m5 m6 m8 f1 f4 f5 klatt klatt2 klatt3 klatt4 adam Alex Alicia Andy Annie anika '
    'antonio aunty belinda benjamin boris caleb david Denis Diogo ed edward gustave Hugo iven '
    'john Lee linda Marco max Michael michel Mike miguel norbert pablo paul pedro quincy rob '
    'robert sandro shelby steph travis victor zac').split()}
THROATS['all'] = THROATS['strangers'] + 'm3 f2'.split()
SPEAKER = {'kal16': 'kal'}
LEVELS_DB = -34, -14


def _number(choose):
    """A number said in groups, as in an address, a date or on a label."""
    digits = 'one two three four five six seven eight nine'.split()
    teens = ('ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen '
             'nineteen').split()
    tens = 'twenty thirty forty fifty sixty seventy eighty ninety'.split()
    groups = [choose.choice([lambda: choose.choice([*digits, 'oh', 'zero']),
                             lambda: choose.choice(teens),
                             lambda: choose.choice(tens),
                             lambda: f'{choose.choice(tens)} {choose.choice(digits)}'])()
              for _ in range(choose.randint(1, 5))]
    return ' '.join(groups)


def _words(grammar):
    """Every word that a grammar has."""
    def found(ways):
        for _, sequence in ways:
            for part in sequence:
                if isinstance(part, list):
                    yield from found(part)
                elif part[0] != '<':
                    yield part
    return sorted({word for ways in grammar.rules.values() for word in found(ways)})


def texts(choose, prose, grammar, count):
    """What is said: calls of every place, numbers, words at random, and prose."""
    words, own = _words(grammar), sorted(spoken.network_words())
    for _ in range(count):
        kind = choose.random()
        if kind < 0.40:
            yield ' '.join(grammar.walk(choose, 'item'))
        elif kind < 0.52:
            yield ' '.join(grammar.walk(choose, 'measure_call'))
        elif kind < 0.58:
            yield ' '.join(grammar.walk(choose, 'call') + grammar.walk(choose, 'call'))
        elif kind < 0.64:
            yield ' '.join(grammar.walk(choose, choose.choice(['question', 'asked', 'order'])))
        elif kind < 0.74:
            yield _number(choose)
        elif kind < 0.80:
            yield ' '.join(choose.choices(words, k=choose.randint(1, 4)))
        elif kind < 0.90:       # those that have phones of their own, alone
            yield choose.choice(own)
        else:
            said = choose.choice(prose).split()
            first = choose.randrange(max(1, len(said) - 7))
            yield ' '.join(said[first:first + choose.randint(2, 9)])


def _command(choose, words, voices, path):
    """(speaker, command that speaks) by a voice, pace and pitch drawn at random."""
    if voices in FESTIVAL and choose.random() < FESTIVAL_SHARE:
        speaker = choose.choice(list(FESTIVAL[voices]))
        said = re.sub(r'[^A-Za-z\' ]', ' ', words)
        return speaker, [
            'festival', '-b', f'(begin ({FESTIVAL[voices][speaker]}) '
            f"(Parameter.set 'Duration_Stretch {choose.uniform(0.75, 1.25):.2f}) (utt.save.wave "
            f'(utt.synth (Utterance Text "{said}")) "SOUND"))']
    if choose.random() < FLITE_SHARE:
        voice = choose.choice(FLITE[voices])
        return SPEAKER.get(voice, voice), [
            'flite', '-voice', voice, '-t', words, '-o', path,
            '--setf', f'duration_stretch={choose.uniform(0.72, 1.3):.2f}',
            '--setf', f'int_f0_target_mean={PITCH_HZ[voice] * choose.uniform(0.75, 1.5):.0f}']
    throat = choose.choice(THROATS[voices])
    return throat, ['espeak-ng', '-v', f'{choose.choice(ACCENTS)}+{throat}',
                    '-s', str(choose.randint(110, 210)), '-p', str(choose.randint(15, 85)),
                    '-w', path, words]


def _samples(path):
    raw = subprocess.run(['sox', path, '-r', '16000', '-c', '1', '-b', '16', '-e', 'signed', '-t',
                          'raw', '-'], capture_output=True, check=True).stdout
    return np.frombuffer(raw, np.int16).astype(float)


def _make(command, path, level_db):
    """Speak to a file: silence at the ends cut off, as loud as asked."""
    with tempfile.NamedTemporaryFile(suffix='.wav') as raw:
        subprocess.run([part.replace('SOUND', raw.name) for part in command], check=True,
                       capture_output=True)
        x = _samples(raw.name)
    loud = np.flatnonzero(np.abs(x) > np.abs(x).max() / 300)
    if len(loud) == 0:
        return
    x = x[max(0, loud[0] - 800):loud[-1] + 800]
    frames = (x[:len(x) // 160 * 160].reshape(-1, 160) ** 2).mean(1)
    x *= 10 ** (level_db / 20) * 32768 / np.sqrt(frames[frames > frames.max() / 316].mean())
    recordings.write_sound(path, x)


def speak(prose, grammar, voices, folder, count):
    """Recordings of everything that is said; the sounds are made once."""
    os.makedirs(folder, exist_ok=True)
    grammar = walking.Grammar(grammar)
    choose, known, found = random.Random(20260901), spoken.dictionary_words(), []
    with ThreadPoolExecutor(2) as pool:
        jobs = []
        for i, words in enumerate(texts(choose, prose, grammar, count)):
            speaker, command = _command(choose, words, voices, 'SOUND')
            level_db = choose.uniform(*LEVELS_DB)
            words = re.sub(r'[^a-z\' ]', ' ', words.lower())
            if not words.strip() or not set(words.split()) <= known:
                continue
            path = os.path.join(folder, f'{voices}-{i:05d}.wav')
            found.append(recordings.Recording(f'{voices}-{i:05d}', path, 'synthetic',
                                              'synthetic ' + speaker, words, ''))
            if not os.path.exists(path):
                jobs.append(pool.submit(_make, command, path, level_db))
        for job in jobs:
            job.result()
    return [rec for rec in found if os.path.exists(rec.path)]
