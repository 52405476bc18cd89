"""How long from the last word to what is said back, heard from outside: some two dozen calls on a
headset that PulseAudio plays, and where the time goes. Goal, in all, to the cue: p50 300 ms, p95
550 ms.

    LAPEL=build/lapel LAPEL_SOURCE=. python3 tests/devices/latency.py [TIMES]

The first sound of an answer is its cue; the words of the read-back follow it, and both are told. Of
each call, all in milliseconds:

  in all, to the cue     from the last audible sample that was said to the first of the cue, both
                         recorded from monitors, whose own delay (10 ms about) cancels out
  in all, to the words   the same to the first sample of the words
  end found late         the ears' end of the words behind the last audible sample, from the file
  hang-over              from there to the decision, in the sound's own time: the ears'
  capture                until the deciding sample was in the ears, and what they have to reckon
                         before they decide: what is left when all else is taken away
  work                   from the decision to the cue's hand-over: the last look, the conversation,
                         the disk
  output                 from the hand-over to the cue's first sample, and back through a monitor
  cue                    from its first sample to that of the words

What was not answered by a cue is told too, with what was heard."""

import json
import os
import subprocess
import sys
import time
import unittest
import wave

from live import AUDIBLE, LAPEL, SOURCE, Station
from pulse import missing, until

CALLS = ["chest twenty", "chest twenty one and a half", "length twenty eight", "sleeve thirteen",
         "waist sixteen", "hem twenty two", "collar fifteen", "flaw none", "colour dark green",
         "bin twelve", "kind shirt", "length thirty", "chest nineteen", "sleeve twenty four",
         "route mending", "size forty two", "flaw small hole left cuff", "waist eighteen",
         "chest twenty six", "length twenty nine", "collar sixteen", "hem twenty", "strike that",
         "restore"]
TIMES = int(sys.argv.pop(1)) if len(sys.argv) > 1 else 1
QUIET = 30  # root mean square
SILENT_PIECES = 80  # an answer has ended


def root_mean_squares(path):
    with wave.open(path) as file:
        samples = memoryview(file.readframes(file.getnframes())).cast("h")
    return [(sum(x * x for x in samples[n:n + 160]) / 160) ** 0.5
            for n in range(0, len(samples) - 159, 160)]


def cue_pieces():
    """How many pieces each cue lasts, by its name, and one more."""
    with open(os.path.join(SOURCE, "audio", "cues.txt")) as file:
        lines = [line.split("#")[0].split("level")[0].split() for line in file]
    return {name: sum(int(tone.split("/")[1]) for tone in tones) // 10 + 2
            for name, *tones in filter(None, lines)}


class Latency(Station):
    def found_late_ms(self, path):
        """By how much the ears' end of the words lies behind their last audible sample."""
        levels = root_mean_squares(path)
        last = max(n for n, level in enumerate(levels) if level > AUDIBLE)
        heard = subprocess.run([LAPEL, "hear", path], env=self.environment, text=True,
                               capture_output=True, check=True).stdout.splitlines()
        return json.loads(heard[-1])["end_ms"] - (last + 1) * 10 if heard else 0

    def answer(self, seen):
        """The last utterance of which lapel has told since it had told `seen` lines."""
        def last():
            while self.station.line(0.02) is not None:
                continue
            heard = [json.loads(line) for line in self.station.seen[seen:]
                     if line.startswith("{")]
            return [line for line in heard if "decided_ms" in line][-1:]
        try:
            return until(last, "what was heard", patience_s=5)[0]
        except AssertionError:
            return None

    def measure(self, text):
        """One call's times in milliseconds, or in words why there are none."""
        path = self.words("call", text)
        seen = len(self.station.seen)
        began = time.monotonic()
        self.speak(path).wait()
        heard = self.answer(seen)
        if heard is None:
            return "nothing was heard"
        told = f"heard \"{heard['text']}\", {heard['verdict']}"
        try:
            self.ear.await_level(lambda level: level <= QUIET, "silence", run=SILENT_PIECES,
                                 after=heard["answered_clock_us"] / 1e6 + 0.1)
        except AssertionError:
            return told + ", and it does not end"
        ended = self.mouth.last(lambda level: level > AUDIBLE)
        answered = heard["answered_clock_us"] / 1e6
        pieces = [(at, level) for at, level in self.ear.pieces[:] if at > began]
        first = next((n for n, (at, level) in enumerate(pieces)
                      if level > AUDIBLE and at > answered), None)
        if first is None:
            return told + ", not answered"
        cue = pieces[first][0]
        if cue < ended:
            return told + ", answered before the end"
        words = next((n for n in range(first + self.cues[heard["verdict"]], len(pieces))
                      if pieces[n][1] > AUDIBLE), None)
        if words is None:
            return told + ", a cue without words"
        in_all = (cue - ended) * 1000
        work = heard["compute_ms"] + heard["answered_after_us"] / 1000
        output = (cue - answered) * 1000
        hang_over = heard["decided_ms"] - heard["end_ms"]
        late = self.late[text]
        to_words = (words - first) * 10
        return {"in all, to the cue": in_all, "in all, to the words": in_all + to_words,
                "end found late": late, "hang-over": hang_over,
                "capture": in_all - late - hang_over - work - output, "work": work,
                "output": output, "cue": to_words, "verdict": heard["verdict"]}

    def test_latency(self):
        self.cues = cue_pieces()
        self.late = {text: self.found_late_ms(self.words("call", text)) for text in CALLS}
        self.start("--json")
        self.ear, self.mouth = self.record_ear(), self.record_ear("mouth.monitor")
        figures = []
        for text in CALLS * TIMES:
            measured = self.measure(text)
            if isinstance(measured, str):
                print(f"{text}: {measured}")
            else:
                figures.append(measured)
        print(f"{len(figures)} of {len(CALLS) * TIMES} calls were answered by a cue and words; "
              + ", ".join(f"{sum(one['verdict'] == name for one in figures)} {name}"
                          for name in ("taken", "doubted", "refused")))
        for name in list(figures[0])[:-1]:
            values = sorted(figure[name] for figure in figures)
            print(f"{name:22} p50 {values[len(values) // 2]:5.0f} ms   "
                  f"p95 {values[int(len(values) * 0.95)]:5.0f} ms")


if __name__ == "__main__":
    if missing():
        sys.exit("there is no " + ", ".join(missing()))
    unittest.main()
