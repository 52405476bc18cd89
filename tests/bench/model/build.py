"""Build the network that tells which part of which phone is said.

    python3 build.py SPEECH TARGET [--voices strangers|all] [--part N] [--work FOLDER]

SPEECH is the folder of recorded speech (its README says what is in it), TARGET
receives numbers.net and numbers.dict, FOLDER keeps what is made on the way (a
temporary one unless given). The network that is shipped is made with --voices
all; what is said of strangers (tests/bench/hearing, fit_search.py, and
fit_judge.py with --part) was measured with one made with --voices strangers
--part 0, which has not heard the voices that fit and judge, nor a third of the
people.

Needs numpy and PyTorch (python3-numpy, python3-torch), Debian's pocketsphinx,
pocketsphinx-en-us, sphinxbase-utils, sphinxtrain, flac, flite, espeak-ng and
sox, and the program's own tool `mean` in the build folder. Everything random
has a fixed seed; another processor or another version of the voices gives
another network, as good. Takes some two hours on two cores.
"""
import argparse
import os
import subprocess
import tempfile
from concurrent.futures import ProcessPoolExecutor

import torch

import aligning
import examples
import laying
import network
import recordings
import spoken
import synthetic

COUNT = 16000               # synthetic recordings
FIRST = 2500                # of them that the recogniser lays phones over
FIRST_PASSES, PASSES, LAST_PASSES = 2, 4, 3
LAST_STEP = 1e-3
WORST = 0.02                # of the synthetic recordings are left out: they say something else
MEAN = os.path.join(spoken.TOP, 'build', 'tests', 'bench', 'mean')
OUTPUTS = spoken.outputs()
SIZE = sum(map(len, OUTPUTS.values()))


def say(text):
    print(text, flush=True)


def gather(speech, voices, part, work):
    """Recordings to learn from: people's, and synthetic voices'."""
    known = spoken.dictionary_words()
    people = [rec for name in recordings.TRAINING_SETS
              for rec in recordings.read_corpus(speech, name)
              if rec.fold != part and set(rec.words.split()) <= known]
    prose = [rec.words for rec in people if rec.corpus != 'speech-commands']
    grammar = subprocess.run([MEAN, os.path.join(spoken.TOP, 'grammars'), '--grammar'], check=True,
                             capture_output=True, text=True).stdout
    voiced = synthetic.speak(prose, grammar, voices, f'{work}/spoken', COUNT)
    say(f'{len(people)} recordings of people, {len(voiced)} of synthetic voices, '
        f'{len({rec.speaker for rec in people + voiced})} speakers')
    return people, voiced


def first_labels(some, work):
    """What the recogniser says is right in each frame of each recording."""
    sounds = f'{work}/sounds'
    os.makedirs(sounds, exist_ok=True)
    for rec in some:
        random = examples.np.random.default_rng(recordings.seed_of(rec.key))
        recordings.write_sound(f'{sounds}/{rec.key}.wav',
                               recordings.pad(recordings.read_sound(rec.path), random))
    aligning.cepstra(some, sounds, f'{work}/cepstra')
    found = aligning.align(some, f'{work}/cepstra', f'{work}/aligned')
    return {rec: found[rec.key] for rec in some if rec.key in found}


def _lay(job):
    net, some, (mean, deviation), ways = job
    torch.set_num_threads(1)
    found = []
    for rec in some:
        heard = network.log_posteriors(net, (examples.plain(rec) - mean) / deviation)
        found.append((rec, laying.lay(heard, net.log_prior, rec.words.split(), ways, OUTPUTS)))
    return found


def labels_by(net, some, scale):
    """What a network says is right; without the synthetic recordings that fit worst."""
    ways = spoken.pronunciations({word for rec in some for word in rec.words.split()})
    with ProcessPoolExecutor(2) as pool:
        laid = [one for part in pool.map(_lay, [(net, some[k::40], scale, ways)
                                                for k in range(40)]) for one in part]
    laid = [(rec, *found) for rec, found in laid if found is not None]
    scores = sorted(score for rec, _, score in laid if rec.corpus == 'synthetic')
    least = scores[int(WORST * len(scores))]
    return {rec: right for rec, right, score in laid
            if rec.corpus != 'synthetic' or score >= least}


def build(speech, target, voices, part, work):
    people, voiced = gather(speech, voices, part, work)
    noises = recordings.read_noises(speech)
    scale = examples.scale_of(people[::20] + voiced[::200])
    labels = first_labels(people + voiced[:FIRST], work)
    net = network.train(examples.Examples(labels, noises, scale, FIRST_PASSES), SIZE, FIRST_PASSES,
                        say=say)
    net = network.train(
        examples.Examples(labels_by(net, people + voiced, scale), noises, scale, PASSES), SIZE,
        PASSES, say=say)
    net = network.train(
        examples.Examples(labels_by(net, people + voiced, scale), noises, scale, LAST_PASSES), SIZE,
        LAST_PASSES, say=say, net=net, step=LAST_STEP)
    os.makedirs(target, exist_ok=True)
    network.write(os.path.join(target, 'numbers.net'), net, *scale, OUTPUTS)
    with open(os.path.join(target, 'numbers.dict'), 'w') as f:
        f.write(spoken.dictionary(spoken.network_words()))


def main():
    parser = argparse.ArgumentParser(description=__doc__.split('\n\n')[0])
    parser.add_argument('speech')
    parser.add_argument('target')
    parser.add_argument('--voices', choices=('strangers', 'all'), default='all')
    parser.add_argument('--part', type=int, help='the third of the people to leave out')
    parser.add_argument('--work')
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as temporary:
        work = options.work or temporary
        os.makedirs(work, exist_ok=True)
        build(options.speech, options.target, options.voices, options.part, work)


if __name__ == '__main__':
    main()
