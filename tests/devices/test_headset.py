"""The headset's two drivers through PortAudio, with PulseAudio's null sinks as the headset."""

import os
import subprocess
import sys
import time
import unittest

from pulse import Headset, missing

LAPEL, PROBE = os.environ["LAPEL"], os.environ["LAPEL_PROBE"]
SILENT = 30  # root mean square


def level(line):
    return int(line.split()[1]) if line.startswith("level ") else -1


class BothEnds(Headset):
    def setUp(self):
        super().setUp()
        self.probe = self.run_lines([PROBE])
        self.probe.await_line("open", "the ear-piece to open")

    def listen(self):
        self.probe.send("listen")
        self.probe.await_line("listening", "the microphone to open")
        self.probe.await_line(lambda line: level(line) >= 0, "the first sound")

    def assert_hears(self, what):
        speaking = self.speak(self.tone("tone.wav"))
        self.probe.await_line(lambda line: 4000 < level(line) < 7000, what)
        speaking.wait()
        self.probe.await_line(lambda line: 0 <= level(line) < SILENT, "silence after it")

    def test_what_is_said_into_the_microphone_is_heard_and_nothing_is_lost(self):
        self.listen()
        self.assert_hears("the tone")
        self.assertFalse([line for line in self.probe.seen if line.startswith("lost")])

    def test_a_link_with_nothing_above_4_khz_is_named(self):
        self.unplug("mouth")
        self.plug_in("mouth", 8000)
        self.make_usual()
        self.listen()
        self.speak(self.tone("tone.wav", seconds=4)).wait()
        self.probe.await_line("narrow", "the narrow link to be named")

    def test_a_microphone_that_is_moved_away_is_gone_and_comes_back(self):
        self.listen()
        self.unplug("mouth")
        self.probe.await_line("microphone gone", "the loss of the microphone")
        self.plug_in("mouth")
        self.make_usual()
        self.probe.send("again")
        self.probe.await_line("again", "the headset's return")
        self.probe.await_line(lambda line: level(line) >= 0, "sound after the return")
        self.assert_hears("the tone after the return")

    def test_a_headset_that_is_gone_altogether_comes_back(self):
        self.listen()
        self.unplug("mouth")
        self.unplug("ear")
        self.probe.await_line("microphone gone", "the loss of the microphone")
        self.probe.send("again")
        self.plug_in("ear")
        self.plug_in("mouth")
        self.make_usual()
        self.probe.await_line("again", "the headset's return")
        self.probe.send("again")  # now that mouth is the usual source for sure
        self.probe.await_line("again", "the headset's return")
        self.probe.await_line(lambda line: level(line) >= 0, "sound after the return")
        self.assert_hears("the tone after the return")

    def test_an_ear_piece_that_is_taken_away_is_gone(self):
        ear = self.record_ear()
        self.probe.send("say one two three four five six seven eight nine ten")
        ear.await_level(lambda heard: heard > 300, "the words")
        self.unplug("ear")
        self.probe.await_line("ear-piece gone", "the loss of the ear-piece")

    def test_words_are_heard_and_end_by_themselves(self):
        ear = self.record_ear()
        self.probe.send("say chest twenty one and a half")
        ear.await_level(lambda heard: heard > 300, "the words")
        self.probe.await_line("said", "the end of the words")
        ear.await_level(lambda heard: heard < SILENT, "silence after them", run=30)

    def test_speaking_begins_before_a_long_text_could_be_rendered(self):
        ear = self.record_ear()
        text = ", ".join(f"chest {number}, length twenty eight and three quarters"
                         for number in ("twenty", "thirty", "forty", "fifty", "sixty") * 4)[:500]
        asked = time.monotonic()
        subprocess.run([LAPEL, "say", text, "--to", os.path.join(self.scratch.name, "all.wav")],
                       env=self.environment, check=True)
        whole = time.monotonic() - asked
        asked = time.monotonic()
        self.probe.send("say " + text)
        began = ear.await_level(lambda heard: heard > 300, "the first words") - asked
        print(f"from asking to the first sound: {began * 1000:.0f} ms; all of it takes "
              f"{whole * 1000:.0f} ms to render")
        self.assertLess(began, whole)

    def test_a_hush_is_heard_at_once(self):
        ear = self.record_ear()
        self.probe.send("say one two three four five six seven eight nine ten eleven twelve")
        ear.await_level(lambda heard: heard > 300, "the words")
        asked = time.monotonic()
        self.probe.send("hush")
        silent = ear.await_level(lambda heard: heard < SILENT, "silence", run=40) - asked
        print(f"from the hush to silence: {silent * 1000:.0f} ms")
        self.assertLess(silent, 2)  # the words take five seconds


if __name__ == "__main__":
    if missing():  # SKIP, for meson
        print("there is no " + ", ".join(missing()))
        sys.exit(77)
    unittest.main(verbosity=2)
