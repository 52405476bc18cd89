"""How long from the last word to what is said back, heard from outside: twenty calls and more on a
headset that PulseAudio plays, and where the time goes. Goal: p50 300 ms, p95 550 ms.

    LAPEL=build/lapel LAPEL_SOURCE=. python3 tests/devices/latency.py

Of each call: `hang-over` from the end of the words to the decision that they have ended, in the
sound's own time, which is the ears'; `to the cue` from there to the first sample of the cue, which
has in it both devices' latency, the recogniser's look, the disk, and the 23 to 34 ms of the loop from
paplay to parec; `to the voice` from the first sample of the cue to the first of the words."""

import json
import sys
import time
import unittest

from live import AUDIBLE, Station
from pulse import missing

CALLS = ["chest twenty", "chest twenty one and a half", "length twenty eight", "sleeve thirteen",
         "waist sixteen", "hem twenty two", "collar fifteen", "flaw none", "colour dark green",
         "bin twelve", "kind shirt", "length thirty", "chest nineteen", "sleeve twenty four",
         "route mending", "size forty two", "flaw small hole left cuff", "waist eighteen",
         "chest twenty six", "length twenty nine", "collar sixteen", "hem twenty", "strike that",
         "restore"]
QUIET, CUE_PIECES = 30, 17  # root mean square; hundredths of a second


class Latency(Station):
    def measure(self, text):
        """One call's times in seconds, or None where nothing was said back."""
        path = self.words("call", text)
        seen = len(self.station.seen)
        began = time.monotonic()
        self.speak(path).wait()
        try:
            cue = self.ear.await_level(lambda heard: heard > QUIET, "the cue", after=began,
                                       patience_s=4)
            self.ear.await_level(lambda heard: heard <= QUIET, "the end of it", run=60, after=cue)
        except AssertionError:
            return None
        while True:
            try:
                self.station.await_line(lambda line: line.startswith("{"), "a line", 0.05)
            except AssertionError:
                break
        ended = self.mouth.last(lambda heard: heard > AUDIBLE)
        pieces = [level for at, level in self.ear.pieces[:] if at >= cue]
        # The words: what is loud after the longest cue that is followed by words, and a pause.
        voice = next((n for n in range(CUE_PIECES, len(pieces))
                      if pieces[n] > QUIET >= max(pieces[n - 2:n])), None)
        heard = [json.loads(line) for line in self.station.seen[seen:] if line.startswith("{")]
        heard = [line for line in heard if "decided_ms" in line]
        if not heard or voice is None or cue < ended:
            return None
        voice_s = voice / 100
        hang_over = (heard[-1]["decided_ms"] - heard[-1]["end_ms"]) / 1000
        return {"in all, to the cue": cue - ended, "in all, to the voice": cue - ended + voice_s,
                "hang-over": hang_over, "compute": heard[-1]["compute_ms"] / 1000,
                "to the cue": cue - ended - hang_over, "to the voice": voice_s}

    def test_latency(self):
        self.start("--json")
        self.ear, self.mouth = self.record_ear(), self.record_ear("mouth.monitor")
        figures = [figure for figure in map(self.measure, CALLS) if figure]
        print(f"{len(figures)} of {len(CALLS)} calls were answered")
        for name in figures[0]:
            values = sorted(figure[name] * 1000 for figure in figures)
            print(f"{name:22} p50 {values[len(values) // 2]:5.0f} ms   "
                  f"p95 {values[int(len(values) * 0.95)]:5.0f} ms")


if __name__ == "__main__":
    if missing():
        sys.exit("there is no " + ", ".join(missing()))
    unittest.main()
