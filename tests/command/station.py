"""What the tests of the whole program share: where it is, and a folder to work in."""

import json
import os
import sqlite3
import subprocess
import tempfile
import unittest

LAPEL = os.environ["LAPEL"]
DICTATE = os.environ["LAPEL_DICTATE"]
SOURCE = os.environ["LAPEL_SOURCE"]
RECORDINGS = "/usr/share/pocketsphinx/test/data"


def lapel(*arguments, status=0):
    """Runs lapel, holds its exit status against what is expected, and returns what it printed."""
    done = subprocess.run([LAPEL, *map(str, arguments)], capture_output=True, text=True)
    if done.returncode != status:
        raise AssertionError(f"lapel {' '.join(map(str, arguments))}: status {done.returncode}\n"
                             f"{done.stdout}{done.stderr}")
    return done


def hear(*arguments):
    return [json.loads(line) for line in lapel("hear", *arguments).stdout.splitlines()]


class WithFolder(unittest.TestCase):
    def setUp(self):
        self.scratch = tempfile.TemporaryDirectory(prefix="lapel-test-")
        self.folder = self.scratch.name
        # No settings of whoever runs the tests, and nothing that was remembered.
        os.environ["XDG_CONFIG_HOME"] = self.folder
        os.environ["XDG_STATE_HOME"] = os.path.join(self.folder, "state")

    def tearDown(self):
        self.scratch.cleanup()

    def path(self, name):
        return os.path.join(self.folder, name)

    def content(self, name):
        with open(self.path(name), "rb") as file:
            return file.read()

    def write(self, name, text):
        with open(self.path(name), "w") as file:
            file.write(text)
        return self.path(name)

    def dictate(self, name, script, recordings=RECORDINGS):
        """A dictation's sound and presses from a script, or from lines of one."""
        if not os.path.exists(script):
            script = self.write(name + ".script", script)
        subprocess.run([DICTATE, script, self.path(name + ".wav"), self.path(name + ".presses"),
                        recordings], check=True)
        return self.path(name + ".wav"), self.path(name + ".presses")

    def listen(self, name, database, *arguments):
        return lapel("listen", "--sound", self.path(name + ".wav"), "--presses",
                     self.path(name + ".presses"), "--db", self.path(database), "--spoken",
                     self.path(name + ".spoken.wav"), *arguments)

    def rows(self, database, query):
        with sqlite3.connect(self.path(database)) as connection:
            return connection.execute(query).fetchall()
