"""Choosing among the decoder's readings with the network's help.

The decoder gives up to READINGS readings with their scores. Those that the
grammar cannot say are dropped (its lattice forgets the grammar). Each of the
rest is laid over the frames once more, by what the network says of them, and
the scores are added. The program does the same in C; this is the reference.
"""
import math
import os
import re
import subprocess

import numpy as np

import aligning
import spoken

READINGS = 20
DECODER_UNIT = 1024 * math.log(1.0001)      # one step of a decoder score, in nats
NETWORK_SHARE = 1.0                         # weight of the network's score
WORD_COST = 30.0                            # nats for every word of a reading
BEST_BONUS = 5.0                            # nats for what the decoder chose itself
PRIOR_SHARE = 0.6                           # how much of the priors is taken off
OUTPUTS = spoken.outputs()
NEVER = -1e30


def scores(net, cepstra):
    """[frame, output] likelihoods up to a constant, in nats."""
    return net.log_posteriors(cepstra) - PRIOR_SHARE * net.log_prior


def _states(words, ways):
    """A reading as states: their outputs, predecessors, starts and ends.

    Between words, and around them, there may be silence.
    """
    out, before, starts = [OUTPUTS['SIL'][0]], [[]], [0]
    ends = [0]
    for i, word in enumerate(words):
        chains = [[o for p in way.split() for o in OUTPUTS[p]] for way in ways[word]]
        lasts = []
        for chain in chains:
            for k, o in enumerate(chain):
                if k == 0 and i == 0:
                    starts.append(len(out))
                before.append(ends if k == 0 else [len(out) - 1])
                out.append(o)
            lasts.append(len(out) - 1)
        before.append(lasts)
        out.append(OUTPUTS['SIL'][0])
        ends = lasts + [len(out) - 1]
    return out, before, starts, ends


def lay(frames, readings, ways):
    """The best score of each reading (a list of words), all laid side by side."""
    out, before, starts, ends = [], [], [], []
    for words in readings:
        o, b, s, e = _states(words, ways)
        shift = len(out)
        out += o
        before += [[x + shift for x in preds] for preds in b]
        starts += [x + shift for x in s]
        ends.append([x + shift for x in e])
    most = max(map(len, before)) + 1
    table = np.array([[i] + b + [i] * (most - 1 - len(b)) for i, b in enumerate(before)])
    now = np.full(len(out), NEVER)
    now[starts] = frames[0, np.array(out)[starts]]
    for frame in frames[1:]:
        now = now[table].max(1) + frame[out]
    return np.array([now[e].max() for e in ends])


def read_nbest(path):
    """[(words, decoder score)], best of each text, or nothing."""
    best = {}
    if os.path.exists(path):
        for line in open(path):
            fields = line.split()
            words = tuple(re.sub(r'\(\d+\)$', '', w) for w in fields[:-1]
                          if w[0] not in '<[+')
            if words and words not in best:
                best[words] = int(fields[-1])
    return list(best.items())[:READINGS]


def decode(recordings, features, grammar, dictionary, folder):
    """key -> (the decoder's own best words, its readings)."""
    os.makedirs(folder, exist_ok=True)

    def job(k, part):
        aligning.run(
            ['pocketsphinx_batch', '-hmm', f'{spoken.SHIPPED}/en-us', '-dict', dictionary,
             '-jsgf', grammar, '-ctl', aligning.keys_to(f'{folder}/{k}.ctl', part),
             '-cepdir', features, '-cepext', '.mfc', '-hyp', f'{folder}/{k}.hyp',
             '-nbest', str(5 * READINGS), '-nbestdir', folder, *aligning.DECODER],
            f'{folder}/{k}.log')
        return open(f'{folder}/{k}.hyp').read().splitlines()
    found = {}
    for line in sum(aligning.halves(recordings, job), []):
        text, key = re.fullmatch(r'(.*)\((\S+) \S+\)', line).groups()
        words = tuple(re.sub(r'\(\d+\)$', '', w) for w in text.split() if w[0] not in '<[+')
        found[key] = words, read_nbest(f'{folder}/{key}.hyp') or [(words, 0)]
    return found


def choose(net, cepstra, heard, ways, can_say):
    """Readings with their totals in nats, best first.

    `heard` is what `decode` gives for an utterance. The decoder's own best
    costs more to leave: its scores of the others lack the grammar's weights.
    """
    best, readings = heard
    if not best:
        return [((), 0.0)]
    if all(words != best for words, _ in readings):
        readings = readings + [(best, min((s for _, s in readings), default=0))]
    readings = [(words, s) for words, s in readings
                if words == best or can_say(' '.join(words))]
    laid = lay(scores(net, cepstra), [words for words, _ in readings], ways)
    total = [s * DECODER_UNIT + NETWORK_SHARE * n - WORD_COST * len(words)
             + BEST_BONUS * (words == best) for (words, s), n in zip(readings, laid)]
    order = np.argsort(total)[::-1]
    return [(readings[i][0], total[i]) for i in order]
