#!/usr/bin/python3
"""Fits the judge's weights and thresholds, and writes audio/model/judge.txt.

Usage: fit_judge.py SYNTHETIC STRAYS [--write] [--keep FILE] [--part N]

SYNTHETIC is a folder made by `synthesise.py fit`, STRAYS one made by it with `strays`. The recorded sets come from shared/speech beside
the project, without its `sphinx-test` folder: those clips are what the tests are held against.

Every utterance is an example: right when what was heard means what was said, wrong otherwise (and
always wrong when it was no call at all). A logistic regression with a ridge turns the evidence into
a chance. It is cross-validated by speaker; the thresholds come from the cross-validated chances. Small
networks, and products of evidence, were tried in its place and did no better.
"""

import argparse
import hashlib
import json
import os
import sys

import numpy

import corpus
import voices

sys.path.insert(1, os.path.join(os.path.dirname(os.path.abspath(__file__)), "model"))
import recordings  # noqa: E402

FOLDS = 5
RIDGE = 1.0
WRONG_TAKEN = 0.017  # of all examples of a set that are no calls, or heard wrongly
UNASKED = 0.14  # of what is right is refused: with less, prose and talk are asked about too often
NAMES = ["ratio", "worst_ratio", "worst_stretch", "outside", "margin", "shortest", "pace",
         "level_db", "cover", "words"]


class Example:
    """What was heard of one clip, and whether it was right."""

    def __init__(self, evidence, right, speaker, kind):
        self.evidence, self.right, self.speaker, self.kind = evidence, right, speaker, kind
        self.values = [evidence.get(name, 0.0) for name in NAMES]


def of_grammar(clips, path, kind, *options):
    """Clips held against a grammar: those that it can say, and those that it cannot."""
    can_say = corpus.sayable(path)
    heard = corpus.hear([clip.path for clip in clips], "--whole", "--grammar", path, *options)
    for clip in clips:
        for found in heard[clip.path]:
            if not found["text"]:
                continue
            if clip.words and can_say(clip.words):
                yield Example(found["evidence"], found["text"] == clip.words, clip.speaker, kind)
            else:
                yield Example(found["evidence"], False, clip.speaker, kind + ", no call")


def of_station(clips, kind):
    """Clips held against the station's grammar, cut by the endpointer. What somebody said may be a
    call ("help", "repeat") though the set is not of calls: right is what means the same, or where it
    was cut apart, a part of that."""
    heard = corpus.hear([clip.path for clip in clips])
    plain = lambda text: [{key: value for key, value in call.items() if key != "correction"}
                          for call in json.loads(text)]
    meant = dict(zip((c.path for c in clips), map(plain, corpus.meanings([c.words for c in clips]))))
    found = [(clip, one) for clip in clips for one in heard[clip.path] if one["text"]]
    for (clip, one), mean in zip(found, map(plain, corpus.meanings([one["text"] for _, one in found]))):
        whole = len(heard[clip.path]) == 1 and mean == meant[clip.path]
        part = len(heard[clip.path]) > 1 and all(call in meant[clip.path] for call in mean)
        yield Example(one["evidence"], mean != [] and (whole or part), clip.speaker, kind)


def synthetic(folder):
    clips = []
    for line in open(os.path.join(folder, "calls.tsv")):
        path, voice, words, _ = line.rstrip("\n").split("\t")
        clips.append(corpus.Clip(path, voice, words, "", "synthetic"))
    return clips


def gather(folder, strays, part):
    """Everything; of the speakers whose voices the network may have learned, one part only where it
    is given: the one that was kept from the network."""
    def load(name):
        return [clip for clip in corpus.load(name)
                if part is None or recordings.part_of(clip.speaker) == part]
    an4 = load("an4")
    numbers = [clip for clip in an4 if "class=numbers" in clip.notes]
    others = [clip for clip in an4 if "class=numbers" not in clip.notes]
    commands = load("speech-commands")
    examples = []
    examples += of_grammar(numbers, corpus.grammar("structured"), "labels")
    examples += of_grammar(others, corpus.grammar("structured"), "labels")
    examples += of_grammar(commands, corpus.grammar("words"), "single words")
    examples += of_grammar(corpus.load("fsdd"), corpus.grammar("words"), "single words")
    for name in ["librispeech-oog", "meeting-oog", "spoken-orders-oog", "noise"]:
        examples += of_station(corpus.load(name), name)
    examples += of_station(others, "an4, no call")
    examples += of_station(commands, "short words, no call")
    examples += of_station(synthetic(folder), "station calls")
    examples += of_station(synthetic(strays), "strays")
    examples += of_grammar(synthetic(strays), corpus.grammar("words"), "strays")
    examples += of_grammar(synthetic(strays)[::3], corpus.grammar("structured"), "strays")
    return examples


def fit(x, y, weight):
    """Logistic regression by Newton's method."""
    x1 = numpy.hstack([x, numpy.ones((len(x), 1))])
    w = numpy.zeros(x1.shape[1])
    ridge = RIDGE * numpy.eye(len(w))
    ridge[-1, -1] = 0
    for _ in range(60):
        p = 1 / (1 + numpy.exp(-(x1 @ w)))
        gradient = x1.T @ (weight * (p - y)) + ridge @ w
        hessian = (x1 * (weight * p * (1 - p))[:, None]).T @ x1 + ridge
        step = numpy.linalg.solve(hessian, gradient)
        w -= step
        if abs(step).max() < 1e-8:
            break
    return w


