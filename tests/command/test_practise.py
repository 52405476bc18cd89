"""The first ten minutes: a made-up garment, coached, and nothing written."""

import os
import unittest

import station

CALLS = ["kind shirt", "chest twenty one and a half", "length twenty nine",
         "sleeve twenty four and a quarter", "collar fifteen and three quarters", "strike that",
         "restore", "flaw small stain left cuff", "colour blue", "bin twelve", "repeat",
         "next"]


class Practise(station.WithFolder):
    def practise(self, calls):
        self.dictate("a", "voice rms\nroom -56\n" + "".join(f"say {call}\n" for call in calls))
        return station.lapel("practise", "--sound", self.path("a.wav"), "--spoken",
                             self.path("spoken.wav")).stdout

    def test_a_garment_is_practised_call_by_call(self):
        shown = self.practise(CALLS)
        asked = [line.split("Say: ")[1] for line in shown.splitlines() if "Say: " in line]
        self.assertEqual(CALLS, asked)
        self.assertRegex(shown, r"(?m)^lapel: 1[0-2] of 12 calls were understood")
        self.assertGreater(os.path.getsize(self.path("spoken.wav")), 16000)
        # Only what the test put there, and what was said.
        self.assertEqual(["a.presses", "a.script", "a.wav", "spoken.wav"],
                         sorted(os.listdir(self.folder)))

    def test_what_was_hard_is_told_at_the_end(self):
        shown = self.practise(["kind shirt", "waist sixteen", "chest twenty one and a half",
                               "sleeve twenty", "sleeve twenty", "sleeve twenty", "sleeve twenty"])
        self.assertIn("Once more: chest twenty one and a half", shown)
        self.assertIn("That one is hard, and we go on", shown)
        self.assertRegex(shown, r"2 of 12 calls were understood; hard for you: chest twenty one and"
                                r" a half, length twenty nine\b")

    def test_silence_is_prompted_again(self):
        self.dictate("a", "voice rms\nwait 50\n")
        shown = station.lapel("practise", "--sound", self.path("a.wav")).stdout
        self.assertGreaterEqual(shown.count("Say: kind shirt"), 2)

    def test_nonsense_is_told(self):
        station.lapel("practise", "now", status=2)
        station.lapel("practise", "--spoken", "a.wav", status=2)
        station.lapel("practise", "--sound", self.path("none.wav"), status=1)


if __name__ == "__main__":
    unittest.main()
