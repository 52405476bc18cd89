"""Build the network that tells number words apart, and say how well it does.

    python3 build.py SPEECH TARGET [WORK]

SPEECH is the folder of recorded speech (its README says what is in it), TARGET
receives numbers.net and numbers.dict, WORK keeps what is made on the way (a
temporary folder unless given). Needs numpy (quick only with OpenBLAS) and
Debian's pocketsphinx, pocketsphinx-en-us, sphinxbase-utils, sphinxtrain, flac,
flite, espeak-ng and sox. Everything random has a fixed seed; another processor
or another version of the voices gives another network, as good.

The figures are of speakers that the judging network never heard: for each
third of the speakers one is trained on the other two, and left in
WORK/without-0 to WORK/without-2, so that the program can be measured with it.
"""
import itertools
import os
import pickle
import re
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

os.environ.setdefault('OPENBLAS_NUM_THREADS', '1')      # the same sums every time

import numpy as np                                      # noqa: E402

import aligning                                         # noqa: E402
import recordings                                         # noqa: E402
import network                                          # noqa: E402
import rescoring                                        # noqa: E402
import spoken                                           # noqa: E402
import synthetic                                        # noqa: E402

# How often each disguise of a recording is learned from. Synthetic voices are
# many and alike; people are few and what counts.
REPEATED = {'synthetic': 1, 'an4': 2, 'speech-commands': 4, 'librispeech-oog': 2}


def say(text):
    print(text, flush=True)


def cepstra_path(work, change, rec):
    return f'{work}/cepstra/{change}/{rec.key}.mfc'


def make_features(clips, change, work, noises):
    """Cepstra of a changed copy of every clip; each is made once."""
    missing = [rec for rec in clips if not os.path.exists(cepstra_path(work, change, rec))]
    if missing:
        sounds = f'{work}/sounds/{change}'
        recordings.prepare(missing, change, sounds, noises)
        aligning.cepstra(missing, sounds, f'{work}/cepstra/{change}')


def examples(clips, labels, work):
    """(cepstra, right outputs) of every disguise of these clips.

    All but the plain ones lose a little of their edges, as endpointers do, so
    that the utterance's mean does not always rest on as much silence.
    """
    found = []
    for rec in clips:
        for change in recordings.disguises(rec) if rec.key in labels else ():
            cepstra = aligning.read_cepstra(cepstra_path(work, change, rec))
            _, pace = recordings.dice(change, rec.key)
            right = labels[rec.key]
            at = np.minimum((np.arange(len(cepstra)) * pace).astype(int), len(right) - 1)
            if change != 'plain':
                random = np.random.default_rng(recordings.seed_of('cut' + change + rec.key))
                head, tail = random.integers(0, 18, 2)
                cepstra, at = cepstra[head:len(cepstra) - tail], at[head:len(at) - tail]
            found += REPEATED[rec.corpus] * [(cepstra, right[at])]
    return found


def empty_rooms(noises, work):
    """(cepstra, silence) of the noises alone, and of next to nothing."""
    found, folder = [], f'{work}/noises'
    random = np.random.default_rng(0)
    clips = [recordings.Recording(f'noise-{i}', '', '', '', '', '') for i in range(len(noises) + 4)]
    os.makedirs(folder, exist_ok=True)
    for rec, noise in itertools.zip_longest(clips, noises):
        if noise is None:
            noise = random.normal(0, random.uniform(2, 40), 10 * recordings.RATE)
        recordings.write_sound(f'{folder}/{rec.key}.wav', noise)
    aligning.cepstra(clips, folder, folder)
    for rec in clips:
        cepstra = aligning.read_cepstra(f'{folder}/{rec.key}.mfc')
        for first in range(0, len(cepstra) - 100, 150):
            part = cepstra[first:first + random.integers(80, 400)]
            found.append((part, np.zeros(len(part), int)))
    return found


def sayable(grammar):
    """What a JSGF grammar without recursion can say, as a test of a text."""
    text = re.sub(r'#JSGF[^;]*;|grammar [^;]*;|//[^\n]*|/[0-9.]+/', ' ',
                  open(grammar).read())
    rules = dict(re.findall(r'<(\w+)>\s*=\s*([^;]*);', text))
    public = re.search(r'public\s+<(\w+)>', text).group(1)

    def expand(body):
        parts = []
        for token in re.findall(r"<\w+>|[\[\]()|*+]|[\w'-]+", body):
            if token[0] == '<':
                parts.append('(?:' + expand(rules[token[1:-1]]) + ')')
            elif token[0] in '[]()|*+':
                parts.append({'[': '(?:', ']': ')?', '(': '(?:'}.get(token, token))
            else:
                parts.append(re.escape(token) + ' ')
        return ''.join(parts)
    pattern = re.compile('(?:' + expand(rules[public]) + ')$')
    return lambda words: bool(pattern.match(words + ' '))


