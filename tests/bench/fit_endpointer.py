#!/usr/bin/python3
"""Fits the thresholds of src/ears/endpointer.c, and tells what each hang-over costs and saves.

Usage: fit_endpointer.py [--write] [--quick]

People's recordings from shared/speech beside the project, the clean ones, each put into a room: its
own silence cut off (by its level, seen from the end, as a listener cannot), low noise and one of the
recorded noises around and under it, at clean, 20, 10 and 5 dB. So it is known when speech begins and
ends. What a set of thresholds does is counted in seconds that it costs the wearer for each call:

    a first sound cut off, or the whole call missed    4 s: it has to be said again
    a call cut in two                                  4 s
    the time from the end of speech to the decision    as it is; 0.5 s more when it is later than
                                                       wanted (220 ms; 450 ms where it may go on)
    a beginning of speech where nobody spoke           0.1 s: a look at nothing

Single words are let go as what nothing lengthens is, runs of words as what may go on is. The program's
own code is what runs, with its thresholds as variables. Each is moved by steps as long as that makes
the cost less; half of the speakers and of the noises fit, and the others judge. --write puts the
thresholds into endpointer.c if they judge better by more than chance. The hang-overs stand in ears.c: a table tells what
others would do. Needs python3-numpy, sox, a C compiler and libsphinxbase-dev.
"""

import argparse
import ctypes
import hashlib
import os
import random
import re
import subprocess
import sys
import tempfile

import numpy

import corpus
import room
import scores
import voices

ENDPOINTER = os.path.join(corpus.TOP, "src", "ears", "endpointer.c")
NETWORK = os.path.join(corpus.TOP, "audio", "model", "presence.net")
EARS = os.path.join(corpus.TOP, "src", "ears", "ears.c")
PARAMETERS = "/usr/share/pocketsphinx/model/en-us/en-us/feat.params"

SAID_AGAIN_S, LATE_S, LOOK_S = 4.0, 0.5, 0.1
WANTED_MS = {False: 220, True: 450}  # by whether a word may follow
SNRS_DB = [None, 20, 10, 5]
CLEAN_DB = 30  # what a recording's loud frames stand over its quiet ones at least
SPEECH_DB = 28  # under its loud frames a recording is speech
PRE_ROLL_MS, CLICK_FRAMES = 300, 7
WINDOW_FRAMES = 2  # further sound that a frame's spectrum needs
BEFORE_S, AFTER_S = 1.5, 3.0
# What is fitted: chances, moved by a factor of their odds.
STEPS = {"VOICED_ON": 1.4, "VOICED_OFF": 1.4}


class Clip:
    """The chance of speech by frame in one piece, and the frames between which there is speech."""

    def __init__(self, chances, first, last, connected, snr_db, judges, noise):
        self.chances, self.first, self.last = chances, first, last
        self.connected, self.snr_db, self.judges, self.noise = connected, snr_db, judges, noise


def constants():
    text = open(ENDPOINTER).read()
    return {name: float(re.search(rf"#define {name} ([0-9.]+)f", text).group(1)) for name in STEPS}


def hang_over(name):
    return int(re.search(rf"{name}_HANG_OVER = (\d+)", open(EARS).read()).group(1))


def build(folder):
    """The endpointer as a library, its thresholds variables."""
    text = re.sub(r"#define (\w+) ([0-9.]+f)", r"float \1 = \2;", open(ENDPOINTER).read())
    copy = os.path.join(folder, "endpointer.c")
    open(copy, "w").write(text)
    source = lambda *parts: os.path.join(corpus.TOP, *parts)
    flags = subprocess.run(["pkg-config", "--cflags", "--libs", "sphinxbase"], capture_output=True,
                           text=True, check=True).stdout.split()
    library = os.path.join(folder, "endpoints.so")
    subprocess.run(["cc", "-O2", "-D_GNU_SOURCE", "-shared", "-fPIC", "-o", library,
                    "-I" + source("src", "ears"), "-I" + source("src", "trade"), copy,
                    source("tests", "bench", "endpoints.c"),
                    source("src", "ears", "spectrum.c"), source("src", "ears", "presence.c"),
                    source("src", "trade", "problem.c"), *flags, "-lm"], check=True)
    library = ctypes.CDLL(library)
    library.err_set_logfp(None)
    return library


def cut_speech(sound):
    """A clean recording without the silence around it, and None of one that is not clean."""
    power_db = 10 * numpy.log10((voices.frames_of(sound, 160) ** 2).mean(1) + 1e-3)
    loud, quiet = numpy.percentile(power_db, 90), numpy.percentile(power_db, 5)
    if loud - quiet < CLEAN_DB:
        return None
    voiced = numpy.flatnonzero(power_db > max(loud - SPEECH_DB, quiet + 8))
    # A lone frame is a click.
    runs = [frame for frame in voiced if {frame - 1, frame + 1} & set(voiced)]
    return sound[runs[0] * 160:(runs[-1] + 1) * 160] if len(runs) > 10 else None


