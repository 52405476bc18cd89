"""A headset without hardware: PulseAudio with two null sinks, "mouth" and "ear". What is played
into mouth is what the microphone hears; what reaches ear is what the ear-piece plays."""

import array
import math
import os
import select
import shutil
import subprocess
import tempfile
import threading
import time
import unittest
import wave

PATIENCE_S = 60  # for a machine that is busy with other things


def until(condition, what, patience_s=PATIENCE_S):
    """Polls for a condition and gives its value; says what was waited for in vain."""
    end = time.monotonic() + patience_s
    while time.monotonic() < end:
        value = condition()
        if value:
            return value
        select.select([], [], [], 0.02)
    raise AssertionError(f"waited in vain: {what}")


def missing():
    return [tool for tool in ("pulseaudio", "pactl", "paplay", "parec") if not shutil.which(tool)]


class Lines:
    """A process whose lines are awaited one by one."""

    def __init__(self, command, **how):
        how.setdefault("stdin", subprocess.PIPE)
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, bufsize=0, **how)
        self.rest = b""
        self.seen = []

    def send(self, line):
        self.process.stdin.write(line.encode() + b"\n")

    def line(self, patience_s):
        end = time.monotonic() + patience_s
        while b"\n" not in self.rest:
            ready, _, _ = select.select([self.process.stdout], [], [],
                                        max(0, end - time.monotonic()))
            piece = os.read(self.process.stdout.fileno(), 65536) if ready else b""
            if not piece:
                return None
            self.rest += piece
        line, self.rest = self.rest.split(b"\n", 1)
        self.seen.append(line.decode())
        return self.seen[-1]

    def await_line(self, wanted, what, patience_s=PATIENCE_S):
        """The first line from here on for which `wanted` (a text, or a function) holds."""
        holds = wanted if callable(wanted) else lambda line: line == wanted
        end = time.monotonic() + patience_s
        while True:
            line = self.line(max(0, end - time.monotonic()))
            if line is None:
                raise AssertionError(f"waited in vain: {what}; last lines: {self.seen[-10:]}")
            if holds(line):
                return line

    def close(self):
        if self.process.stdin:
            self.process.stdin.close()
        else:
            self.process.terminate()
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        self.process.stdout.close()


