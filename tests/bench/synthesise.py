#!/usr/bin/python3
"""Makes station calls spoken by synthetic voices, with room noise: for fitting, or for judging.

Usage: synthesise.py fit|judge COUNT FOLDER [strays]

Writes FOLDER/NNNN.wav and FOLDER/calls.tsv (path, voice, words, notes: what kind of call, the noise,
and when speech begins and ends). With `strays` what is said is no call.
Clips that are there already are kept. The voices, their rates and
the noises that judge are never those that fit. Needs espeak-ng, sox and python3-numpy besides what
lapel needs itself.
"""

import os
import random
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

import numpy

import corpus
import room
import voices
# The scripts of the network take these from here.
from station_calls import DIGITS, below_hundred, calls, label, length, list_of, strays, texts  # noqa: F401
from voices import RATE_HZ, VOICES, samples, speech_level  # noqa: F401

SNRS_DB = [None, 20, 10, 5]
LEVELS_DBFS = -30, -18
ROOM_BEFORE_S = 0.4, 0.9
ROOM_AFTER_S = 1.2
SEEDS = {"fit": 20260412, "judge": 20261019}


def draw_texts(choose, count, of_calls):
    """Texts that the station's own reader understands, or of which it makes nothing. A call that it
    does not understand is none by design; it is named, since it should be seldom."""
    make, more = (texts, count // 20) if of_calls else (strays, count)
    drawn = list(make(choose, count + more + 5))
    meant = corpus.meanings([text.replace(",", "") for _, text in drawn])
    for (_, text), meaning in zip(drawn, meant):
        if of_calls and meaning == "[]":
            print(f"synthesise: \"{text}\" is no call: left out", file=sys.stderr)
    return [one for one, meaning in zip(drawn, meant) if (meaning != "[]") == of_calls][:count]


def make(path, choose, kind, text, voice, noises):
    """One clip, and its line in calls.tsv."""
    snr_db, rate = choose.choice(SNRS_DB), choose.choice(voice.rates)
    name, noise = choose.choice(noises) if noises else ("none", None)
    generator = numpy.random.default_rng(choose.randrange(1 << 32))
    before = int(RATE_HZ * choose.uniform(*ROOM_BEFORE_S))
    wanted_dbfs = choose.uniform(*LEVELS_DBFS)
    start = choose.randrange(len(noise)) if noises else 0
    line = (f"{path}\t{voice}\t{text.replace(',', '')}\tkind={kind} snr={snr_db} noise={name} "
            f"rate={rate} from_ms={before * 1000 // RATE_HZ} ")
    with tempfile.TemporaryDirectory() as scratch:
        spoken, speech = voices.speak(voice, rate, text, scratch)
    spoken *= 10 ** (wanted_dbfs / 20) * 32768 / speech_level(spoken)
    padded = numpy.zeros(before + speech + int(ROOM_AFTER_S * RATE_HZ))
    padded[before:before + len(spoken)] = spoken
    voices.write(path, room.with_noise(padded, speech_level(spoken), noise, start, snr_db, generator))
    return line + f"to_ms={(before + speech) * 1000 // RATE_HZ}\n"


def make_set(purpose, count, folder, of_calls=True):
    """The clips of a folder, made unless they are there already."""
    listing = os.path.join(folder, "calls.tsv")
    if os.path.exists(listing) and sum(1 for _ in open(listing)) >= count:
        return listing
    os.makedirs(folder, exist_ok=True)
    noises = room.noises(purpose)
    drawn = draw_texts(random.Random(SEEDS[purpose]), count, of_calls)
    jobs = []
    with ThreadPoolExecutor(2) as pool:
        for i, (kind, text) in enumerate(drawn):
            # One row of random numbers a clip, so that none depends on those before it.
            choose = random.Random(f"{SEEDS[purpose]} {i}")
            voice = VOICES[purpose][i % len(VOICES[purpose])]
            path = os.path.join(folder, f"{i:04d}.wav")
            jobs.append(pool.submit(make, path, choose, kind, text, voice, noises))
    with open(listing + ".new", "w") as file:
        file.writelines(job.result() for job in jobs)
    os.rename(listing + ".new", listing)
    return listing


def read_set(listing, count=None):
    """The clips of calls.tsv, and their notes as a dictionary."""
    lines = open(listing).readlines()[:count]
    clips = [corpus.Clip(*line.rstrip("\n").split("\t"), "synthetic") for line in lines]
    return [(clip, dict(note.split("=") for note in clip.notes.split())) for clip in clips]


def main():
    if len(sys.argv) not in (4, 5) or sys.argv[1] not in VOICES:
        sys.exit(__doc__)
    try:
        make_set(sys.argv[1], int(sys.argv[2]), sys.argv[3], len(sys.argv) == 4)
    except subprocess.CalledProcessError as error:
        sys.exit(f"synthesise: {error}")


if __name__ == "__main__":
    main()
