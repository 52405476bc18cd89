"""A session on the devices, played by PulseAudio: what is said into the microphone from outside is
written down, and said back on the ear-piece."""

import os
import sys
import time
import unittest

from live import AUDIBLE, Station
from pulse import missing


class Live(Station):
    def test_what_is_dictated_is_written_and_said_back(self):
        self.start()
        ear = self.record_ear()
        self.dictate("chest twenty one and a half")
        self.assertTrue([level for _, level in ear.pieces if level > AUDIBLE] or
                        ear.await_level(lambda heard: heard > AUDIBLE, "the read-back"))
        self.station.await_line(lambda line: "chest 21 1/2 in" in line, "the transcript")
        self.assertLess(self.end(), 1.5)

    def test_the_terminals_keys_stand_for_the_pedal(self):
        outer, inner = os.openpty()
        self.addCleanup(os.close, outer)
        station = self.start(stdin=inner)
        os.close(inner)
        ear = self.record_ear()
        os.write(outer, b"n")
        station.await_line(lambda line: "says" in line, "the answer to next")
        ear.await_level(lambda heard: heard > AUDIBLE, "the answer to next")

    def test_the_read_back_follows_the_words_at_once(self):
        """From the last audible sample said to the first one said back, both heard from outside."""
        self.start()
        ear, mouth = self.record_ear(), self.record_ear("mouth.monitor")
        took_ms = []
        for number in ("twenty", "twenty two", "twenty four", "twenty six", "nineteen"):
            began = time.monotonic()
            self.speak(self.words("chest", "chest " + number)).wait()
            try:
                # The words end before what is said back begins; the file goes on in silence.
                said = ear.await_level(lambda heard: heard > 100, "the read-back", after=began,
                                       patience_s=6)
            except AssertionError:
                continue
            ended = mouth.last(lambda heard: heard > AUDIBLE)
            took_ms.append((said - ended) * 1000)
            ear.await_level(lambda heard: heard < 30, "the end of the read-back", run=60)
        took_ms.sort()
        print("from the words' end to the read-back:", [round(took) for took in took_ms], "ms")
        self.assertGreaterEqual(len(took_ms), 3, self.station.seen)
        self.assertLess(took_ms[len(took_ms) // 2], 1000)

    def test_a_headset_that_goes_and_returns_loses_nothing(self):
        self.start()
        self.dictate("chest twenty one")
        self.unplug("mouth")
        self.station.await_line(lambda line: line.startswith("lapel: the headset is gone"),
                                "the loss to be told")
        self.plug_in("mouth")
        self.make_usual()
        self.station.await_line("lapel: the headset is back", "the return")
        self.unplug("ear")
        self.unplug("mouth")
        self.station.await_line(lambda line: line.startswith("lapel: the headset is gone"),
                                "the second loss to be told")
        self.plug_in("ear")
        self.plug_in("mouth")
        self.make_usual()
        self.station.await_line("lapel: the headset is back", "the second return")
        self.dictate("chest twenty one and a half")
        self.assertIn("chest twenty one", self.calls())
        self.assertLess(self.end(), 1.5)


if __name__ == "__main__":
    if missing():  # SKIP, for meson
        print("there is no " + ", ".join(missing()))
        sys.exit(77)
    unittest.main(verbosity=2)
