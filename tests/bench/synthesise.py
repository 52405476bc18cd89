#!/usr/bin/python3
"""Makes station calls spoken by synthetic voices, with room noise: for fitting, or for judging.

Usage: synthesise.py fit|judge COUNT FOLDER

Writes FOLDER/NNNN.wav and FOLDER/calls.tsv (path, voice, words, condition). The voices, their rates
and the noises that judge are never those that fit. Needs espeak-ng, sox and python3-numpy besides
what lapel needs itself.
"""

import os
import random
import subprocess
import sys
import tempfile

import numpy

import corpus

# The network of tests/bench/model heard none of these; what it knows by heart would make the judge too
# sure of strangers.
VOICES = {
    "fit": [("flite", "slt", 1.0), ("flite", "slt", 1.15), ("espeak", "en-us+m3", 145),
            ("espeak", "en-us+f2", 155)],
    "judge": [("espeak", "en-gb+m7", 160), ("espeak", "en-us+m7", 145), ("espeak", "en-us+f3", 150),
              ("espeak", "en-gb-scotland+f3", 145)],
}
NOISES = {"fit": 0, "judge": 1}  # every second of the noise recordings, from the first or the second
SNRS_DB = [None, 20, 15, 10]

DIGITS = "one two three four five six seven eight nine".split()
TEENS = ("ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen "
         "nineteen").split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()


def list_of(name):
    """The names of one of the lists in grammars/."""
    path = os.path.join(corpus.TOP, "grammars", name)
    lines = [line.split("#")[0].split("|")[0].strip() for line in open(path)]
    return [line for line in lines if line]


def below_hundred(value):
    if value < 10:
        return DIGITS[value - 1]
    if value < 20:
        return TEENS[value - 10]
    tens = TENS[value // 10 - 2]
    return tens if value % 10 == 0 else tens + " " + DIGITS[value % 10 - 1]


def length(choose):
    whole = below_hundred(choose.randint(4, 60))
    tail = choose.choice(["", "", "", " and a half", " and a half", " and a quarter",
                          " and three quarters", " point five", " point two five",
                          " point seven five", " and three eighths", " and five eighths",
                          " point " + choose.choice(DIGITS)])
    return whole + tail + choose.choice(["", "", "", " inches", " centimetres"])


def label(choose):
    digit = lambda: choose.choice(DIGITS + ["oh"])
    pair = lambda: below_hundred(choose.randint(10, 99))
    return choose.choice([
        lambda: " ".join(choose.choice(DIGITS) if i == 0 else digit() for i in range(3)),
        lambda: choose.choice(DIGITS) + " " + pair(),
        lambda: pair(), lambda: pair() + " " + pair(),
        lambda: choose.choice(DIGITS) + " hundred"])()


def flaw(choose, flaws, parts):
    words = ["flaw", choose.choice(["", "", "small", "large"]), choose.choice(flaws)]
    if choose.random() < 0.8:
        words += [choose.choice(["", "left", "right"]), choose.choice(parts)]
    return " ".join(word for word in words if word)


ORDERS = ["next", "previous", "repeat", "strike that", "restore", "read it all",
          "what is missing", "where am i", "set aside", "ask me", "stop asking", "pause",
          "resume", "flaw none"]


def calls(choose, count):
    kinds, measures = list_of("kinds.txt"), list_of("measures.txt")
    flaws, parts, routes = list_of("flaws.txt"), list_of("parts.txt"), list_of("routes.txt")
    for _ in range(count):
        kind = choose.random()
        if kind < 0.5:
            yield choose.choice(measures) + " " + length(choose)
        elif kind < 0.62:
            yield flaw(choose, flaws, parts)
        elif kind < 0.75:
            yield choose.choice(["item ", "bin ", "bin ", "open item "]) + label(choose)
        elif kind < 0.82:
            yield "kind " + choose.choice(kinds)
        elif kind < 0.86:
            yield "route " + choose.choice(routes)
        elif kind < 0.89:
            yield "strike " + choose.choice(measures)
        else:
            yield choose.choice(ORDERS)


def speak(voice, words, folder):
    kind, name, rate = voice
    path = os.path.join(folder, "spoken.wav")
    if kind == "flite":
        command = [corpus.LAPEL, "say", words, "--voice", name, "--rate", str(rate), "--to", path]
    else:
        command = ["espeak-ng", "-v", name, "-s", str(rate), "-w", path, words]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return samples(path)


def samples(path):
    raw = subprocess.run(["sox", path, "-r", "16000", "-c", "1", "-b", "16", "-e", "signed", "-t",
                          "raw", "-"], capture_output=True, check=True).stdout
    return numpy.frombuffer(raw, numpy.int16).astype(float)


def speech_level(sound):
    """Root mean square of the frames within 25 dB of the loudest."""
    frames = sound[:len(sound) // 160 * 160].reshape(-1, 160)
    power = (frames ** 2).mean(1)
    return (power[power > power.max() / 316].mean()) ** 0.5


def main():
    purpose, count, folder = sys.argv[1], int(sys.argv[2]), sys.argv[3]
    choose = random.Random({"fit": 20260412, "judge": 20261019}[purpose])
    noises = [samples(clip.path) for clip in corpus.load("noise")[NOISES[purpose]::2]]
    noises = [noise for noise in noises if (noise ** 2).mean() > 100]
    os.makedirs(folder, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch, \
            open(os.path.join(folder, "calls.tsv"), "w") as listing:
        for i, words in enumerate(calls(choose, count)):
            voice = choose.choice(VOICES[purpose])
            snr_db = choose.choice(SNRS_DB)
            spoken = speak(voice, words, scratch)
            spoken *= 10 ** (choose.uniform(-30, -18) / 20) * 32768 / speech_level(spoken)
            padded = numpy.concatenate([numpy.zeros(int(16000 * choose.uniform(0.4, 0.9))), spoken,
                                        numpy.zeros(19200)])
            generator = numpy.random.default_rng(i)
            padded += generator.normal(0, 4, len(padded))
            if snr_db is not None and noises:
                noise = choose.choice(noises)
                start = choose.randrange(len(noise))
                noise = numpy.tile(noise, len(padded) // len(noise) + 2)[start:start + len(padded)]
                wanted = speech_level(spoken) * 10 ** (-snr_db / 20)
                padded += noise * wanted / max((noise ** 2).mean() ** 0.5, 1)
            path = os.path.join(folder, f"{i:04d}.wav")
            data = numpy.clip(numpy.round(padded), -32768, 32767).astype("<i2").tobytes()
            subprocess.run(["sox", "-t", "raw", "-r", "16000", "-c", "1", "-b", "16", "-e",
                            "signed", "-", path], input=data, check=True)
            listing.write(f"{path}\t{'-'.join(map(str, voice))}\t{words}\t{snr_db}\n")


if __name__ == "__main__":
    main()
