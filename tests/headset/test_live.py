"""A session on the devices, played by PulseAudio: what is said into the microphone from outside is
written down, and said back on the ear-piece."""

import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
import unittest
import wave

from pulse import Headset, missing, until

LAPEL = os.environ["LAPEL"]
SOURCE = os.environ["LAPEL_SOURCE"]
AUDIBLE = 200  # root mean square


class Live(Headset):
    def setUp(self):
        super().setUp()
        # The program finds its own files one folder above its own.
        home = self.scratch.name
        os.makedirs(os.path.join(home, "build"))
        self.program = shutil.copy(LAPEL, os.path.join(home, "build", "lapel"))
        for folder in ("grammars", "audio"):
            os.symlink(os.path.join(SOURCE, folder), os.path.join(home, folder))
        self.db = os.path.join(home, "a.db")
        self.station = self.run_lines([self.program, "listen", "--db", self.db], stderr=subprocess.STDOUT)
        self.station.await_line("lapel: listening", "the session to begin", patience_s=60)

    def words(self, name, text, before_s=0.3, after_s=1.5):
        """A sound file of a voice that is not the station's."""
        path = os.path.join(self.scratch.name, name + ".wav")
        subprocess.run([LAPEL, "say", text, "--voice", "rms", "--to", path], check=True,
                       env=self.environment)
        with wave.open(path) as file:
            samples = file.readframes(file.getnframes())
        with wave.open(path, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(16000)
            file.writeframes(bytes(int(before_s * 16000) * 2) + samples
                             + bytes(int(after_s * 16000) * 2))
        return path

    def calls(self):
        with sqlite3.connect(f"file:{self.db}?mode=ro", uri=True) as connection:
            return [text for text, in connection.execute("SELECT text FROM calls")]

    def dictate(self, text):
        """Says it again until it has become a call, as a person would who hears no answer."""
        path = self.words("words", text)
        for _ in range(4):
            self.speak(path).wait()
            try:
                until(lambda: text in self.calls(), text, patience_s=4)
                return
            except AssertionError:
                continue
        self.fail(f"\"{text}\" was not heard; {self.calls()}; {self.station.seen}")

    def end(self):
        asked = time.monotonic()
        self.station.process.send_signal(signal.SIGTERM)
        self.assertEqual(0, self.station.process.wait(10))
        return time.monotonic() - asked

    def test_what_is_dictated_is_written_and_said_back(self):
        ear = self.record_ear()
        self.dictate("chest twenty one and a half")
        self.assertTrue([level for _, level in ear.pieces if level > AUDIBLE] or
                        ear.await_level(lambda heard: heard > AUDIBLE, "the read-back"))
        self.station.await_line(lambda line: "chest 21 1/2 in" in line, "the transcript")
        self.assertLess(self.end(), 1.5)

    def test_the_terminals_keys_stand_for_the_pedal(self):
        outer, inner = os.openpty()
        self.addCleanup(os.close, outer)
        station = self.run_lines([self.program, "listen", "--db", self.db + ".2"], stderr=subprocess.STDOUT,
                                 stdin=inner)
        os.close(inner)
        station.await_line("lapel: listening", "the session to begin", patience_s=60)
        ear = self.record_ear()
        os.write(outer, b"n")
        station.await_line(lambda line: "says" in line, "the answer to next")
        ear.await_level(lambda heard: heard > AUDIBLE, "the answer to next")

    def test_the_read_back_follows_the_words_at_once(self):
        """From the last audible sample said to the first one said back, both heard from outside."""
        ear, mouth = self.record_ear(), self.record_ear("mouth.monitor")
        took_ms = []
        for number in ("twenty", "twenty two", "twenty four", "twenty six", "nineteen"):
            path = self.words("chest", "chest " + number)
            process = self.speak(path)
            mouth.await_level(lambda heard: heard > AUDIBLE, "the words")
            ended = began = None
            limit = time.monotonic() + 8
            seen = len(ear.pieces)
            while began is None and time.monotonic() < limit:
                mouth.read(0.01)
                ear.read(0.01)
                ended = [at for at, level in mouth.pieces if level > AUDIBLE][-1]
                began = next((at for at, level in ear.pieces[seen:]
                              if level > 100 and at > ended), None)
            process.wait()
            if began is not None:
                took_ms.append((began - ended) * 1000)
            ear.await_level(lambda heard: heard < 30, "the end of the read-back", run=60)
        took_ms.sort()
        print("from the words' end to the read-back:", [round(took) for took in took_ms], "ms")
        self.assertGreaterEqual(len(took_ms), 3, self.station.seen)
        self.assertLess(took_ms[len(took_ms) // 2], 1000)

    def test_a_headset_that_goes_and_returns_loses_nothing(self):
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
