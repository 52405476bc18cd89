"""What a recording could be taken for: its words with one of them changed for another that sounds much
like it, left out or put in, laid over what is heard.

A network that learns frame by frame is as glad of a frame of "sleeve" as of any other. That the whole
of "sleeve" should stand out against the whole of "sweep" it learns from these: minimum classification
error (Juang and Katagiri, 1992), with the rivals laid beforehand.
"""
import json
import subprocess
from concurrent.futures import ProcessPoolExecutor

import numpy as np
import torch

import examples
import laying
import network
import recordings
import spoken

TRIED, KEPT = 5, 2          # rivals of a recording: made, and the best that are kept
HEARD = 3                   # of what the program heard, the best
FAR = 3.5                   # steps at most between a word and what it is changed for
LEFT_OUT, PUT_IN = 0.12, 0.12  # instead of changed
SHORT = 4                   # sounds at most of what is left out or put in
SOFTNESS = 0.5              # of choosing among near words, in steps

_ALIKE = ['P B', 'T D', 'K G', 'CH JH SH ZH', 'S Z', 'F V TH DH', 'M N NG', 'L R W Y', 'B D G',
          'P T K HH', 'S SH', 'F S TH', 'IY IH EY EH', 'EH AE AH', 'AA AO AH AW OW', 'UW UH OW',
          'AY AA OY', 'ER AH R', 'V W', 'D DH', 'T TH']
_PAIRS = {(a, b) for group in _ALIKE for a in group.split() for b in group.split()}
_WEAK = set('HH T D P K Y AH IH'.split())
# Words that may stand for each other, or be there or not, without changing what is meant.
_SAME = [{'a', 'one'}, {'eighth', 'eighths'}, {'quarter', 'quarters'}, {'inch', 'inches'},
         {'sixteenth', 'sixteenths'}, {'centimetre', 'centimetres'}]
_EMPTY = {'and'}


def _sounds(way):
    """Sounds of a way of saying something, whoever owns the phones."""
    return [phone[1:].split('_')[0] if phone[0] == 'z' else phone for phone in way.split()]


def distance(one, other):
    """How far apart two lists of sounds are: steps of an edit."""
    costs = [[0.0]]
    for b in other:
        costs[0].append(costs[0][-1] + (0.5 if b in _WEAK else 0.8))
    for a in one:
        drop = 0.5 if a in _WEAK else 0.8
        row = [costs[-1][0] + drop]
        for k, b in enumerate(other):
            change = 0 if a == b else 0.5 if (a, b) in _PAIRS else 1
            row.append(min(costs[-1][k] + change, costs[-1][k + 1] + drop,
                           row[-1] + (0.5 if b in _WEAK else 0.8)))
        costs.append(row)
    return costs[-1][-1]


class Confusions:
    """Which words what is said may be taken for. `ways`: word -> its ways of being said; `texts`: what
    may be heard, of which every two words that follow each other may."""

    def __init__(self, ways, texts):
        sounds = {word: [_sounds(way) for way in some] for word, some in ways.items()}
        self.follows = {pair for text in texts for pair in zip(('', *text), (*text, ''))}
        vocabulary = sorted({word for text in texts for word in text})
        self.short = [word for word in vocabulary
                      if len(sounds[word][0]) <= SHORT and word not in _EMPTY]
        self.near = {}
        for word, some in sounds.items():
            found = []
            for other in vocabulary:
                others = sounds[other]
                if abs(len(some[0]) - len(others[0])) <= 4:
                    apart = min(distance(a, b) for a in some for b in others)
                    if 0 < apart <= FAR and {word, other} not in _SAME:
                        found.append((other, apart))
            self.near[word] = found

    def _may_stand(self, before, word, after):
        return (before, word) in self.follows and (word, after) in self.follows

    def rival(self, words, random):
        """Other words that may be heard where these are said, or the same where there are none."""
        words = ['', *words, '']
        at, chance = random.integers(1, len(words) - 1), random.random()
        if chance < LEFT_OUT and words[at] in self.short and (
                words[at - 1], words[at + 1]) in self.follows:
            del words[at]
        elif chance < LEFT_OUT + PUT_IN:
            fit = [word for word in self.short
                   if self._may_stand(words[at], word, words[at + 1])]
            if fit:
                words.insert(at + 1, fit[random.integers(len(fit))])
        else:
            fit = [(word, apart) for word, apart in self.near[words[at]]
                   if self._may_stand(words[at - 1], word, words[at + 1])]
            if fit:
                weight = np.exp(-np.array([apart for _, apart in fit]) / SOFTNESS)
                words[at] = fit[random.choice(len(fit), p=weight / weight.sum())][0]
        return words[1:-1]


def heard(program, some):
    """key -> what else the program hears in recordings, by the station's grammar: of people, most of
    whose words are no calls."""
    lines = subprocess.run([program, 'hear', '--whole', *(rec.path for rec in some)],
                           capture_output=True, text=True, check=True).stdout.splitlines()
    of_path = {found['file']: [found['text'], *(other['text'] for other in found['alternatives'])]
               for found in map(json.loads, lines)}
    known = spoken.dictionary_words()
    return {rec.key: [text for text in of_path.get(rec.path, [])[:HEARD]
                      if text and text != rec.words and set(text.split()) <= known] for rec in some}


def _lay(job):
    net, some, (mean, deviation), ways, confusions, outputs, others = job
    torch.set_num_threads(1)
    found = {}
    for rec in some:
        random = np.random.default_rng([recordings.seed_of(rec.key), 7])
        words = rec.words.split()
        texts = {' '.join(confusions.rival(words, random)) for _ in range(TRIED)}
        texts |= set(others.get(rec.key, []))
        heard = network.log_posteriors(net, (examples.plain(rec) - mean) / deviation)
        laid = [laying.lay(heard, net.log_prior, text.split(), ways, outputs)
                for text in sorted(texts - {rec.words})]
        laid = sorted((one for one in laid if one is not None), key=lambda one: -one[1])
        if laid:
            found[rec] = [right for right, _ in laid[:KEPT + len(others.get(rec.key, []))]]
    return found


def lay(net, some, scale, ways, texts, outputs, others):
    """recording -> what would be right in each frame if one of its rivals were. `ways`: of all words
    there are; `texts`: lists of words that may be heard; `others`: key of a recording -> texts that it
    was taken for."""
    confusions = Confusions(ways, texts)
    found = {}
    with ProcessPoolExecutor(2) as pool:
        for part in pool.map(_lay, [(net, some[k::60], scale, ways, confusions, outputs, others)
                                    for k in range(60)]):
            found.update(part)
    return found
