"""A session on the devices, played by PulseAudio: what is said into the microphone from outside is
written down, and said back on the ear-piece."""

import os
import subprocess
import sys
import time
import unittest

from live import AUDIBLE, Station
from pulse import missing, until


class Live(Station):
    def test_what_is_dictated_is_written_and_said_back(self):
        self.start()
        ear = self.record_ear()
        self.dictate("chest twenty one and a half")
        self.assertTrue([level for _, level in ear.pieces if level > AUDIBLE] or
                        ear.await_level(lambda heard: heard > AUDIBLE, "the read-back"))
        self.station.await_line(lambda line: "chest 21 1/2 in" in line, "the transcript")
        self.end()

    def test_the_terminals_keys_stand_for_the_pedal(self):
        outer, inner = os.openpty()
        self.addCleanup(os.close, outer)
        station = self.start(stdin=inner)
        os.close(inner)
        ear = self.record_ear()
        os.write(outer, b"n")
        station.await_line(lambda line: "says" in line, "the answer to next")
        ear.await_level(lambda heard: heard > AUDIBLE, "the answer to next")

    def test_what_leaks_from_the_ear_piece_is_no_call_and_stops_nothing(self):
        self.settings("[voice]\nread_back = full\n")
        self.pactl("load-module", "module-loopback", "source=ear.monitor", "sink=mouth",
                   "latency_msec=60")
        leak = until(lambda: [line.split()[0] for line in
                              self.pactl("list", "short", "sink-inputs").splitlines()],
                     "the way back")[0]
        # Speech is played at -24 dBFS; so it comes back at -44, 18 dB below who speaks.
        self.pactl("set-sink-input-volume", leak, "-20dB")
        self.start()
        calls = ["chest twenty one and a half", "length twenty eight", "what is missing"]
        ear = self.record_ear()
        for call in calls:
            asked = time.monotonic()
            self.dictate(call)
            said = self.station.await_line(lambda line: " says " in line, "the answer")
            began = ear.await_level(lambda heard: heard > AUDIBLE, "the answer", after=asked)
            ended = ear.await_level(lambda heard: heard < 30, "its end", run=80, after=began)
            whole = self.length_s(said.split(" says ")[1].strip())
            self.assertGreater(sum(began <= at < ended for at, _ in ear.pieces[:]) / 100,
                               0.85 * whole, "it was cut short")
        self.end()
        self.assertEqual(calls, self.calls())
        self.station.await_line(lambda line: "lost in all" in line, "the end")
        self.assertEqual(len(calls), sum(" says " in line for line in self.station.seen))

    def test_a_headset_that_goes_and_returns_loses_nothing(self):
        self.start()
        self.dictate("chest twenty one")
        ear = self.record_ear()
        ear.await_level(lambda heard: heard < 30, "the end of the read-back", run=60)
        self.unplug("mouth")
        self.station.await_line(lambda line: line.startswith("lapel: the headset is gone"),
                                "the loss to be told")
        ear.await_level(lambda heard: heard > AUDIBLE, "that it is said, too")
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
        self.unplug("ear")
        self.station.await_line(lambda line: line.startswith("lapel: the headset is gone"),
                                "the loss of the ear-piece to be told")
        self.plug_in("ear")
        self.make_usual()
        self.station.await_line("lapel: the headset is back", "the third return")
        self.dictate("chest twenty one and a half")
        self.assertIn("chest twenty one", self.calls())
        self.end()

    def test_a_sound_server_that_ends_and_is_started_again_is_a_headset_that_returns(self):
        self.start()
        self.dictate("chest twenty one")
        self.server.terminate()
        self.server.wait()
        self.station.await_line(lambda line: line.startswith("lapel: the headset is gone"),
                                "the loss to be told")
        self.start_server()
        self.make_usual()
        self.station.await_line("lapel: the headset is back", "the return")
        self.dictate("length twenty eight")
        self.end()
        self.assertEqual(["chest twenty one", "length twenty eight"], self.calls())

    def test_a_narrow_link_is_named_in_the_session(self):
        """A headset whose link carries 8000 samples a second, as Bluetooth's oldest does."""
        self.unplug("mouth")
        self.plug_in("mouth", 8000)
        self.make_usual()
        self.start()
        path = self.words("words", "chest twenty one, length twenty eight, sleeve thirteen")
        for _ in range(2):  # three seconds each, of which two have to be loud
            self.speak(path).wait()
        self.station.await_line(lambda line: "nothing above 4 kHz" in line, "the narrow link")

    def test_a_wide_link_is_not(self):
        self.start()
        for text in ("chest twenty one", "length twenty eight", "sleeve thirteen", "hem twenty"):
            self.dictate(text)
        self.end()
        self.assertFalse([line for line in self.station.seen if "4 kHz" in line])

    def test_the_headset_and_how_one_sounds_are_remembered(self):
        self.start("--headset", "pulse", "--who", "Ann B.")
        self.dictate("chest twenty one")
        self.end()
        state = os.path.join(self.scratch.name, "state", "lapel")
        self.assertEqual(["remembered.ini", "wearer-Ann%20B%2e.txt"], sorted(os.listdir(state)))
        with open(os.path.join(state, "wearer-Ann%20B%2e.txt")) as file:
            kept = file.read()
        self.assertEqual(13 + 2, len(kept.splitlines()))
        shown = subprocess.run([self.program, "settings"], env=self.environment, text=True,
                               capture_output=True).stdout
        self.assertIn("headset = pulse\n#   remembered", shown)
        self.start("--who", "Ann B.")  # on the remembered one, with the voice that is known
        self.end()
        with open(os.path.join(state, "wearer-Ann%20B%2e.txt")) as file:
            self.assertEqual(kept, file.read())


if __name__ == "__main__":
    if missing():  # SKIP, for meson
        print("there is no " + ", ".join(missing()))
        sys.exit(77)
    unittest.main(verbosity=2)
