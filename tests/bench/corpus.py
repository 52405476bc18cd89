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
BUILD = os.path.join(TOP, os.environ.get("LAPEL_BUILD", "build"))
LAPEL = os.path.join(BUILD, "lapel")
MEAN = os.path.join(BUILD, "tests", "bench", "mean")
GRAMMARS = os.path.join(TOP, "grammars")


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


class Cost:
    """What hearing some files cost, start included."""

    def __init__(self):
        self.cpu_s = self.memory_mb = 0.0

    def add(self, usage):
        self.cpu_s += usage.ru_utime + usage.ru_stime
        self.memory_mb = max(self.memory_mb, usage.ru_maxrss / 1024)


def run_measured(command, cost):
    """What a command prints, with its use of the machine added to `cost`."""
    with tempfile.TemporaryFile("w+") as said:
        process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=said, text=True)
        text = process.stdout.read()
        process.stdout.close()
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        cost.add(usage)
        if process.returncode != 0:
            said.seek(0)
            raise RuntimeError(f"{command[0]}: {said.read().strip()[-500:]}")
    return text


def hear(paths, *options, lapel=LAPEL, processes=2, cost=None):
    """What `lapel hear` prints for the files: a list of objects for each path."""
    heard = {path: [] for path in paths}
    cost = cost if cost is not None else Cost()

    def run(part):
        return [line for at in range(0, len(part), 400)
                for line in run_measured([lapel, "hear", *options, *part[at:at + 400]],
                                         cost).splitlines()]

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


def ask(texts, *options):
    """What the station's own code says of each text: see mean.c."""
    done = subprocess.run([MEAN, GRAMMARS, *options], text=True, check=True, capture_output=True,
                          input="".join(text + "\n" for text in texts))
    return done.stdout.splitlines()


def meanings(texts):
    """The calls of each text, as JSON that can be compared; "[]" where it is no call."""
    return ask(texts)


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
