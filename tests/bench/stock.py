"""The stock decoder on the same sound: pocketsphinx_batch with its defaults, a clip an utterance.

It is given the station's grammar as a word graph made by our own compiler (its own reader of JSGF
refuses the weights) and our pronunciations; the recorded sets' small grammars it reads itself.
"""

import os
import re
import subprocess
import tempfile
from concurrent.futures import ThreadPoolExecutor

import numpy

import corpus
import room
import voices

ENGLISH = "/usr/share/pocketsphinx/model/en-us"
LARGE = os.path.join(ENGLISH, "cmudict-en-us.dict")


class Stock:
    """What it makes of sounds: the words of each, and its cost as a share of real time."""

    def __init__(self):
        self.folder = tempfile.TemporaryDirectory()
        self.graph = os.path.join(self.folder.name, "station.fsg")
        self.dictionary = os.path.join(self.folder.name, "station.dict")
        with open(self.graph, "w") as file:
            file.writelines(line + "\n" for line in corpus.ask([], "--graph"))
        with open(self.dictionary, "w") as file:
            file.writelines(line + "\n" for line in corpus.ask([], "--dictionary", LARGE))

    def hear(self, sounds, grammar=None):
        """`sounds`: a dictionary of samples. A quarter of a second of low noise goes around each."""
        names = list(sounds)
        generator = numpy.random.default_rng(1)
        with tempfile.TemporaryDirectory() as scratch, ThreadPoolExecutor(2) as pool:
            for i, name in enumerate(names):
                pad = voices.RATE_HZ // 4
                padded = numpy.pad(sounds[name], pad) + generator.normal(
                    0, room.FLOOR, len(sounds[name]) + 2 * pad)
                numpy.clip(padded, -32768, 32767).astype("<i2").tofile(
                    os.path.join(scratch, f"{i:05d}.raw"))
            run = lambda part: self._decode(scratch, range(part, len(names), 2), part, grammar)
            found = [one for half in pool.map(run, range(2)) for one in half]
        texts = {names[i]: text for i, text in found}
        return {name: texts.get(name, "") for name in names}

    def _decode(self, scratch, numbers, part, grammar):
        if not len(numbers):
            return []
        control, heard = (os.path.join(scratch, f"{name}-{part}") for name in ["control", "heard"])
        with open(control, "w") as file:
            file.writelines(f"{i:05d}\n" for i in numbers)
        said = (["-jsgf", grammar, "-dict", LARGE] if grammar else
                ["-fsg", self.graph, "-dict", self.dictionary])
        done = subprocess.run(
            ["pocketsphinx_batch", "-hmm", os.path.join(ENGLISH, "en-us"), *said, "-ctl", control,
             "-cepdir", scratch, "-cepext", ".raw", "-adcin", "yes", "-hyp", heard],
            capture_output=True, text=True, errors="replace")
        if done.returncode != 0:
            raise RuntimeError("pocketsphinx_batch failed: " + done.stderr[-300:])
        found = []
        for line in open(heard):
            text, number = re.match(r"(.*)\((\d+) [-0-9]+\)$", line).groups()
            found.append((int(number), re.sub(r"\(\d+\)|<\S+>|\[\S+\]", "", text).strip()))
        return found
