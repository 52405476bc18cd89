#!/usr/bin/python3
"""Fits what the search weighs: the grammar's share, the cost of a word, and the recogniser's share.

Usage: fit_search.py FOLDER SYNTHETIC [COUNT]

FOLDER holds grammars/ and audio/model; with a network that has not heard the speakers whose part is
given in FOLDER/part (a number, as tests/bench/model/recordings.py counts them), those alone are
scored. SYNTHETIC is a folder made by `synthesise.py fit`. Prints how much of each set is right for
every combination; the best mean over the sets belongs into search_usual (src/ears/search.c) and
choosing.c.
"""

import itertools
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

import corpus

sys.path.insert(1, os.path.join(os.path.dirname(os.path.abspath(__file__)), "model"))
import recordings  # noqa: E402

TOOL = os.path.join(corpus.TOP, "build", "tests", "bench", "candidates")
MEAN = os.path.join(corpus.TOP, "build", "tests", "bench", "mean")
NATS_A_STEP = 0.102395
LANGUAGE_SHARES = [2, 4, 7, 11, 16]
WORD_COSTS = [0, 8, 16]
RECOGNISER_SHARES = [0, 0.2, 0.4, 0.7, 1.0, 1.5, 2.5]


def candidates(folder, weights, grammar, paths):
    """For each path the sentences found: (network's score, recogniser's score, text)."""
    def run(part):
        done = subprocess.run([TOOL, folder, *map(str, weights), *grammar, *part],
                              capture_output=True, text=True, check=True)
        return done.stdout.splitlines()
    found, path = {}, None
    with ThreadPoolExecutor(2) as pool:
        for lines in pool.map(run, [paths[0::2], paths[1::2]]):
            for line in lines:
                if line[0] != "\t":
                    path = line
                    found[path] = []
                else:
                    _, network, recogniser, text = line.split("\t")
                    found[path].append((float(network), float(recogniser), text))
    return found


def best(candidates_of_one, share):
    return max(candidates_of_one,
               key=lambda one: one[0] + share * NATS_A_STEP * one[1])[2] if candidates_of_one else ""


def meanings(texts, grammars):
    return subprocess.run([MEAN, grammars], text=True, check=True, capture_output=True,
                          input="\n".join(texts) + "\n").stdout.splitlines()


def sets(folder, synthetic, count):
    part = None
    if os.path.exists(os.path.join(folder, "part")):
        part = int(open(os.path.join(folder, "part")).read())
    heard = lambda name: [r for r in recordings.read_corpus(corpus.SPEECH, name)
                          if part is None or r.fold == part]
    numbers = [r for r in heard("an4") if "class=numbers" in r.notes]
    for name, file, clips in [("labels", "structured", numbers), ("any groups", "labels", numbers),
                              ("single words", "words", heard("speech-commands")),
                              ("digits, 8 kHz", "words", heard("fsdd"))]:
        can_say = corpus.sayable(corpus.grammar(file))
        inside = [(r.path, r.words) for r in clips if can_say(r.words)]
        yield name, [corpus.grammar(file)], inside
    calls = [line.rstrip("\n").split("\t") for line in open(os.path.join(synthetic, "calls.tsv"))]
    yield "station calls", [], [(call[0], call[2]) for call in calls[:count]]


def main():
    folder, synthetic = sys.argv[1:3]
    all_sets = list(sets(folder, synthetic, int(sys.argv[3]) if len(sys.argv) > 3 else 300))
    print("share cost recogniser " + "  ".join(f"{name} ({len(c)})" for name, _, c in all_sets))
    ranked = []
    for language, cost in itertools.product(LANGUAGE_SHARES, WORD_COSTS):
        found = [candidates(folder, (language, cost, 150, 120), grammar, [p for p, _ in clips])
                 for _, grammar, clips in all_sets]
        for share in RECOGNISER_SHARES:
            rights = []
            for (name, grammar, clips), one in zip(all_sets, found):
                texts = [best(one[path], share) for path, _ in clips]
                words = [said for _, said in clips]
                if not grammar:
                    texts = meanings(texts, os.path.join(folder, "grammars"))
                    words = meanings(words, os.path.join(folder, "grammars"))
                rights.append(sum(map(str.__eq__, texts, words)) / max(1, len(clips)))
            ranked.append((sum(rights) / len(rights), language, cost, share))
            print(f"{language:5} {cost:4} {share:10} "
                  + "  ".join(f"{100 * right:5.1f}" for right in rights), flush=True)
    print("best:", *sorted(ranked, reverse=True)[:5], sep="\n  ")


if __name__ == "__main__":
    main()