def speech(quick):
    """(words, speaker, connected, sound) of what is clean enough."""
    for name, connected, most in [("an4", True, 60), ("fsdd", False, 20),
                                  ("speech-commands", False, 40), ("asterisk-prompts", False, 20)]:
        clips = corpus.load(name)
        random.Random(5).shuffle(clips)
        found = 0
        for clip in clips:
            if found >= (most // 4 if quick else most):
                break
            sound = cut_speech(voices.samples(clip.path))
            if sound is not None:
                found += 1
                yield clip, connected, sound


def judges(text):
    return int(hashlib.md5(text.encode()).hexdigest(), 16) % 2 == 1


def put_into_rooms(library, quick):
    parameters = open(PARAMETERS).read().encode()
    noises = {True: room.noises("judge"), False: room.noises("fit")}
    choose, clips = random.Random(11), []
    for clip, connected, sound in speech(quick):
        judging = judges(clip.speaker)
        level = 10 ** (choose.uniform(-30, -18) / 20) * 32768
        sound = sound * level / voices.speech_level(sound)
        for snr_db in SNRS_DB:
            before = int(BEFORE_S * choose.uniform(0.7, 1.3) * 100)
            padded = numpy.pad(sound, (before * 160, int(AFTER_S * 16000)))
            name, noise = choose.choice(noises[judging])
            padded = room.with_noise(padded, level, noise, choose.randrange(len(noise)), snr_db,
                                     numpy.random.default_rng(choose.randrange(1 << 32)))
            data = numpy.clip(numpy.round(padded), -32768, 32767).astype(numpy.int16)
            chances = numpy.zeros(len(data) // 160 + 1, numpy.float32)
            frames = library.endpoints_chances(
                parameters, NETWORK.encode(), data.ctypes.data_as(ctypes.c_void_p),
                ctypes.c_int64(len(data)), chances.ctypes.data_as(ctypes.c_void_p))
            if frames < 0:
                raise RuntimeError(f"{NETWORK} is not there")
            clips.append(Clip(chances[:frames].copy(), before, before + len(sound) // 160 - 1,
                              connected, snr_db, judging, name))
    return clips


class Result:
    """What thresholds do with a clip."""

    def __init__(self, library, clip, hang_over_frames):
        found = (ctypes.c_int * 300)()
        count = library.endpoints_run(clip.chances.ctypes.data_as(ctypes.c_void_p), len(clip.chances),
                                      hang_over_frames, found, 100)
        stretches = [found[3 * i:3 * i + 3] for i in range(count)]
        stretches = [s for s in stretches if s[1] - s[0] + 1 >= CLICK_FRAMES]
        of_call = [s for s in stretches if s[0] <= clip.last and s[1] >= clip.first]
        self.strays = len(stretches) - len(of_call)
        self.cut = not of_call or of_call[0][0] - clip.first > PRE_ROLL_MS / 10
        self.split = len(of_call) > 1
        end = len(clip.chances) - 1
        decided = (of_call[-1][2] if of_call[-1][2] >= 0 else end) if of_call else clip.last
        self.wait_ms = 10 * (decided + WINDOW_FRAMES - clip.last)
        self.early = bool(of_call) and self.wait_ms < 0
        self.cost_s = ((self.cut or self.split or self.early) * SAID_AGAIN_S + self.strays * LOOK_S
                       + max(0, self.wait_ms) / 1000
                       + (self.wait_ms > WANTED_MS[clip.connected]) * LATE_S)


def set_constants(library, values):
    for name, value in values.items():
        ctypes.c_float.in_dll(library, name).value = value


def results(library, clips, single, connected):
    return [Result(library, clip, connected if clip.connected else single) for clip in clips]


def costs(library, clips, values, hang_overs):
    set_constants(library, values)
    return numpy.array([one.cost_s for one in results(library, clips, *hang_overs)])


def cost(library, clips, values, hang_overs):
    return costs(library, clips, values, hang_overs).mean()


def gain(library, clips, before, after, hang_overs):
    """What the second saves a call, and its standard error, clip by clip."""
    saved = costs(library, clips, before, hang_overs) - costs(library, clips, after, hang_overs)
    return saved.mean(), saved.std() / len(saved) ** 0.5


def descend(library, clips, values, hang_overs):
    """Each threshold by steps up or down, until none of them makes it better."""
    best, better = cost(library, clips, values, hang_overs), True
    while better:
        better = False
        for name, step in STEPS.items():
            for factor in (step, 1 / step):
                while True:
                    odds = values[name] / (1 - values[name]) * factor
                    tried = dict(values, **{name: odds / (1 + odds)})
                    if tried["VOICED_OFF"] > tried["VOICED_ON"]:
                        break
                    now = cost(library, clips, tried, hang_overs)
                    if now > best - 1e-4:
                        break
                    values, best, better = tried, now, True
                    print(f"  {name} {values[name]:.3f}: {best:.4f} s a call", flush=True)
    return values


def total(found, what):
    return sum(getattr(one, what) for one in found)


def show(title, library, clips, values, hang_overs):
    set_constants(library, values)
    print(f"\n{title}: {cost(library, clips, values, hang_overs):.4f} s a call")
    print(f"  {'':22s}{'n':>5s} {'cut':>5s} {'split':>6s} {'early':>6s} {'strays':>7s} "
          f"{'to decision, p50':>17s} {'p95':>5s} ms")
    for connected, kind in [(False, "single words"), (True, "runs of words")]:
        for snr_db in SNRS_DB:
            those = [c for c in clips if c.connected == connected and c.snr_db == snr_db]
            found = results(library, those, *hang_overs)
            if found:
                waits = [one.wait_ms for one in found]
                print(f"  {kind + (', clean' if snr_db is None else f', {snr_db} dB'):22s}"
                      f"{len(found):5d} {total(found, 'cut'):5d} {total(found, 'split'):6d} "
                      f"{total(found, 'early'):6d} {total(found, 'strays'):7d} "
                      f"{scores.percentile(waits, .5):17d} {scores.percentile(waits, .95):5d}   late "
                      f"{scores.share(sum(w > WANTED_MS[connected] for w in waits), len(waits))} %")


def show_noises(library, clips, values, hang_overs):
    set_constants(library, values)
    print("\nwhat each noise does at 20 and 10 dB: n, cut, split, early, strays; decided, p50 and p95")
    for noise in sorted({clip.noise for clip in clips}):
        found = results(library, [c for c in clips if c.noise == noise and c.snr_db in (20, 10)],
                        *hang_overs)
        if found:
            waits = [one.wait_ms for one in found]
            counts = [total(found, what) for what in ["cut", "split", "early", "strays"]]
            print(f"  {noise[:34]:34s}{len(found):4d}", *(f"{count:4d}" for count in counts),
                  f"{scores.percentile(waits, .5):6d}{scores.percentile(waits, .95):6d} ms")


def show_hang_overs(library, clips, values):
    set_constants(library, values)
    quiet = [clip for clip in clips if clip.snr_db != 5]
    print("\nhang-overs, clean to 10 dB: what is cut in two, and the p95 to the decision")
    for connected, kind, frames in [(False, "single words", (7, 9, 11, 13, 15, 18)),
                                    (True, "runs of words", (18, 21, 24, 27, 30, 34, 40, 60))]:
        those = [clip for clip in quiet if clip.connected == connected]
        for hang in frames:
            found = results(library, those, hang, hang)
            waits = [one.wait_ms for one in found]
            print(f"  {kind:14s}{10 * hang:4d} ms: split "
                  f"{scores.share_with_interval(sum(one.split for one in found), len(found))} %, early "
                  f"{sum(wait < 0 for wait in waits)}, p50 {scores.percentile(waits, .5)} ms, p95 "
                  f"{scores.percentile(waits, .95)} ms, cost "
                  f"{sum(one.cost_s for one in found) / len(found):.3f} s")


def write(values):
    text = open(ENDPOINTER).read()
    for name, value in values.items():
        text = re.sub(rf"(#define {name}) [0-9.]+f", rf"\1 {value:.4g}f", text)
    text = re.sub(r"(#define \w+ \d+)f", r"\1.0f", text)
    open(ENDPOINTER, "w").write(text)


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--write", action="store_true", help="into endpointer.c, if it is better")
    parser.add_argument("--quick", action="store_true", help="with a quarter of the recordings")
    options = parser.parse_args()
    before, hang_overs = constants(), (hang_over("COMPLETE"), hang_over("LENGTHENS"))
    with tempfile.TemporaryDirectory() as folder:
        library = build(folder)
        clips = put_into_rooms(library, options.quick)
        if not clips:
            sys.exit("fit_endpointer: shared/speech is not there")
        judging = [clip for clip in clips if clip.judges]
        fitting = [clip for clip in clips if not clip.judges]
        print(f"{len(fitting)} clips fit, {len(judging)} judge")
        show("as it is, on what judges", library, judging, before, hang_overs)
        show_noises(library, judging, before, hang_overs)
        print(f"\nfrom {cost(library, fitting, before, hang_overs):.4f} s a call")
        after = descend(library, fitting, before, hang_overs)
        after = {name: float(f"{value:.4g}") for name, value in after.items()}
        show("fitted, on what judges", library, judging, after, hang_overs)
        print()
        for name, value in after.items():
            print(f"{name} {before[name]:g} -> {value:g}")
        show_noises(library, judging, after, hang_overs)
        show_hang_overs(library, judging, after)
        saved, error = gain(library, judging, before, after, hang_overs)
    better = saved > 2 * error
    print(f"\nsaves {saved:.3f} s a call, standard error {error:.3f}: "
          + ("better" if better else "not better by more than chance"))
    if options.write and better:
        write(after)
        print("written:", os.path.relpath(ENDPOINTER, corpus.TOP))


if __name__ == "__main__":
    main()
