"""Build the networks that the ears hear with: numbers.net, which tells which part of which phone is
said, and presence.net, which tells whether anybody speaks.

    python3 build.py SPEECH TARGET [--labels-by NETWORK] [--grow NETWORK] [--work FOLDER]

SPEECH is the folder of recorded speech (its README says what is in it), TARGET receives the networks
and numbers.dict, FOLDER keeps what is made on the way (a temporary one unless given). The first labels
are those of NETWORK, or else of the recogniser. From then on it also learns what each recording could
be taken for (rivals.py).

A first network hears none of the voices that fit and judge, nor a third of the people (part
LEFT_OUT). It is written to TARGET/strangers: what is said of strangers is measured with it, and
fit_judge.py and fit_search.py fit with it. Then some more passes are made with all voices and people,
and half of what it has heard: of the same network, or of another one (--grow), with layers more if it
has fewer than DEPTH. That which is shipped grew so out of the ones that were shipped before it.

Needs numpy and PyTorch (python3-numpy, python3-torch), Debian's pocketsphinx,
pocketsphinx-en-us, sphinxbase-utils, sphinxtrain, flac, flite, espeak-ng, festival with
festvox-kdlpc16k and festvox-us-slt-hts, and sox, and the program's own tool `mean` in the build folder. Everything random
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
import presence
import recordings
import rivals
import spoken
import synthetic

LEFT_OUT = 0                # the part of the people that the first network does not hear
COUNTS = {'strangers': 18000, 'all': 7000}  # synthetic recordings
FIRST = 2500                # of them that the recogniser lays phones over
FIRST_PASSES, PASSES, LAST_PASSES = 2, 6, 2
LAST_STEP = 4e-4
DEPTH, MORE, MORE_PASSES, MORE_STEP = 7, (320, (-8, 0, 8)), 3, 6e-4  # of one that grows
WORST = 0.02                # of the synthetic recordings are left out: they say something else
MEAN = os.path.join(spoken.TOP, 'build', 'tests', 'bench', 'mean')
LAPEL = os.path.join(spoken.TOP, 'build', 'lapel')
OUTPUTS = spoken.outputs()
SIZE = sum(map(len, OUTPUTS.values()))


def say(text):
    print(text, flush=True)


def gather(speech, work):
    """Recordings to learn from: people's, and those of both choices of synthetic voices."""
    known = spoken.dictionary_words()
    people = [rec for name in recordings.TRAINING_SETS
              for rec in recordings.read_corpus(speech, name) if set(rec.words.split()) <= known]
    prose = [rec.words for rec in people
             if rec.corpus != 'speech-commands' and rec.fold != LEFT_OUT]
    grammar = subprocess.run([MEAN, os.path.join(spoken.TOP, 'grammars'), '--grammar'], check=True,
                             capture_output=True, text=True).stdout
    voiced = {voices: synthetic.speak(prose, grammar, voices, f'{work}/spoken', count)
              for voices, count in COUNTS.items()}
    say(f'{len(people)} recordings of people, {sum(map(len, voiced.values()))} of synthetic voices')
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


def labels_of(net, some, scale):
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


def rivals_of(net, people, voiced, scale):
    """What the recordings could be taken for. A third of the people stays strange to the first
    network, and so to what it learns from these."""
    prose = {rec.words for rec in people}
    texts = [rec.words.split() for rec in voiced if rec.words not in prose]
    heard = rivals.heard(LAPEL, people)
    words = {word for rec in people + voiced for word in rec.words.split()}
    words |= {word for some in heard.values() for text in some for word in text.split()}
    return rivals.lay(net, people + voiced, scale, spoken.pronunciations(words), texts, OUTPUTS, heard)


def learn(some, labels, taken_for, noises, scale, passes, **more):
    """A network from recordings: their labels by frame, and those of their rivals, in noises."""
    found = examples.Examples(examples.vary([rec for rec in some if rec in labels]), noises)
    return network.train(lambda number: found.of_pass(number, labels, scale, taken_for), SIZE, passes,
                         say=say, **more), found


def write(folder, net, scale, presence_net):
    os.makedirs(folder, exist_ok=True)
    network.write(os.path.join(folder, 'numbers.net'), net, *scale, OUTPUTS)
    presence.write(os.path.join(folder, 'presence.net'), presence_net)
    with open(os.path.join(folder, 'numbers.dict'), 'w') as f:
        f.write(spoken.dictionary(spoken.network_words()))


def build(speech, target, labels_by, grow, work):
    people, voiced = gather(speech, work)
    noises = recordings.read_noises(speech)
    near = [rec for rec in people if rec.fold != LEFT_OUT]
    scale = examples.scale_of(near[::20] + voiced['strangers'][::200])
    if labels_by:
        net, *scale_then, _ = network.read(labels_by)
    else:
        first = near + voiced['strangers'][:FIRST]
        net, scale_then = learn(first, first_labels(first, work), {}, noises, scale,
                                FIRST_PASSES)[0], scale
    everything = people + voiced['strangers'] + voiced['all']
    labels = labels_of(net, everything, scale_then)
    taken_for = rivals_of(net, people, voiced['strangers'] + voiced['all'], scale_then)
    net, found = learn(near + voiced['strangers'], labels, taken_for, noises, scale, PASSES)
    heard = presence.train(found, labels, say=say)
    write(os.path.join(target, 'strangers'), net, scale, heard)
    known = [rec for rec in voiced['strangers'] if recordings.seed_of(rec.key) % 2]
    some, passes, step = people + known + voiced['all'], LAST_PASSES, LAST_STEP
    if grow:
        old, *scale, _ = network.read(grow)
        sounds = examples.Examples(examples.vary(some[::20]), noises)
        net = network.grown(old, [MORE] * (DEPTH - len(old.shape)),
                            sounds.of_pass(99, labels, scale, {}))
        passes, step = MORE_PASSES, MORE_STEP
    net, _ = learn(some, labels, taken_for, noises, scale, passes, net=net, step=step)
    write(target, net, scale, heard)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split('\n\n')[0])
    parser.add_argument('speech')
    parser.add_argument('target')
    parser.add_argument('--labels-by', metavar='NETWORK', help='begin with what this one says')
    parser.add_argument('--grow', metavar='NETWORK', help='ship this one, grown and taught more')
    parser.add_argument('--work')
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as temporary:
        work = options.work or temporary
        os.makedirs(work, exist_ok=True)
        build(options.speech, options.target, options.labels_by, options.grow, work)


if __name__ == '__main__':
    main()
