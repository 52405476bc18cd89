"""The demo, replayed whole: every record must be exactly what the dictation's script says."""

import os
import signal
import subprocess
import unittest

import station

ITEMS = [("401", "42", "shirt", "mending", "done"), ("402", "42", "trousers", None, "set aside"),
         ("403", "23", "dress", "sale", "done")]
READINGS = [
    ("401", "chest", "21 3/4", "in", 552450), ("401", "length", "29", "in", 736600),
    ("401", "sleeve", "24.5", "in", 622300), ("401", "collar", "15 1/2", "in", 393700),
    ("402", "waist", "15 1/2", "in", 393700), ("402", "inseam", "31", "in", 787400),
    ("402", "front rise", "11 1/2", "in", 292100),
    ("403", "chest", "19 1/2", "in", 495300), ("403", "waist", "15 1/4", "in", 387350),
    ("403", "length", "41", "in", 1041400)]
FLAWS = [
    ("401", "stain", "small", None, "left", None, "cuff"),
    ("401", "missing button", None, None, None, None, "front"),
    ("402", "none", None, None, None, None, None),
    ("403", "tear", None, 25400, "right", None, "pocket")]


class Replay(station.WithFolder):
    def replay(self, name, database):
        script = os.path.join(station.SOURCE, "audio", "tidewrack.script")
        self.dictate(name, script, os.path.join(station.RECORDINGS, "librivox"))
        return self.listen(name, database)

    def setUp(self):
        super().setUp()
        if not os.path.exists(station.RECORDINGS):
            self.skipTest("the package pocketsphinx-testdata is not installed")

    def test_every_record_of_the_demo(self):
        self.replay("tidewrack", "records.db")
        with self.subTest("items"):
            self.assertEqual(ITEMS, self.rows(
                "records.db", "SELECT number, bin, kind, route, state FROM items ORDER BY item"))
        with self.subTest("readings"):
            self.assertEqual(sorted(READINGS), sorted(self.rows(
                "records.db", "SELECT number, measure, value, unit, um FROM readings"
                " JOIN items USING (item)")))
        with self.subTest("flaws"):
            self.assertEqual(FLAWS, self.rows(
                "records.db", "SELECT number, flaw, size, um, side, face, part FROM flaws"
                " JOIN items USING (item) ORDER BY flaws.call"))

    def test_two_runs_are_the_same(self):
        self.replay("tidewrack", "one.db")
        first = self.content("tidewrack.spoken.wav")
        self.listen("tidewrack", "two.db")
        self.assertEqual(first, self.content("tidewrack.spoken.wav"))
        for view in ["items", "readings", "flaws", "facts", "calls"]:
            self.assertEqual(self.rows("one.db", f"SELECT * FROM {view}"),
                             self.rows("two.db", f"SELECT * FROM {view}"))


class Interrupted(station.WithFolder):
    MORNING = ("voice rms\nsay item seven one two\nsay kind skirt\nsay waist fourteen\n"
               "say length twenty six\nsay hip nineteen\nwait 2\n")
    AFTERWARDS = "voice rms\nsay hem twenty two\nwait 2\n"

    def test_a_killed_session_goes_on_with_the_same_item(self):
        self.dictate("morning", self.MORNING)
        self.dictate("afterwards", self.AFTERWARDS)
        process = subprocess.Popen(
            [station.LAPEL, "listen", "--sound", self.path("morning.wav"), "--db",
             self.path("records.db")], stdout=subprocess.PIPE, text=True)
        for line in process.stdout:
            if " taken " in line and "waist" in line:
                process.send_signal(signal.SIGKILL)
                break
        process.stdout.close()
        process.wait()
        self.assertEqual([("ok",)], self.rows("records.db", "PRAGMA integrity_check"))
        readings = dict(self.rows("records.db", "SELECT measure, value FROM readings"))
        self.assertEqual("14", readings["waist"])
        self.listen("afterwards", "records.db")
        self.assertEqual([("712", "skirt", "open")],
                         self.rows("records.db", "SELECT number, kind, state FROM items"))
        readings = dict(self.rows("records.db", "SELECT measure, value FROM readings"))
        self.assertEqual("14", readings["waist"])
        self.assertEqual("22", readings["hem"])

    def test_sigterm_ends_the_session_cleanly(self):
        self.dictate("morning", self.MORNING)
        process = subprocess.Popen(
            [station.LAPEL, "listen", "--sound", self.path("morning.wav"), "--db",
             self.path("records.db")], stdout=subprocess.PIPE, text=True)
        for line in process.stdout:
            if "kind skirt" in line:
                process.send_signal(signal.SIGTERM)
                break
        process.stdout.read()
        process.stdout.close()
        self.assertEqual(0, process.wait())
        self.assertEqual(1, len(self.rows("records.db", "SELECT * FROM items")))


if __name__ == "__main__":
    unittest.main()
