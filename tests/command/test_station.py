"""The commands of the station that need no device: pedal and soundcheck."""

import os
import unittest
import wave

import station

PHRASES = ["chest twenty one and a half", "length twenty eight", "sleeve thirteen",
           "sleeve thirty", "waist fifteen and three quarters", "hem fifty",
           "flaw small hole left cuff", "flaw none", "colour dark green", "what is missing",
           "repeat", "next"]


class Pedal(station.WithFolder):
    def test_presses_and_what_they_do_are_shown(self):
        presses = self.write("p", "1.0 KEY_B 1\n1.1 KEY_B 0\n3.0 KEY_B 1\n3.8 KEY_B 0\n")
        self.assertEqual(["KEY_B down", "KEY_B up", "  -> next", "KEY_B down",
                          "  -> held: the cue sounds", "KEY_B up", "  -> strike that"],
                         station.lapel("pedal", "--presses", presses).stdout.splitlines())

    def test_three_switches_act_at_the_press(self):
        presses = self.write("p", "1.0 KEY_C 1\n1.1 KEY_C 0\n")
        shown = station.lapel("pedal", "--presses", presses, "--switches",
                              "KEY_A:strike KEY_B:next KEY_C:repeat").stdout
        self.assertEqual(["KEY_C down", "  -> repeat", "KEY_C up"], shown.splitlines())

    def test_one_switch_is_learned(self):
        presses = self.write("p", "1 KEY_F13 1\n2 KEY_F13 0\n3 KEY_F13 1\n4 KEY_F13 0\n")
        learned = station.lapel("pedal", "--learn", "--presses", presses).stdout
        self.assertEqual("[pedal]\nkey = KEY_F13\n", learned)

    def test_three_switches_are_learned(self):
        presses = self.write("p", "".join(f"{at} KEY_{key} 1\n{at}.5 KEY_{key} 0\n"
                                          for at, key in enumerate("BCA")))
        learned = station.lapel("pedal", "--learn", "--presses", presses).stdout
        self.assertEqual("[pedal]\nkey = KEY_B:next KEY_C:repeat KEY_A:strike\n", learned)
        # What is learned is what the settings take.
        file = self.write("a.ini", learned)
        shown = station.lapel("pedal", "--settings", file, "--presses", presses).stdout
        self.assertEqual(["next", "repeat", "strike that"],
                         [line[5:] for line in shown.splitlines() if line[:4] == "  ->"])

    def test_nothing_pressed_teaches_nothing(self):
        station.lapel("pedal", "--learn", "--presses", self.write("p", ""), status=1)

    def test_a_scan_is_shown_as_its_label(self):
        keys = ["KEY_4", "KEY_8", "KEY_2", "KEY_ENTER"]
        presses = self.write("p", "".join(f"1.0{i} {key} 1\n1.0{i}5 {key} 0\n"
                                          for i, key in enumerate(keys)))
        self.assertEqual("label 482\n",
                         station.lapel("pedal", "--reader", "--presses", presses).stdout)

    def test_nonsense_is_told(self):
        station.lapel("pedal", "--switches", "KEY_B:jump", "--presses", self.write("p", ""),
                      status=1)
        station.lapel("pedal", "--learn", "--reader", status=2)
        station.lapel("pedal", "now", status=2)


class Soundcheck(station.WithFolder):
    def read_aloud(self, gain=1.0):
        """All phrases with a second of a quiet room between them."""
        samples = bytearray()
        room = os.urandom(16000)  # a faint hiss: one bit
        quiet = b"".join((b & 1).to_bytes(2, "little") for b in room)
        for phrase in PHRASES:
            station.lapel("say", phrase, "--to", self.path("one.wav"))
            with wave.open(self.path("one.wav")) as file:
                samples += quiet + file.readframes(file.getnframes())
        path = self.path("read.wav")
        with wave.open(path, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(16000)
            words = [max(-32768, min(32767, int(gain * value)))
                     for value in memoryview(bytes(samples + quiet)).cast("h")]
            file.writeframes(b"".join(value.to_bytes(2, "little", signed=True)
                                      for value in words))
        return path

    def figures(self, printed):
        return {line[:11].strip(): line[11:] for line in printed.splitlines()
                if line[:11].strip() in ("room", "speech", "clipped", "bandwidth", "phrases")}

    def test_a_good_microphone_is_found_to_be_good(self):
        printed = station.lapel("soundcheck", "--sound", self.read_aloud()).stdout
        figures = self.figures(printed)
        self.assertIn("8 kHz", figures["bandwidth"])
        self.assertEqual("0 samples", figures["clipped"])
        self.assertGreaterEqual(int(figures["phrases"].split()[0]), 9, printed)

    def test_one_that_is_far_too_loud_is_told(self):
        printed = station.lapel("soundcheck", "--sound", self.read_aloud(gain=30)).stdout
        self.assertIn("turn the microphone's level down", printed)

    def test_silence_is_told(self):
        path = self.path("silence.wav")
        with wave.open(path, "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(16000)
            file.writeframes(bytes(32000 * 3))
        printed = station.lapel("soundcheck", "--sound", path).stdout
        self.assertIn("No speech was heard", printed)
        self.assertEqual("0 of 12 understood", self.figures(printed)["phrases"])

    def test_a_file_that_is_not_there_is_told(self):
        self.assertIn("none.wav", station.lapel("soundcheck", "--sound", "none.wav",
                                                status=1).stderr)


if __name__ == "__main__":
    unittest.main()
