"""The recorded sets that hearing is measured on: what was said in which file, and by whom.

The sets stand in a folder `shared/speech` beside the project; they are skipped by name where they
are not there. Each has `transcripts.tsv`: path, speaker, words, notes.
"""

import json
import os
import re
import subprocess
import tempfile
from concurrent.futures import ThreadPoolExecutor

TOP = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
SPEECH = os.path.join(os.path.dirname(TOP), "shared", "speech")
LAPEL = os.path.join(TOP, "build", "lapel")


class Clip:
    """One recording."""

    def __init__(self, path, speaker, words, notes, corpus):
        self.path, self.speaker, self.words = path, speaker, words
        self.notes, self.corpus = notes, corpus


def load(corpus, speech=SPEECH):
    """The clips of one set; none where the set is not there."""
    folder = os.path.join(speech, corpus)
    listing = os.path.join(folder, "transcripts.tsv")
    if not os.path.exists(listing):
        print(f"skipped: {corpus} is not in {speech}")
        return []
    clips = []
    for line in open(listing, encoding="utf8"):
        path, speaker, words, notes = (line.rstrip("\n").split("\t") + ["", ""])[:4]
        clips.append(Clip(os.path.join(folder, path), speaker, words, notes, corpus))
    return clips


def grammar(name, speech=SPEECH):
    return os.path.join(speech, "grammars", name + ".gram")


def sayable(path):
    """A test of whether a grammar without recursion can say some words."""
    text = re.sub(r"#JSGF[^;]*;|grammar [^;]*;|//[^\n]*|/[0-9.]+/", " ", open(path).read())
    rules, public = {}, None
    for left, body in re.findall(r"((?:public\s+)?<\w+>)\s*=\s*([^;]*);", text):
        name = re.search(r"<(\w+)>", left).group(1)
        rules[name] = body
        if left.startswith("public") and public is None:
            public = name

    def expand(body):
        out = ""
        for token in re.findall(r"<\w+>|[\[\]()|*+]|[\w'-]+", body):
            if token[0] == "<":
                out += "(?:" + expand(rules[token[1:-1]]) + ")"
            else:
                out += {"[": "(?:", "]": ")?", "(": "(?:"}.get(token) or (
                    token if token in ")|*+" else re.escape(token) + " ")
        return out

    pattern = re.compile("(?:" + expand(rules[public]) + ")$")
    return lambda words: bool(pattern.match(words.strip() + " "))


def hear(paths, *options, lapel=LAPEL, processes=2):
    """What `lapel hear` prints for the files: a list of objects for each path."""
    heard = {path: [] for path in paths}

    def run(part):
        lines = []
        for at in range(0, len(part), 400):
            done = subprocess.run([lapel, "hear", *options, *part[at:at + 400]],
                                  capture_output=True, text=True, check=False)
            if done.returncode != 0:
                raise RuntimeError(done.stderr.strip())
            lines += done.stdout.splitlines()
        return lines

    with ThreadPoolExecutor(processes) as pool:
        for lines in pool.map(run, [paths[i::processes] for i in range(processes)]):
            for line in lines:
                found = json.loads(line)
                heard[found["file"]].append(found)
    return heard


def write_grammar(words):
    """A JSGF file that says one of some words; the caller keeps the object alive."""
    file = tempfile.NamedTemporaryFile("w", suffix=".gram")
    file.write("#JSGF V1.0;\ngrammar words;\npublic <word> = " + " | ".join(words) + ";\n")
    file.flush()
    return file


def interval(right, n):
    """The 95 % interval of a share, after Wilson (1927)."""
    if n == 0:
        return 0.0, 1.0
    z = 1.959964
    p = right / n
    scale = 1 + z * z / n
    centre = p + z * z / (2 * n)
    half = z * ((p * (1 - p) + z * z / (4 * n)) / n) ** 0.5
    return max(0.0, (centre - half) / scale), min(1.0, (centre + half) / scale)
