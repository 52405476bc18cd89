"""What the tests of a session on the devices share: a station on a headset that PulseAudio plays."""

import os
import shutil
import signal
import sqlite3
import subprocess
import wave

from pulse import PATIENCE_S, Headset, until

LAPEL = os.environ["LAPEL"]
SOURCE = os.environ["LAPEL_SOURCE"]
AUDIBLE = 200  # root mean square


class Station(Headset):
    def setUp(self):
        super().setUp()
        # The program finds its own files one folder above its own.
        home = self.scratch.name
        os.makedirs(os.path.join(home, "build"))
        self.program = shutil.copy(LAPEL, os.path.join(home, "build", "lapel"))
        for folder in ("grammars", "audio"):
            os.symlink(os.path.join(SOURCE, folder), os.path.join(home, folder))
        self.db = os.path.join(home, "a.db")

    def start(self, *options, **how):
        how.setdefault("stdin", subprocess.DEVNULL)
        self.station = self.run_lines([self.program, "listen", "--db", self.db, *options],
                                      stderr=subprocess.STDOUT, **how)
        self.station.await_line("lapel: listening", "the session to begin", patience_s=60)
        return self.station

    def length_s(self, text):
        """How long the station speaks to say it."""
        path = os.path.join(self.scratch.name, "length.wav")
        subprocess.run([LAPEL, "say", text, "--to", path], check=True, env=self.environment)
        with wave.open(path) as file:
            return file.getnframes() / file.getframerate()

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

    def rows(self, query):
        with sqlite3.connect(f"file:{self.db}?mode=ro", uri=True) as connection:
            return connection.execute(query).fetchall()

    def calls(self):
        return [text for text, in self.rows("SELECT text FROM calls ORDER BY call")]

    def settings(self, text):
        folder = os.path.join(self.scratch.name, "config", "lapel")
        os.makedirs(folder, exist_ok=True)
        with open(os.path.join(folder, "lapel.ini"), "w") as file:
            file.write(text)

    def dictate(self, text):
        """Says it again until it has become a call, as a person would who hears no answer, or that a
        piece of it was lost."""
        path = self.words("words", text)
        for _ in range(4):
            self.speak(path).wait()
            try:
                until(lambda: (text,) in self.rows(
                    "SELECT text FROM calls WHERE verdict != 'refused'"), text, patience_s=15)
                return
            except AssertionError:
                continue
        self.fail(f"\"{text}\" was not heard; {self.calls()}; {self.station.seen}")

    def end(self):
        self.station.process.send_signal(signal.SIGTERM)
        self.assertEqual(0, self.station.process.wait(PATIENCE_S))
