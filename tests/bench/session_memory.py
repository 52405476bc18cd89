"""Memory and cost of a session that comes to every place of the conversation: free order, a question
("price two forty" is asked), a measure asked for, and the pause. What is listened for in a place is
made ready when it is first come to."""

import json
import os
import tempfile

import numpy

import corpus
import room
import voices

LINES = ["item four oh one", "kind shirt", "price two forty", "second", "ask me", "twenty one",
         "stop asking", "pause", "resume", "next"]
GAP_S = 4.0  # in which it answers


def dictation(path):
    generator, gap = numpy.random.default_rng(1), numpy.zeros(int(GAP_S * voices.RATE_HZ))
    voice, sound = voices.VOICES["judge"][4], [gap]
    with tempfile.TemporaryDirectory() as scratch:
        for line in LINES:
            spoken, _ = voices.speak(voice, voice.rates[0], line, scratch)
            sound += [spoken * 2500 / voices.speech_level(spoken), gap]
    sound = numpy.concatenate(sound)
    voices.write(path, room.with_noise(sound, 2500, None, 0, None, generator))
    return len(sound) / voices.RATE_HZ


def measure(options, stock):
    with tempfile.TemporaryDirectory() as scratch:
        at = lambda name: os.path.join(scratch, name)
        seconds, cost = dictation(at("sound.wav")), corpus.Cost()
        open(at("presses"), "w").close()
        said = corpus.run_measured(
            [corpus.LAPEL, "listen", "--json", "--sound", at("sound.wav"), "--presses", at("presses"),
             "--db", at("db"), "--spoken", at("spoken.wav")], cost)
    texts = [json.loads(line).get("text") for line in said.splitlines() if '"text"' in line]
    print(f"a session through every place: {cost.cpu_s / seconds:.3f} of real time, voice included; "
          f"memory {cost.memory_mb:.0f} MB")
    print("    heard:", ", ".join(text for text in texts if text))
