"""A session on a headset, a pedal and a bar-code reader, which PulseAudio and umockdev play."""

import os
import shutil
import signal
import sys
import time
import unittest

from live import AUDIBLE, Station
from pulse import missing, until

ROOM = os.environ["LAPEL_ROOM"].split()
KEYS = {letter: code for codes, letters in ((range(2, 12), "1234567890"), ((0x30,), "b"),
                                            ((28,), "\n")) for code, letter in zip(codes, letters)}


def press(key, at_s, held_s=0.12):
    """The lines of an event list for one press."""
    code = KEYS[key]
    return [(at_s + after_s, f"{code:04x} {value}") for after_s, value in ((0, 1), (held_s, 0))]


def typed(text, at_s):
    return [line for n, key in enumerate(text) for line in press(key, at_s + n * 0.02, 0.01)]


def has_ended(process):
    """Whether it has, though its parent, which waits for a line, may not have noticed."""
    try:
        with open(f"/proc/{process}/stat") as file:
            return file.read().rsplit(") ", 1)[1][0] == "Z"
    except FileNotFoundError:
        return True


class PedalAndHeadset(Station):
    def events(self, name, presses):
        path = os.path.join(self.scratch.name, name)
        with open(path, "w") as file:
            for at_s, what in presses:
                file.write(f"E: {at_s:.6f} 0001 {what}\nE: {at_s:.6f} 0000 0000 0\n")
        return path

    def start(self, *options):
        self.station = self.run_lines(ROOM + [self.program, "listen", "--db", self.db, *options],
                                      stderr=-2)
        self.process = int(self.station.await_line(lambda line: line.startswith("program "),
                                                   "the room").split()[1])
        self.station.await_line("lapel: listening", "the session to begin", patience_s=60)

    def plug(self, sort, number, presses):
        path = self.events(f"{sort}.{number}.events", presses)
        self.station.send(f"plug {sort} {number} {path}")
        self.station.await_line(f"lapel: the {sort} is {'back' if number > 6 else 'there'}",
                                f"the {sort}")

    def end(self):
        os.kill(self.process, signal.SIGTERM)
        self.station.await_line(lambda line: "calls:" in line, "the end of the session")
        until(lambda: has_ended(self.process), "the program's end")


    def test_a_pedal_is_pressed_vanishes_and_returns_while_one_dictates(self):
        self.start()
        self.dictate("chest twenty one")
        # Held: strike that. Then one down that is never lifted, since the pedal is pulled out.
        self.plug("pedal", 5, press("b", 0.5, 0.9))
        self.station.await_line(lambda line: "struck chest" in line, "the strike")
        self.station.send("pull 5")
        self.station.await_line("lapel: the pedal is gone", "the loss of the pedal")
        self.dictate("length twenty eight")
        self.station.await_line(lambda line: "says" in line and "length" in line, "the read-back")
        ear = self.record_ear()
        self.plug("pedal", 7, press("b", 1.0) + press("b", 1.3))
        self.station.await_line(lambda line: "says" in line and "length" in line, "the repeat")
        ear.await_level(lambda heard: heard > AUDIBLE, "the repeat in the ear-piece")
        self.end()
        self.assertEqual([("hold", "pedal"), ("double tap", "pedal")], self.rows(
            "SELECT text, source FROM calls WHERE source = 'pedal' ORDER BY call"))
        self.assertEqual([("length",)], self.rows("SELECT measure FROM readings"))

    def test_a_press_silences_at_once(self):
        self.settings("[voice]\nspeed = 0.5\n")
        self.start()
        ear = self.record_ear()
        self.dictate("help")
        ear.await_level(lambda heard: heard > AUDIBLE, "the help", after=0)
        # The presses are played from the moment on at which the pedal is opened.
        self.plug("pedal", 5, press("b", 0.7, 2.5))
        opened = time.monotonic()
        silent = ear.await_level(lambda heard: heard < 30, "silence", run=80, after=opened) - opened
        print(f"from the press to silence in the ear-piece: {(silent - 0.7) * 1000:.0f} ms")
        self.assertLess(silent, 5)  # the help takes longer, said so slowly
        self.assertGreater(silent, 0.6)

    def test_a_scan_opens_the_item_of_that_label(self):
        self.start()
        self.dictate("item four eighty two")
        self.dictate("chest twenty one")
        self.dictate("set aside")
        self.plug("reader", 6, typed("482\n", 0.5) + typed("999\n", 4.0))
        self.station.await_line(lambda line: "scan 482" in line and "taken" in line, "the scan")
        self.station.await_line(lambda line: "there is no item" in line, "the scan of a stranger")
        self.dictate("chest twenty two")
        self.end()
        self.assertEqual([("scan 482", "taken", "pedal"), ("scan 999", "refused", "pedal")],
                         self.rows("SELECT text, verdict, source FROM calls "
                                   "WHERE text LIKE 'scan%' ORDER BY call"))
        self.assertEqual([("482", "open", "22")], self.rows(
            "SELECT number, state, value FROM items JOIN readings USING (item)"))


if __name__ == "__main__":
    lacking = missing() + ([] if ROOM else ["umockdev"])
    if lacking:  # SKIP, for meson
        print("there is no " + ", ".join(lacking))
        sys.exit(77)
    unittest.main(verbosity=2)