def fold_of(speaker):
    return int(hashlib.md5(speaker.encode()).hexdigest(), 16) % FOLDS


def cross_validate(x, y, weight, folds):
    chance = numpy.zeros(len(y))
    for fold in range(FOLDS):
        held = folds == fold
        w = fit(x[~held], y[~held], weight[~held])
        chance[held] = 1 / (1 + numpy.exp(-(numpy.hstack([x[held], numpy.ones((held.sum(), 1))])
                                            @ w)))
    return chance


def taken_at(chance, y, wrong):
    """From which chance on so large a share of all examples is taken wrongly, and what share of those
    that are right is taken then."""
    take = float(numpy.sort(chance[y == 0])[-1 - int(wrong * len(y))])
    return take, (chance[y == 1] > take).mean()


def reliability(chance, y):
    print("\nreliability, cross-validated: chance said, how often right, n")
    edges = [0, .02, .1, .3, .5, .7, .85, .95, .99, 1.0001]
    for low, high in zip(edges, edges[1:]):
        inside = (chance >= low) & (chance < high)
        if inside.any():
            print(f"  {low:4.2f} to {min(high, 1):4.2f}   {chance[inside].mean():.3f}   "
                  f"{y[inside].mean():.3f}   {inside.sum()}")


def by_kind(kinds, chance, y, take, doubt):
    print(f"\nat take {take:.4f}, doubt {doubt:.4f}, cross-validated")
    print(f"{'':24s}{'n':>6s}{'right':>7s}{'taken right':>13s}{'taken wrong':>13s}{'doubted':>9s}")
    for kind in sorted(set(kinds)):
        inside = kinds == kind
        n, c, r = inside.sum(), chance[inside], y[inside]
        print(f"{kind:24s}{n:6d}{r.mean():7.3f}{(r * (c >= take)).mean():13.3f}"
              f"{((1 - r) * (c >= take)).mean():13.3f}{((c < take) & (c >= doubt)).mean():9.3f}")


def softest():
    """How far under a wearer's usual level his own calls fall: all but one in five hundred of the
    census speakers', who each sat at one microphone. What is softer is somebody else."""
    by_speaker = {}
    for clip in corpus.load("an4"):
        power_db = 10 * numpy.log10((voices.frames_of(voices.samples(clip.path), 160) ** 2).mean(1) + 1)
        by_speaker.setdefault(clip.speaker, []).append(numpy.percentile(power_db, 95))
    drops = [numpy.median(levels) - level for levels in by_speaker.values() if len(levels) > 2
             for level in levels]
    return float(numpy.quantile(drops, 0.998))


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("synthetic")
    parser.add_argument("strays")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--part", type=int, help="the speakers kept from the network")
    parser.add_argument("--keep", help="a file to keep the examples in, or to take them from")
    options = parser.parse_args()
    if options.keep and os.path.exists(options.keep):
        examples = [Example(*json.loads(line)) for line in open(options.keep)]
    else:
        examples = gather(options.synthetic, options.strays, options.part)
    if options.keep and not os.path.exists(options.keep):
        with open(options.keep, "w") as file:
            for e in examples:
                file.write(json.dumps([e.evidence, bool(e.right), e.speaker, e.kind]) + "\n")
    if not examples:
        sys.exit("no examples: shared/speech is not there")
    x = numpy.array([e.values for e in examples])
    y = numpy.array([float(e.right) for e in examples])
    kinds = numpy.array([e.kind for e in examples])
    folds = numpy.array([fold_of(e.speaker) for e in examples])
    weight = numpy.ones(len(y))
    middle, spread = x.mean(0), x.std(0) + 1e-9
    scaled = (x - middle) / spread
    chance = cross_validate(scaled, y, weight, folds)
    reliability(chance, y)
    print("\ntaken of what is right, where so many are taken wrongly")
    for wrong in (0.002, 0.005, 0.01, 0.02):
        print(f"  {100 * wrong:.1f} %: {taken_at(chance, y, wrong)[1]:.3f}")
    take = max(taken_at(chance, y, WRONG_TAKEN)[0], 0.5)
    doubt = min(float(numpy.quantile(chance[y == 1], UNASKED)), take)
    by_kind(kinds, chance, y, take, doubt)
    w = fit(scaled, y, weight)
    plain = w[:-1] / spread
    intercept = w[-1] - (plain * middle).sum()
    lines = ["# Weights of the judge, made by tests/bench/fit_judge.py from recorded and synthetic",
             "# speech; see there. Not typed in: do not edit.",
             f"intercept {intercept:.6f}"]
    lines += [f"{name} {value:.6f}" for name, value in zip(NAMES, plain)]
    lines += [f"take_from {take:.5f}", f"doubt_from {doubt:.5f}", f"near_from {doubt / 2:.5f}",
              f"other_voice_db {softest():.1f}"]
    print("\n" + "\n".join(lines))
    if options.write:
        path = os.path.join(corpus.TOP, "audio", "model", "judge.txt")
        os.makedirs(os.path.dirname(path), exist_ok=True)
        open(path, "w").write("\n".join(lines) + "\n")
        print("written:", path)


if __name__ == "__main__":
    main()
