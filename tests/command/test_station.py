"""The commands of the station that need no device: settings, pedal, soundcheck and pace."""

import os
import unittest
import wave

import station

PHRASES = ["chest twenty one and a half", "length twenty eight", "sleeve thirteen",
           "sleeve thirty", "waist fifteen and three quarters", "hem fifty",
           "flaw small hole left cuff", "flaw none", "colour dark green", "what is missing",
           "repeat", "next"]


class Settings(station.WithFolder):
    def test_every_value_says_where_it_came_from(self):
        file = self.write("a.ini", "[units]\n\nlength = cm\n[pedal]\nkey = KEY_A\n")
        printed = station.lapel("settings", "--settings", file).stdout
        self.assertIn(f"length = cm\n#   from {file}, line 3\n", printed)
        self.assertIn(f"key = KEY_A\n#   from {file}, line 5\n", printed)
        self.assertIn("currency = USD\n#   built in\n", printed)

    def test_what_is_printed_is_a_file_of_settings(self):
        first = station.lapel("settings").stdout
        file = self.write("saved.ini", first)
        second = station.lapel("settings", "--settings", file).stdout
        values = [[line for line in text.splitlines() if line and line[0] != "#"]
                  for text in (first, second)]
        self.assertEqual(values[0], values[1])
        self.assertIn("keep_days = 14", values[0])

    def test_the_users_file_is_found_where_it_belongs(self):
        os.mkdir(self.path("lapel"))
        file = self.write("lapel/lapel.ini", "[voice]\nrate = 1.5\n")
        self.assertIn(f"rate = 1.5\n#   from {file}, line 2\n", station.lapel("settings").stdout)

    def test_a_wrong_file_is_told(self):
        file = self.write("a.ini", "[units]\nlength = ells\n")
        self.assertIn("in or cm", station.lapel("settings", "--settings", file, status=1).stderr)


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


class Pace(station.WithFolder):
    def test_the_records_and_the_caution_are_shown(self):
        self.dictate("a", "voice rms\nroom -56\npause 1.9\nsay kind shirt\n"
                          "say chest twenty one\npress tap\npress tap\n")
        self.listen("a", "a.db", "--who", "Ines")
        shown = station.lapel("pace", "--db", self.path("a.db")).stdout
        self.assertRegex(shown, r"(?m)^\d{4}-\d\d-\d\d +\d+ ")
        self.assertIn("regulated", shown)
        nobody = station.lapel("pace", "--db", self.path("a.db"), "--who", "Tom").stdout
        self.assertIn("Nothing was dictated by this name", nobody)

    def test_what_is_wrong_is_told(self):
        station.lapel("pace", status=2)
        station.lapel("pace", "--db", "x", "--days", "many", status=2)
        station.lapel("pace", "--db", self.path("none.db"), status=1)
        station.lapel("pace", "--db", self.write("no.db", "no database at all" * 100), status=1)


if __name__ == "__main__":
    unittest.main()