class Headset(unittest.TestCase):
    """Starts a sound server of its own for each test."""

    def setUp(self):
        if missing():
            self.skipTest("there is no " + ", ".join(missing()))
        self.scratch = tempfile.TemporaryDirectory(prefix="lapel-headset-")
        home = self.scratch.name
        runtime = os.path.join(home, "run")
        os.mkdir(runtime, 0o700)
        with open(os.path.join(home, ".asoundrc"), "w") as file:
            file.write("pcm.!default { type pulse }\nctl.!default { type pulse }\n")
        self.environment = dict(os.environ, HOME=home, XDG_RUNTIME_DIR=runtime,
                                XDG_CONFIG_HOME=os.path.join(home, "config"),
                                XDG_STATE_HOME=os.path.join(home, "state"))
        self.environment.pop("PULSE_SERVER", None)
        # What a sanitizer has to say ends the program, or fails the test, see stop_server. ALSA's
        # modules, which are unloaded again, leave behind what no suppression can name; and umockdev
        # is preloaded before the sanitizer.
        self.environment["ASAN_OPTIONS"] = "detect_leaks=0:verify_asan_link_order=0"
        self.environment["UBSAN_OPTIONS"] = "halt_on_error=1:print_stacktrace=1"
        self.environment["TSAN_OPTIONS"] = ":".join([
            "log_path=" + os.path.join(home, "report"), "suppressions=" + os.path.join(
                os.path.dirname(os.path.abspath(__file__)), "tsan.suppressions")])
        self.log = open(os.path.join(home, "pulseaudio.log"), "w")
        self.server = None
        self.addCleanup(self.stop_server)
        self.start_server()
        self.make_usual()

    def start_server(self):
        self.server = subprocess.Popen(
            ["pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--realtime=no",
             "-L", "module-native-protocol-unix",
             "-L", "module-null-sink sink_name=mouth rate=16000",
             "-L", "module-null-sink sink_name=ear"],
            env=self.environment, stdout=self.log, stderr=self.log)
        until(lambda: subprocess.run(["pactl", "info"], env=self.environment,
                                     capture_output=True).returncode == 0, "a sound server")
        self.modules = {line.split("sink_name=")[1].split()[0]: line.split()[0]
                        for line in self.pactl("list", "short", "modules").splitlines()
                        if "sink_name=" in line}

    def stop_server(self):
        if self.server is not None:
            self.server.terminate()
            self.server.wait()
        self.log.close()
        reports = []
        for name in os.listdir(self.scratch.name):
            if name.startswith("report."):
                with open(os.path.join(self.scratch.name, name)) as file:
                    reports.append(file.read())
        self.scratch.cleanup()
        self.assertFalse(reports, "\n".join(reports))

    def pactl(self, *arguments):
        return subprocess.run(["pactl", *arguments], env=self.environment, check=True, text=True,
                              capture_output=True).stdout

    def make_usual(self):
        self.pactl("set-default-source", "mouth.monitor")
        self.pactl("set-default-sink", "ear")

    def unplug(self, sink):
        self.pactl("unload-module", self.modules.pop(sink))

    def plug_in(self, sink, rate_hz=None):
        rate_hz = rate_hz or {"mouth": 16000, "ear": 44100}[sink]
        self.modules[sink] = self.pactl("load-module", "module-null-sink", "sink_name=" + sink,
                                        f"rate={rate_hz}").strip()

    def run_lines(self, command, **how):
        lines = Lines(command, env=self.environment, **how)
        self.addCleanup(lines.close)
        return lines

    def speak(self, path):
        """Somebody speaks: plays a file into the microphone; returns the process."""
        process = subprocess.Popen(["paplay", "--latency-msec=10", "-d", "mouth", path],
                                   env=self.environment)
        self.addCleanup(process.wait)
        return process

    def record_ear(self, device="ear.monitor"):
        """Hears the ear-piece (or what is said): an Ear that is at work when this returns."""
        ear = Ear(self.environment, device)
        self.addCleanup(ear.close)
        ear.read_for_a_while()
        return ear

    def tone(self, name, hertz=700, seconds=2.0, level=8000, rate=16000):
        path = os.path.join(self.scratch.name, name)
        count, edge = int(seconds * rate), rate // 20
        with wave.open(path, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(rate)
            file.writeframes(array.array("h", [
                int(level * min(1, i / edge, (count - i) / edge)
                    * math.sin(2 * math.pi * hertz * i / rate))
                for i in range(count)]).tobytes())
        return path


class Ear:
    """What the ear-piece plays, in pieces of 10 ms, each with its level and when it was read."""

    RATE_HZ = 16000

    def __init__(self, environment, device="ear.monitor"):
        self.process = subprocess.Popen(
            ["parec", "-d", device, "--latency-msec=10", "--format=s16le", "--channels=1",
             f"--rate={self.RATE_HZ}", "--raw"], env=environment, stdout=subprocess.PIPE, bufsize=0)
        self.pieces = []  # (monotonic time of reading, level); only ever grows
        self.thread = threading.Thread(target=self.run, daemon=True)
        self.thread.start()

    def run(self):
        """Reads as it comes, whatever else the test does, so that the times are right."""
        size, rest = self.RATE_HZ // 100 * 2, b""
        while more := os.read(self.process.stdout.fileno(), 65536):
            now = time.monotonic()
            rest += more
            while len(rest) >= size:
                samples = array.array("h", rest[:size])
                rest = rest[size:]
                self.pieces.append((now, math.sqrt(sum(x * x for x in samples) / len(samples))))

    def read_for_a_while(self):
        """Until something comes at all: a fresh source takes up to two seconds."""
        until(lambda: self.pieces, "sound from a monitor")

    def await_level(self, holds, what, run=1, patience_s=PATIENCE_S, after=None):
        """When `run` pieces in a row were of a level for which `holds`: the time of the first, which
        came later than now, or than `after`."""
        end = time.monotonic() + patience_s
        after = time.monotonic() if after is None else after
        while time.monotonic() < end:
            pieces = self.pieces[:]
            start = next((n for n, (at, _) in enumerate(pieces) if at > after), len(pieces))
            count = 0
            for n in range(start, len(pieces)):
                count = count + 1 if holds(pieces[n][1]) else 0
                if count == run:
                    return pieces[n - run + 1][0]
            select.select([], [], [], 0.02)
        raise AssertionError(f"waited in vain: {what}")

    def last(self, holds):
        """When the last piece for which `holds` was read; None: there was none."""
        return next((at for at, level in reversed(self.pieces[:]) if holds(level)), None)

    def close(self):
        self.process.terminate()
        self.process.wait()
        self.thread.join()
        self.process.stdout.close()