def tests(speech, sets):
    """(name, grammar, what it can say, recordings) of what is scored."""
    grammars = os.path.join(speech, 'grammars')
    numbers = [r for r in sets['an4'] if 'class=numbers' in r.notes]
    words = [r for r in sets['speech-commands'] if 'out-of-grammar' not in r.notes]
    for name, file, clips in (
            ('an4 numbers, structured', 'structured.gram', numbers),
            ('an4 numbers, any groups', 'labels.gram', numbers),
            ('speech-commands', 'words.gram', words),
            ('fsdd (never trained on)', 'words.gram', sets.get('fsdd', []))):
        grammar = os.path.join(grammars, file)
        can_say = sayable(grammar)
        yield name, grammar, can_say, [r for r in clips if can_say(r.words)]


def judge(speech, sets, nets, plain, work):
    """Print exact texts before and after, by networks that never heard the speaker."""
    vocabulary = {*spoken.network_words(), 'hundred', 'thousand'}
    ways = spoken.pronunciations(vocabulary)
    dictionary = f'{work}/judged.dict'
    with open(dictionary, 'w') as f:
        f.write(spoken.dictionary(spoken.pronunciations(vocabulary, own=False)))
    say(f'{"exact text":28}{"n":>5}{"decoder":>9}{"both":>9}{"among readings":>16}')
    for i, (name, grammar, can_say, clips) in enumerate(tests(speech, sets)):
        if not clips:
            continue
        found = rescoring.decode(clips, plain, grammar, dictionary, f'{work}/judged{i}')
        alone = both = among = 0
        for rec in clips:
            words, readings = found[rec.key]
            right = tuple(rec.words.split())
            cepstra = aligning.read_cepstra(f'{plain}/{rec.key}.mfc')
            best = rescoring.choose(nets[rec.fold], cepstra, found[rec.key], ways,
                                    can_say)[0][0]
            alone += words == right
            both += best == right
            among += any(w == right for w, _ in readings)
        n = len(clips)
        say(f'{name:28}{n:5}{100 * alone / n:8.1f}%{100 * both / n:8.1f}%{100 * among / n:15.1f}%')


def gather(speech, work):
    """(sets to judge by, what is learned from, its labels, noise to learn)."""
    noises = recordings.read_noises(speech)
    sets = {name: recordings.read_corpus(speech, name)
            for name in (*recordings.TRAINING_SETS, 'fsdd')
            if os.path.isdir(os.path.join(speech, name))}
    known = spoken.dictionary_words()
    people = [rec for name in recordings.TRAINING_SETS for rec in sets.get(name, [])]
    prose = [rec.words for rec in people if rec.corpus != 'speech-commands']
    taught = [rec for rec in people if set(rec.words.split()) <= known]
    learned = len(taught)
    taught += synthetic.speak(prose, f'{work}/spoken')
    say(f'{learned} recordings of people, {len(taught) - learned} of synthetic voices, '
        f'{len({r.speaker for r in taught})} speakers')
    make_features([*taught, *sets.get('fsdd', [])], 'plain', work, noises)
    for change in sorted({c for rec in taught for c in recordings.disguises(rec)}):
        make_features([r for r in taught if change in recordings.disguises(r)], change, work,
                      noises)
    labels = aligning.align(taught, f'{work}/cepstra/plain', f'{work}/aligned')
    return sets, taught, labels, empty_rooms(noises, work)


def build(speech, target, work):
    sets, taught, labels, silence = gather(speech, work)
    outputs = spoken.outputs()
    size = sum(map(len, outputs.values()))

    def trained(fold):
        """On everything, or on all speakers but those of one part."""
        kept = f'{work}/network-{fold}.pickle'
        if not os.path.exists(kept):
            heard = [rec for rec in taught if rec.fold != fold]
            net = network.train(examples(heard, labels, work) + silence, size,
                                say=lambda text: say(f'  without part {fold}: {text}'))
            with open(kept, 'wb') as f:
                pickle.dump(net, f)
        with open(kept, 'rb') as f:
            return pickle.load(f)
    with ThreadPoolExecutor(2) as pool:
        net, *nets = pool.map(trained, [None, *range(recordings.FOLDS)])
    for folder, made in ((target, net), *((f'{work}/without-{i}', n) for i, n in enumerate(nets))):
        os.makedirs(folder, exist_ok=True)
        network.write(os.path.join(folder, 'numbers.net'), made, outputs)
        with open(os.path.join(folder, 'numbers.dict'), 'w') as f:
            f.write(spoken.dictionary(spoken.network_words()))
    judge(speech, sets, nets, f'{work}/cepstra/plain', work)


def main():
    if len(sys.argv) not in (3, 4):
        sys.exit(__doc__.split('\n\n')[1].strip())
    speech, target = sys.argv[1:3]
    if len(sys.argv) == 4:
        os.makedirs(sys.argv[3], exist_ok=True)
        build(speech, target, sys.argv[3])
    else:
        with tempfile.TemporaryDirectory() as work:
            build(speech, target, work)


if __name__ == '__main__':
    main()
